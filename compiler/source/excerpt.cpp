#include "source/excerpt.hpp"
#include "source/utf8.hpp"
#include <algorithm>

namespace loomsheet {

namespace {
constexpr std::size_t most_columns = 100; // a line up to here is shown whole
constexpr std::size_t lead_columns = 40;  // kept before the place in a line that is cut
constexpr std::size_t tab_columns = 4;
constexpr std::size_t most_excerpt_bytes = 4096; // marks on marks take no column: an end to them

std::size_t at_most_columns_of(char32_t code) { return code == '\t' ? tab_columns : static_cast<std::size_t>(columns_of(code)); }

// Where the excerpt starts: the line's start, or some characters before the place.
std::size_t start_of_window(std::string_view line, std::size_t place) {
    std::size_t columns = 0;
    std::size_t at = place;
    while (at > 0 && columns < lead_columns && place - at < most_excerpt_bytes) {
        at = character_begin(line, at - 1);
        columns += at_most_columns_of(character_at(line, at).code);
    }
    return at;
}

// A line that is short enough is shown from its start.
bool fits(std::string_view line) {
    std::size_t columns = 0;
    for (std::size_t at = 0; at < line.size(); at += character_at(line, at).bytes) {
        columns += at_most_columns_of(character_at(line, at).code);
        if (columns > most_columns || at > most_excerpt_bytes) return false;
    }
    return true;
}
} // namespace

Excerpt excerpt_of(const SourceFile& file, Span at) {
    const std::string_view line = file.line_at(at.begin);
    const std::size_t line_begin = file.line_begin(at.begin);
    const std::size_t place = std::min(at.begin - line_begin, line.size());
    const std::size_t place_end = std::clamp<std::size_t>(at.end - line_begin, place, line.size());
    const std::size_t begin = fits(line) ? 0 : start_of_window(line, place);

    Excerpt excerpt;
    std::size_t columns = 0;
    std::size_t end_column = 0;
    if (begin > 0) {
        excerpt.line = "…";
        columns = 1;
    }
    std::size_t offset = begin;
    excerpt.before = end_column = columns;
    while (offset < line.size() && columns < most_columns && offset - begin < 2 * most_excerpt_bytes) {
        const Character character = character_at(line, offset);
        std::size_t width = static_cast<std::size_t>(columns_of(character.code));
        if (character.code == '\t') {
            width = tab_columns - columns % tab_columns;
            excerpt.line.append(width, ' ');
        } else {
            append_printable(excerpt.line, character, line.substr(offset, character.bytes));
        }
        offset += character.bytes;
        columns += width;
        if (offset <= place) excerpt.before = columns;
        if (offset <= place_end) end_column = columns;
    }
    if (offset < line.size()) excerpt.line += "…";
    excerpt.marked = std::max<std::size_t>(1, end_column > excerpt.before ? end_column - excerpt.before : 0);
    return excerpt;
}

} // namespace loomsheet
