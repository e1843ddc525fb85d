#include "drawing/place/packing.hpp"
#include <algorithm>

namespace loomsheet::drawing {

Packing::Packing(const Layered& layered, const Blocks& blocks, const Bodies& bodies, const Neighbours& neighbours)
    : nodes_(layered.scheme.nodes), blocks_(blocks), bodies_(bodies), ties_(blocks.count()), x_(blocks.count(), 0),
      edge_(layered.layers, 0) {
    for (int n = 0; n < static_cast<int>(nodes_.size()); ++n)
        for (std::size_t p = 0; p < neighbours[n].size(); ++p)
            for (const auto& [other, port] : neighbours[n][p])
                if (blocks.of[other] != blocks.of[n])
                    ties_[blocks.of[n]].push_back({blocks.of[other], &bodies[other].offset, &nodes_[other].ports[port].column,
                                                   &bodies[n].offset, &nodes_[n].ports[p].column});
}

void Packing::pack(const std::vector<int>& order) {
    edge_.assign(edge_.size(), 0);
    for (const int block : order) {
        double x = 0;
        for (const int n : blocks_.members[block])
            x = std::max(x, edge_[nodes_[n].layer] + bodies_[n].left);
        x_[block] = x;
        for (const int n : blocks_.members[block])
            edge_[nodes_[n].layer] = x + bodies_[n].right + mm::gap;
    }
}

double Packing::median_of(int block) {
    aims_.clear();
    for (const Tie& tie : ties_[block])
        aims_.push_back(x_[tie.other] + (*tie.other_offset)[*tie.other_column] - (*tie.offset)[*tie.column]);
    if (aims_.empty()) return x_[block];
    const auto middle = aims_.begin() + static_cast<long>((aims_.size() - 1) / 2);
    std::nth_element(aims_.begin(), middle, aims_.end());
    return *middle;
}

void Packing::sweep(const std::vector<int>& order) {
    edge_.assign(edge_.size(), width());
    for (auto it = order.rbegin(); it != order.rend(); ++it) {
        double most = 1e9;
        for (const int n : blocks_.members[*it])
            most = std::min(most, edge_[nodes_[n].layer] - bodies_[n].right - mm::gap);
        x_[*it] = std::max(std::min(median_of(*it), most), std::min(x_[*it], most));
        for (const int n : blocks_.members[*it])
            edge_[nodes_[n].layer] = x_[*it] - bodies_[n].left;
    }
    edge_.assign(edge_.size(), 0);
    for (const int block : order) {
        double least = 0;
        for (const int n : blocks_.members[block])
            least = std::max(least, edge_[nodes_[n].layer] + bodies_[n].left);
        x_[block] = std::max(least, std::min(median_of(block), x_[block]));
        for (const int n : blocks_.members[block])
            edge_[nodes_[n].layer] = x_[block] + bodies_[n].right + mm::gap;
    }
}

double Packing::width() const {
    double width = 0;
    for (const double right : edge_)
        width = std::max(width, right);
    return width;
}

} // namespace loomsheet::drawing
