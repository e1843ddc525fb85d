// Source files and places in them. A place is a byte range in one file; lines and columns are worked out only when
// shown.
#pragma once
#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

namespace loomsheet {

// Bytes [begin, end) of file number `file` in a `Sources`.
struct Span {
    std::uint32_t file = 0;
    std::uint32_t begin = 0;
    std::uint32_t end = 0;
    friend bool operator==(const Span&, const Span&) = default;
};

// Both count from 1; the column counts code points, a tab counts as one, a byte order mark at the start as none.
struct Position {
    std::uint32_t line = 1;
    std::uint32_t column = 1;
};

// How a file is named to people: its path, or "standard input" for "-".
std::string shown_name(const std::string& path);

class SourceFile {
public:
    // `text` is kept as given: valid UTF-8 is the caller's business (see `first_bad_utf8`).
    SourceFile(const std::string& path, std::string text);
    // As it is shown.
    const std::string& name() const { return name_; }
    std::string_view text() const { return text_; }
    std::string_view text(Span span) const;
    Position position(std::uint32_t offset) const;
    // The line that holds `offset`, without its end of line.
    std::string_view line_at(std::uint32_t offset) const;
    std::uint32_t line_begin(std::uint32_t offset) const;

private:
    std::string name_;
    std::string text_;
    mutable std::vector<std::uint32_t> line_starts_; // filled at the first question
    const std::vector<std::uint32_t>& starts() const;
};

// All files of one run: the plan first, then what it takes in with `use`.
class Sources {
public:
    std::uint32_t add(const std::string& path, std::string text);
    const SourceFile& operator[](std::uint32_t file) const { return files_[file]; }
    std::string_view text(Span span) const { return files_[span.file].text(span); }
    std::size_t size() const { return files_.size(); }

private:
    std::deque<SourceFile> files_; // a file stays where it is when others are added
};

// Offset of the first byte that is not valid UTF-8 (RFC 3629: no surrogates, nothing above U+10FFFF), or npos.
std::size_t first_bad_utf8(std::string_view text);

} // namespace loomsheet
