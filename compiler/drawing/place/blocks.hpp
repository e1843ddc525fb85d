// Chains of nodes joined by wires that nothing else meets. Each stands in one straight line and is moved as one while
// the order is searched.
#pragma once
#include "drawing/place/layers.hpp"

namespace loomsheet::drawing {

// By node and port: the nodes and ports at the other ends of its segments.
using Neighbours = std::vector<std::vector<std::vector<std::pair<int, int>>>>;
Neighbours neighbours_of(const Layered& layered);

struct Blocks {
    std::vector<int> of;                   // by node
    std::vector<std::vector<int>> members; // by block
    std::vector<char> fixed;               // by block: holds the battery, which stands left

    int count() const { return static_cast<int>(members.size()); }
    void keep_fixed_left(std::vector<int>& order) const;
};
Blocks blocks_of(const Layered& layered);
// Where the search begins: depth first from the nodes of the top layer, so that neighbours stand near each other.
std::vector<int> depth_first(const Layered& layered, const Blocks& blocks, const Neighbours& neighbours);

} // namespace loomsheet::drawing
