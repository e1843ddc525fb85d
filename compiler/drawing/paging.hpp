// A circuit that is too large for one page, shared out by function: what is connected without grounds, the battery,
// splices of many wires and large modules stays on one page. No wire is cut: what goes on elsewhere is a splice or a
// pin, marked with the page.
#pragma once
#include "drawing/scheme/scheme.hpp"
#include "drawing/strands.hpp"

namespace loomsheet::drawing {

// Wires, and parts without any, that are drawn together; in the order in which they are declared.
struct Group {
    std::vector<WireId> wires;
    std::vector<PartId> parts;
};
std::vector<Group> groups_of(const Strands& strands);
// One group that alone is too large, in pieces that are connected by wires alone; at last each wire on its own.
std::vector<Group> pieces_of(const Strands& strands, const Group& group);

} // namespace loomsheet::drawing
