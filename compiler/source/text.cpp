#include "source/text.hpp"
#include "source/utf8.hpp"
#include <algorithm>
#include <cstring>

namespace loomsheet {

namespace {
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
}

std::string shown_name(const std::string& path) { return path == "-" ? "standard input" : path; }

SourceFile::SourceFile(const std::string& path, std::string text) : name_(shown_name(path)), text_(std::move(text)) {}

std::string_view SourceFile::text(Span span) const {
    const std::size_t begin = std::min<std::size_t>(span.begin, text_.size());
    const std::size_t end = std::clamp<std::size_t>(span.end, begin, text_.size());
    return std::string_view(text_).substr(begin, end - begin);
}

const std::vector<std::uint32_t>& SourceFile::starts() const {
    if (line_starts_.empty()) {
        line_starts_.push_back(0);
        for (std::size_t at = text_.find('\n'); at != std::string::npos; at = text_.find('\n', at + 1))
            line_starts_.push_back(static_cast<std::uint32_t>(at + 1));
    }
    return line_starts_;
}

std::uint32_t SourceFile::line_begin(std::uint32_t offset) const {
    return *std::prev(std::upper_bound(starts().begin(), starts().end(), offset));
}

Position SourceFile::position(std::uint32_t offset) const {
    offset = std::min(offset, static_cast<std::uint32_t>(text_.size()));
    const auto line = std::prev(std::upper_bound(starts().begin(), starts().end(), offset));
    std::string_view before = std::string_view(text_).substr(*line, offset - *line);
    if (*line == 0 && before.starts_with(byte_order_mark)) before.remove_prefix(byte_order_mark.size());
    return {static_cast<std::uint32_t>(line - starts().begin() + 1), static_cast<std::uint32_t>(count_characters(before) + 1)};
}

std::string_view SourceFile::line_at(std::uint32_t offset) const {
    const std::string_view rest = std::string_view(text_).substr(line_begin(offset));
    std::string_view line = rest.substr(0, rest.find('\n'));
    if (line.ends_with('\r')) line.remove_suffix(1);
    return line;
}

std::uint32_t Sources::add(const std::string& path, std::string text) {
    files_.emplace_back(path, std::move(text));
    return static_cast<std::uint32_t>(files_.size() - 1);
}

std::size_t first_bad_utf8(std::string_view text) {
    std::size_t at = 0;
    while (at < text.size()) {
        // Eight bytes of plain ASCII at a time: nearly all of a plan.
        std::uint64_t eight = 0;
        while (text.size() - at >= sizeof eight) {
            std::memcpy(&eight, text.data() + at, sizeof eight);
            if ((eight & 0x8080808080808080U) != 0) break;
            at += sizeof eight;
        }
        const Character character = character_at(text, at);
        if (!character.good) return at;
        at += character.bytes;
    }
    return std::string_view::npos;
}

} // namespace loomsheet
