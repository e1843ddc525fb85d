// The disk, handed in: the real one for the command, one in memory for tests.
#pragma once
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace loomsheet {

// What went wrong, in words that name the path; empty means it went well.
using DiskError = std::string;

class Disk {
public:
    virtual ~Disk() = default;
    // Reads all of it into `text`, a gigabyte at most. "-" is standard input on the real disk.
    virtual DiskError read(const std::string& path, std::string& text) = 0;
    // The whole file or nothing: written beside it under another name, synced, renamed. Devices are written as they
    // are.
    virtual DiskError write_whole(const std::string& path, std::string_view bytes) = 0;
    virtual bool is_directory(const std::string& path) = 0;
    // Files of a folder and of the folders in it whose names end in `ending`, sorted. A folder that cannot be opened is
    // empty.
    virtual std::vector<std::string> list(const std::string& folder, std::string_view ending) = 0;
    // With the folders above it. It may be there already.
    virtual DiskError make_directory(const std::string& path) = 0;
};

class RealDisk final : public Disk {
public:
    DiskError read(const std::string& path, std::string& text) override;
    DiskError write_whole(const std::string& path, std::string_view bytes) override;
    bool is_directory(const std::string& path) override;
    std::vector<std::string> list(const std::string& folder, std::string_view ending) override;
    DiskError make_directory(const std::string& path) override;
};

class MemoryDisk final : public Disk {
public:
    std::map<std::string, std::string> files;
    std::set<std::string> folders; // those that were made; a folder with files in it needs no making
    DiskError read(const std::string& path, std::string& text) override;
    DiskError write_whole(const std::string& path, std::string_view bytes) override;
    bool is_directory(const std::string& path) override;
    std::vector<std::string> list(const std::string& folder, std::string_view ending) override;
    DiskError make_directory(const std::string& path) override;
};

// `relative` as seen from the file `from`, folders joined and "." and ".." taken out.
std::string beside(const std::string& from, std::string_view relative);

} // namespace loomsheet
