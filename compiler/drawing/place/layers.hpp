// Layer assignment: every node gets a layer, an edge that passes layers is split by dummy nodes, and every wire gets a
// place for its words.
#pragma once
#include "drawing/scheme/scheme.hpp"

namespace loomsheet::drawing {

struct Segment { // from a port to one in the next layer
    int from = none, from_port = 0, to = none, to_port = 0;
    int edge = none;
};
struct Layered {
    Scheme scheme; // its nodes with the dummies
    std::vector<Segment> segments;
    int layers = 0;
    std::vector<std::vector<std::vector<int>>> at; // by node and port: its segments
    void list_segments();
};

// Pressed: layers whose parts fit into a neighbour give them away, so that the drawing is lower and wider.
Layered lay_layers(Scheme scheme, bool pressed);

} // namespace loomsheet::drawing
