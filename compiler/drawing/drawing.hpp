// A plan's circuit drawn by program: supply at the top, ground at the bottom, current downward, every probing point
// with the number of its check. The same plan gives the same pictures.
//
// A layered drawing after Sugiyama: volts say what is up; parts become nodes with pins at top and bottom (`scheme`) and
// cycles are cut (`cycles`); nodes get layers (`layers`) and an order from left to right (`order`), columns their x
// (`columns`), bars between layers their tracks (`tracks`). Words have zones of their own, so that none lies on a line
// (`paint`).
#pragma once
#include "drawing/scheme/picture.hpp"
#include "drawing/scheme/scheme.hpp"
#include "model/plan.hpp"

namespace loomsheet::drawing {

struct Area {
    double width = 180, height = 240; // mm
    double heading = 10;              // what a second picture on the same page needs above it
};
// Where the checks probe; `numbers` are those printed, by check of the plan.
Probes probes_of(const Plan& plan, const std::vector<int>& numbers);
// One picture, or several where it is too large for one; none larger than `area`, unless a single wire with its parts
// is. Small ones find room on one page together.
std::vector<Picture> draw_circuit(const Circuit& circuit, const Probes& probes, const Measure& measure, const Phrases& phrases, Area area);

} // namespace loomsheet::drawing
