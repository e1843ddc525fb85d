// Wire colours: IEC 60757 codes (IEC 757:1983; Table 1 of the 2021 edition taken as unchanged, from memory). One row is all that a
// colour needs: its code, its word, and how paper shows it in black.
#pragma once
#include <cstdint>
#include <span>
#include <string_view>

namespace loomsheet {

enum class Hatching : std::uint8_t { blank, solid, across, along, rising, falling, dots, waves, rings, crosses };
struct Hatch {
    Hatching kind = Hatching::blank;
    double pitch = 0;         // from one line or mark to the next, mm
    double dash = 0, gap = 0; // of broken lines, mm; 0: unbroken
    double from = 0;          // where it begins, from the left edge, mm
};
struct ColourRow {
    std::string_view code;                   // "BU"
    std::string_view word;                   // "blue"
    Hatch hatches[2] = {};                   // one over the other
    std::string_view base = {}, stripe = {}; // of a code that joins two colours: GNYE
    std::string_view other_words = {};       // that mean it, apart by blanks: "slate gray"
};
std::span<const ColourRow> colours(); // in table order
const ColourRow* find_colour_code(std::string_view code);
const ColourRow* find_colour_word(std::string_view word); // also "purple" and "slate"

} // namespace loomsheet
