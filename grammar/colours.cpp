#include "grammar/colours.hpp"

namespace loomsheet {

namespace {
constexpr ColourRow colour_rows[] = {
    {"BK", "black"},  {"BN", "brown"},  {"RD", "red"},   {"OG", "orange"}, {"YE", "yellow"},
    {"GN", "green"},  {"BU", "blue"},   {"VT", "violet"}, {"GY", "grey"},  {"WH", "white"},
    {"PK", "pink"},   {"GD", "gold"},   {"TQ", "turquoise"}, {"SR", "silver"}, {"GNYE", "green and yellow"},
};
constexpr ColourRow more_words[] = {{"VT", "purple"}, {"GY", "slate"}, {"GY", "gray"}};
} // namespace

std::span<const ColourRow> colours() { return colour_rows; }

const ColourRow* find_colour_code(std::string_view code) {
    for (const auto& row : colour_rows)
        if (row.code == code) return &row;
    return nullptr;
}

const ColourRow* find_colour_word(std::string_view word) {
    for (const auto& row : colour_rows)
        if (row.word == word) return &row;
    for (const auto& row : more_words)
        if (row.word == word) return find_colour_code(row.code);
    return nullptr;
}

} // namespace loomsheet
