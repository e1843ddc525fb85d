// What joins the nodes of a scheme before it has a direction: wires, what a splice holds, bolts, marks of other pages.
#pragma once
#include "drawing/scheme/nodes.hpp"

namespace loomsheet::drawing {

struct Link { // between two ends
    End a, b;
    WireId wire = none;
};
// Adds the symbols of grounds and of other pages.
std::vector<Link> make_links(const SchemeSource& from, NodeMaker& nodes, Scheme& scheme);
// A pin with several wires that do not all leave in its own direction gets a point beside it.
void spread_pins(const Circuit& circuit, Scheme& scheme, std::vector<Link>& links);
// Whether a pin is the plus of a battery.
bool is_plus(const Circuit& circuit, PinId pin);

} // namespace loomsheet::drawing
