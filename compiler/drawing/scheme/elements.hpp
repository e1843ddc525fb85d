// The elements of a part that have a sign, as the circuit has them.
#pragma once
#include "drawing/scheme/grid.hpp"

namespace loomsheet::drawing {

struct SignElement {
    Sign sign = Sign::lamp;
    PinId a = none, b = none, c = none;
    PartId part = none;
    bool closed = false; // of a contact: at rest
    std::string when;    // of a switch's contact: the positions that close it
};
// False where no sign is agreed: then the whole part is a box.
bool add_elements(const Circuit& circuit, PartId part, std::vector<SignElement>& list);
// Those of pins without a wire here. An element goes with that of its pins which the fewest share.
void drop_of_other_pages(const Circuit& circuit, PartId part, const std::vector<char>& wired, std::vector<SignElement>& elements);

} // namespace loomsheet::drawing
