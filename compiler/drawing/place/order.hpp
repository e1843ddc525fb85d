// Crossing reduction: which node stands left of which. One order of blocks gives the order in every layer. The search
// is deterministic: the same circuit always has the same order.
#pragma once
#include "drawing/place/layers.hpp"
#include "drawing/scheme/measures.hpp"

namespace loomsheet::drawing {

struct Order {
    std::vector<std::vector<int>> rows; // by layer: nodes from left to right
    std::vector<int> block;             // by node
    std::vector<int> place;             // by block
    double width = 0;                   // as the search reckons
};

// Gives also the order of a box's pins and whether a part is mirrored: in the nodes of `layered`, whose ports' columns
// change. `effort` is how many orders are tried, about.
Order find_order(const Ruler& ruler, Layered& layered, double page_width, long effort);
// Ground symbols of the same point that stand side by side become one.
void join_grounds(Layered& layered, Order& order);

// Wires that share a port meet in one bar: the segments between two layers, put together.
struct Net {
    std::vector<std::pair<int, int>> uppers, lowers; // node and port
    std::vector<int> segments;
    bool rail = false;
};
std::vector<std::vector<Net>> nets_of(const Layered& layered); // by the upper layer
// Whether a point has a line of its own: not where the bar beside it is all there is to see.
bool has_stub(const Layered& layered, int node);

} // namespace loomsheet::drawing
