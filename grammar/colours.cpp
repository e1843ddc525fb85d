#include "grammar/colours.hpp"
#include "grammar/vocabulary.hpp"

namespace loomsheet {

namespace {
constexpr ColourRow colour_rows[] = {
#define COLOUR(name, code_, word_, ...) {.code = code_, .word = word_, __VA_ARGS__},
#include "grammar/colours.inc"
#undef COLOUR
};
} // namespace

std::span<const ColourRow> colours() { return colour_rows; }

const ColourRow* find_colour_code(std::string_view code) {
    for (const auto& row : colour_rows)
        if (row.code == code) return &row;
    return nullptr;
}

const ColourRow* find_colour_word(std::string_view word) {
    for (const auto& row : colour_rows)
        if (row.word == word || lists(row.other_words, word)) return &row;
    return nullptr;
}

} // namespace loomsheet
