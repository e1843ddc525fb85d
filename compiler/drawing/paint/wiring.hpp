// The wires of a layout as electrical nets: which segments are joined, and how thick each line is.
#pragma once
#include "drawing/place/layers.hpp"
#include "drawing/scheme/sets.hpp"

namespace loomsheet::drawing {

class Wiring {
public:
    // Both outlive it.
    Wiring(const Circuit& circuit, const Layered& layered);
    // Segments that a wire, or a point, joins have one number.
    int net_of(int segment) { return nets_.root_of(segment); }
    // Of a port that nothing leads to: a number of its own.
    int net_at(int node, int port);
    // Line widths, points.
    double width_of(int segment) const;
    double width_at(int node, int port) const; // of the thickest wire there

private:
    const Circuit& circuit_;
    const Layered& layered_;
    Sets nets_; // of segments
};

} // namespace loomsheet::drawing
