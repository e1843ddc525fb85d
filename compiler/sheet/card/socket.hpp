// The socket of a relay or fuse that is taken out: its terminals by their numbers, each with the colours of its wires,
// by which it is recognised. A plan does not say where the terminals lie in the socket; the drawing does not show it,
// and says so.
#pragma once
#include "sheet/card/housing.hpp"
#include "sheet/words/words.hpp"

namespace loomsheet {

struct Socket {
    PartId part = none;
    std::vector<Housing::Probe> probed;
};
// `width` wide from y down; returns where it ends.
double socket(const Wording& say, Pen& pen, const Circuit& circuit, const Socket& seen, double x, double y, double width);

} // namespace loomsheet
