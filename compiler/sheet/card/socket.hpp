// The socket of a relay or fuse that is taken out: its terminals by their numbers, each with the colours of its wires,
// by which one knows it. Where the terminals lie in the socket a plan does not say, so the drawing does not claim it,
// and says so.
#pragma once
#include "sheet/card/housing.hpp"

namespace loomsheet {

struct Socket {
    PartId part = none;
    std::vector<Housing::Probe> probed;
};
// `width` wide from y down; gives where it ends.
double socket(Pen& pen, const Circuit& circuit, const Socket& seen, double x, double y, double width);

} // namespace loomsheet
