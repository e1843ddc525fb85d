// The measures of a drawing in millimetres, line widths in points. They come from trying and looking; sizes of type are
// those of the sheet's rules: colours have capitals of 3 mm and more, all else at least 9 pt.
#pragma once
#include "drawing/scheme/scheme.hpp"
#include <array>
#include <string>
#include <vector>

namespace loomsheet::drawing {

namespace mm {
inline constexpr double beside = 0.9; // from a wire to its words
inline constexpr double plug_radius = 1.4;
inline constexpr double gap = 1.6;     // between what belongs to neighbouring columns
inline constexpr double track = 3.0;   // from bar to bar
inline constexpr double channel = 1.3; // above the first bar and below the last
inline constexpr double lead = 4.2, plug_lead = 5.2;
inline constexpr double probe = 5.6;                          // circle around a number
inline constexpr double probe_row = 4.4, probe_between = 1.6; // from row to row of numbers, from number to number
inline constexpr double label = 0.8;                          // from a sign to what is written right of it
inline constexpr double outline = 2.2;                        // from the outermost sign to its outline
inline constexpr double title = 1.6;                          // from a sign or an outline to its title
inline constexpr double cavity = 8.8;                         // height of an in-line pair
inline constexpr double box_margin = 5;
inline constexpr double contact_pitch = 12;
inline constexpr double ground_half = 3.4, ground = 4.2;    // sign
inline constexpr double colour_line = 5.2, size_line = 3.9; // of a wire's words
inline constexpr double box_line = 4.2;                     // a row of names inside a box
} // namespace mm

namespace pt {
inline constexpr double wire = 1.0, thick = 1.3, heavy = 1.7, rail = 2.0, sign = 1.0, outline = 0.8, link = 0.8, probe = 1.0;
}

// What everything is measured with.
struct Ruler {
    const Circuit& circuit;
    const Measure& measure;
    Manner manner;
};

// The words of a wire: colour, then number and size.
struct WireWords {
    std::string colour, size;
    double size_x = 0; // of the size, from the left end
    double width = 0, height = 0;
    std::vector<int> checks;
};
WireWords wire_words(const Ruler& ruler, const Edge& edge);

// Rows of numbers of checks beside a pin: one is in a circle, several in a frame with round ends.
struct ProbeMark {
    std::vector<std::vector<std::string>> rows;
    double width = 0, height = 0;
};
ProbeMark probe_mark(const Ruler& ruler, const std::vector<int>& checks);

// How far everything about a column reaches from its line, in the three zones of a layer: above the band, the band,
// below it.
struct Extent {
    std::array<double, 3> left{}, right{};
};
// Heights that a node asks of its layer.
struct Heights {
    double label_above = 0, lead_above = 0, band = 0, lead_below = 0, label_below = 0;
};
struct Sizes {
    std::vector<Extent> extents; // by column of the node; outermost columns carry outline and title
    std::vector<double> pitch;   // least distance from each column to the next, for parts
    Heights heights;
    double least_width = 0; // of a box
};
Sizes sizes_of(const Ruler& ruler, const Scheme& scheme, const Node& node);

// Of a part: from its first column to the left edge of its outline, from its last to the right one.
struct Overhang {
    double left = 0, right = 0;
};
Overhang overhang_of(const Node& node, const Measure& measure);
double reach_right(const Cell& cell); // of a sign, from its last column
double label_width(const Cell& cell, const Measure& measure);
double title_width(const Node& node);
double title_height(const Node& node);
// Of the node's own figure, without what the layer adds.
double band_height(const Node& node);

} // namespace loomsheet::drawing
