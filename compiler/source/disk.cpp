#include "source/disk.hpp"
#include "source/text.hpp"
#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <filesystem>
#include <fmt/format.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace loomsheet {

namespace fs = std::filesystem;

namespace {
constexpr std::size_t most_bytes = 1'000'000'000;

std::string reason(int code) {
    switch (code) {
    case ENOENT: return "there is no such file or folder";
    case EACCES:
    case EPERM: return "there is no permission for it";
    case EISDIR: return "it is a folder";
    case ENOTDIR: return "a part of its path is a file, not a folder";
    case ENOSPC: return "the disk is full";
    case EROFS: return "the disk may only be read";
    case ENAMETOOLONG: return "its name is too long";
    case ELOOP: return "its links lead in a circle";
    default: return std::generic_category().message(code);
    }
}
DiskError not_read(const std::string& path, const std::string& why) { return fmt::format("{} cannot be read: {}", shown_name(path), why); }
DiskError not_written(const std::string& path, int code) { return fmt::format("{} cannot be written: {}", path, reason(code)); }

// An open file that closes itself.
class Handle {
public:
    explicit Handle(int number) : number_(number) {}
    Handle(const Handle&) = delete;
    Handle& operator=(const Handle&) = delete;
    ~Handle() { close(); }
    bool is_open() const { return number_ >= 0; }
    int number() const { return number_; }
    bool close() {
        const bool well = number_ < 0 || ::close(number_) == 0;
        number_ = -1;
        return well;
    }

private:
    int number_;
};

// 0, or the number of the error.
int write_all(int number, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(number, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return errno;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return 0;
}

int write_and_sync(int number, std::string_view bytes, mode_t mode) {
    if (const int code = write_all(number, bytes)) return code;
    if (::fchmod(number, mode) != 0 || ::fsync(number) != 0) return errno;
    return 0;
}

DiskError write_to_device(const std::string& path, std::string_view bytes) {
    Handle device(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
    if (!device.is_open()) return not_written(path, errno);
    if (const int code = write_all(device.number(), bytes)) return not_written(path, code);
    return device.close() ? DiskError{} : not_written(path, errno);
}
} // namespace

DiskError RealDisk::read(const std::string& path, std::string& text) {
    text.clear();
    Handle opened(path == "-" ? ::dup(STDIN_FILENO) : ::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (!opened.is_open()) return not_read(path, reason(errno));
    struct stat state {};
    if (::fstat(opened.number(), &state) != 0) return not_read(path, reason(errno));
    // One byte more than it has shows its end at once; a pipe does not say how much it has.
    std::size_t room = S_ISREG(state.st_mode) ? static_cast<std::size_t>(state.st_size) + 1 : 65536;
    std::size_t filled = 0;
    while (true) {
        if (room > most_bytes) return not_read(path, "it is larger than a gigabyte");
        text.resize(room);
        const ssize_t got = ::read(opened.number(), text.data() + filled, room - filled);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) {
            text.clear();
            return not_read(path, reason(errno));
        }
        filled += static_cast<std::size_t>(got);
        if (got == 0) break;
        if (filled == room) room *= 2;
    }
    text.resize(filled);
    return {};
}

DiskError RealDisk::write_whole(const std::string& path, std::string_view bytes) {
    struct stat state {};
    const bool there = ::stat(path.c_str(), &state) == 0;
    if (there && S_ISDIR(state.st_mode)) return not_written(path, EISDIR);
    if (there && !S_ISREG(state.st_mode)) return write_to_device(path, bytes);

    // A link stays a link: what it points at is replaced. The new file keeps the rights of the old one.
    std::error_code no_link;
    const fs::path target = there ? fs::canonical(path, no_link) : fs::path(path);
    const std::string name = fmt::format(".{}.{}.part", target.filename().string(), ::getpid());
    const std::string part = (target.parent_path() / name).string();
    Handle opened(::open(part.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, 0666));
    if (!opened.is_open()) return not_written(path, errno);
    struct stat fresh {};
    int code = ::fstat(opened.number(), &fresh) == 0 ? 0 : errno;
    if (code == 0) code = write_and_sync(opened.number(), bytes, (there ? state : fresh).st_mode & 07777U);
    if (!opened.close() && code == 0) code = errno;
    if (code == 0 && ::rename(part.c_str(), target.c_str()) != 0) code = errno;
    if (code == 0) return {};
    ::unlink(part.c_str());
    return not_written(path, code);
}

bool RealDisk::is_directory(const std::string& path) {
    std::error_code none;
    return fs::is_directory(path, none);
}

std::vector<std::string> RealDisk::list(const std::string& folder, std::string_view ending) {
    std::vector<std::string> found;
    std::error_code none;
    fs::recursive_directory_iterator at(folder, fs::directory_options::skip_permission_denied, none);
    for (; !none && at != fs::recursive_directory_iterator(); at.increment(none)) {
        std::error_code gone;
        if (at->path().string().ends_with(ending) && at->is_regular_file(gone)) found.push_back(at->path().string());
    }
    std::sort(found.begin(), found.end());
    return found;
}

DiskError RealDisk::make_directory(const std::string& path) {
    std::error_code code;
    fs::create_directories(path, code);
    if (!code && !is_directory(path)) code = std::make_error_code(std::errc::not_a_directory);
    return code ? fmt::format("the folder {} cannot be made: {}", path, reason(code.value())) : DiskError{};
}

DiskError MemoryDisk::read(const std::string& path, std::string& text) {
    text.clear();
    if (is_directory(path)) return not_read(path, reason(EISDIR));
    const auto at = files.find(path);
    if (at == files.end()) return not_read(path, reason(ENOENT));
    text = at->second;
    return {};
}

DiskError MemoryDisk::write_whole(const std::string& path, std::string_view bytes) {
    if (is_directory(path)) return not_written(path, EISDIR);
    files[path] = std::string(bytes);
    return {};
}

bool MemoryDisk::is_directory(const std::string& path) {
    const std::string inside = path.ends_with('/') ? path : path + '/';
    const auto at = files.lower_bound(inside);
    return folders.contains(path) || (at != files.end() && at->first.starts_with(inside));
}

std::vector<std::string> MemoryDisk::list(const std::string& folder, std::string_view ending) {
    const std::string inside = folder.ends_with('/') ? folder : folder + '/';
    std::vector<std::string> found;
    for (const auto& [path, text] : files)
        if (path.starts_with(inside) && path.ends_with(ending)) found.push_back(path);
    return found;
}

DiskError MemoryDisk::make_directory(const std::string& path) {
    if (files.contains(path)) return fmt::format("the folder {} cannot be made: {}", path, reason(ENOTDIR));
    folders.insert(path);
    return {};
}

std::string beside(const std::string& from, std::string_view relative) {
    return (fs::path(from).parent_path() / fs::path(relative)).lexically_normal().string();
}

} // namespace loomsheet
