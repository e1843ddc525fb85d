// Where the blocks of an order stand, as its search reckons: packed from the left, then drawn towards the median of
// what they are joined to.
#pragma once
#include "drawing/place/bodies.hpp"

namespace loomsheet::drawing {

class Packing {
public:
    // All of these outlive it.
    Packing(const Layered& layered, const Blocks& blocks, const Bodies& bodies, const Neighbours& neighbours);
    // As far left as each may stand behind those before it.
    void pack(const std::vector<int>& order);
    // One sweep to the right and one back to the left, each block towards the median of its neighbours.
    void sweep(const std::vector<int>& order);
    double x_of(int node, int port) const { return x_[blocks_.of[node]] + bodies_[node].offset[nodes_[node].ports[port].column]; }
    double width() const;

private:
    double median_of(int block);

    const std::vector<Node>& nodes_;
    const Blocks& blocks_;
    const Bodies& bodies_;
    struct Tie { // of a block to another: where the other's port stands in its block, and the own one
        int other = 0;
        const std::vector<double>* other_offset = nullptr;
        const int* other_column = nullptr;
        const std::vector<double>* offset = nullptr;
        const int* column = nullptr;
    };
    std::vector<std::vector<Tie>> ties_; // by block
    std::vector<double> x_;              // by block
    std::vector<double> edge_;           // by layer: of what is placed so far
    std::vector<double> aims_;
};

} // namespace loomsheet::drawing
