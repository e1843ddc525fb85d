// How each part is drawn: the signs of its elements with their joints, or a box.
#pragma once
#include "drawing/scheme/scheme.hpp"

namespace loomsheet::drawing {

// A node with ports for all pins that are wired or belong to an element. Splices, grounds and in-line pairs are not
// parts here. `wired` says which pins (of the part's own) have a wire, a bolt or a page to go to. Partly: only the
// elements of pins that are wired here.
Node part_node(const Circuit& circuit, PartId part, const std::vector<double>& volts, const std::vector<char>& wired,
               const Measure& measure, bool partly);
// The cavity that sits on a pin, else the pin.
PinId outer_pin(const Circuit& circuit, PinId pin);

} // namespace loomsheet::drawing
