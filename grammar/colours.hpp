// Wire colours: IEC 60757 codes (IEC 757:1983; Table 1 of the 2021 edition taken as unchanged, from memory).
#pragma once
#include <span>
#include <string_view>

namespace loomsheet {

struct ColourRow {
    std::string_view code; // "BU"
    std::string_view word; // "blue"
};
std::span<const ColourRow> colours(); // in table order
const ColourRow* find_colour_code(std::string_view code);
const ColourRow* find_colour_word(std::string_view word); // also "purple" and "slate"

} // namespace loomsheet
