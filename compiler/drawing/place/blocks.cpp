#include "drawing/place/blocks.hpp"
#include "drawing/scheme/sets.hpp"
#include <algorithm>
#include <numeric>

namespace loomsheet::drawing {
namespace {

bool is_battery(const Node& node) {
    return node.kind == NodeKind::part && !node.grid.cells.empty() && node.grid.cells[0].sign == Sign::battery;
}

} // namespace

Neighbours neighbours_of(const Layered& layered) {
    const std::vector<Node>& nodes = layered.scheme.nodes;
    Neighbours near(nodes.size());
    for (std::size_t n = 0; n < nodes.size(); ++n) {
        near[n].resize(nodes[n].ports.size());
        for (std::size_t p = 0; p < nodes[n].ports.size(); ++p)
            for (const int s : layered.at[n][p]) {
                const Segment& segment = layered.segments[s];
                const bool from = segment.from == static_cast<int>(n) && segment.from_port == static_cast<int>(p);
                near[n][p].push_back(from ? std::pair(segment.to, segment.to_port) : std::pair(segment.from, segment.from_port));
            }
    }
    return near;
}

Blocks blocks_of(const Layered& layered) {
    const std::vector<Node>& nodes = layered.scheme.nodes;
    Sets chains(nodes.size());
    for (const Segment& s : layered.segments) {
        const bool single = layered.at[s.from][s.from_port].size() == 1 && layered.at[s.to][s.to_port].size() == 1;
        if (single && nodes[s.from].columns == 1 && nodes[s.to].columns == 1) chains.join(s.from, s.to);
    }
    Blocks blocks;
    blocks.of.resize(nodes.size());
    std::vector<int> number(nodes.size(), none);
    for (std::size_t n = 0; n < nodes.size(); ++n) {
        int& block = number[chains.root_of(static_cast<int>(n))];
        if (block == none) {
            block = blocks.count();
            blocks.members.emplace_back();
            blocks.fixed.push_back(0);
        }
        blocks.of[n] = block;
        blocks.members[block].push_back(static_cast<int>(n));
        if (is_battery(nodes[n])) blocks.fixed[block] = 1;
    }
    return blocks;
}

void Blocks::keep_fixed_left(std::vector<int>& order) const {
    std::stable_partition(order.begin(), order.end(), [&](int block) { return fixed[block] != 0; });
}

std::vector<int> depth_first(const Layered& layered, const Blocks& blocks, const Neighbours& neighbours) {
    const std::vector<Node>& nodes = layered.scheme.nodes;
    std::vector<char> seen(blocks.count(), 0);
    std::vector<int> order, roots(nodes.size());
    std::iota(roots.begin(), roots.end(), 0);
    std::stable_sort(roots.begin(), roots.end(), [&](int a, int b) { return nodes[a].layer < nodes[b].layer; });
    for (const int root : roots) {
        std::vector<int> next{root};
        while (!next.empty()) {
            const int block = blocks.of[next.back()];
            next.pop_back();
            if (seen[block]) continue;
            seen[block] = 1;
            order.push_back(block);
            std::vector<int> after;
            for (const int member : blocks.members[block])
                for (const auto& port : neighbours[member])
                    for (const auto& [other, unused] : port)
                        if (!seen[blocks.of[other]]) after.push_back(other);
            next.insert(next.end(), after.rbegin(), after.rend());
        }
    }
    blocks.keep_fixed_left(order);
    return order;
}

} // namespace loomsheet::drawing
