#include "drawing/place/order.hpp"
#include "drawing/scheme/sets.hpp"
#include <algorithm>

namespace loomsheet::drawing {

bool has_stub(const Layered& layered, int node) {
    const Node& each = layered.scheme.nodes[node];
    if (each.kind != NodeKind::point && each.kind != NodeKind::turn) return true;
    const auto& at = layered.at[node];
    const bool above = !at[0].empty(), below = !at[1].empty();
    return (above && below) || !each.title.empty() || !each.ports[0].checks.empty() || each.ports[0].label != none ||
           each.ports[1].label != none || at[0].size() + at[1].size() < 2;
}

std::vector<std::vector<Net>> nets_of(const Layered& layered) {
    const auto& segments = layered.segments;
    Sets joined(segments.size());
    for (const auto& node : layered.at)
        for (const auto& port : node)
            for (std::size_t i = 1; i < port.size(); ++i)
                joined.join(port[0], port[i]);
    std::vector<std::vector<Net>> nets(std::max(0, layered.layers - 1));
    std::vector<int> place(segments.size(), none);
    for (std::size_t s = 0; s < segments.size(); ++s) {
        const int root = joined.root_of(static_cast<int>(s)), layer = layered.scheme.nodes[segments[s].from].layer;
        if (place[root] == none) {
            place[root] = static_cast<int>(nets[layer].size());
            nets[layer].emplace_back();
        }
        Net& net = nets[layer][place[root]];
        net.segments.push_back(static_cast<int>(s));
        const Segment& segment = segments[s];
        net.rail = net.rail || layered.scheme.nodes[segment.from].rail;
        const auto add = [&](std::vector<std::pair<int, int>>& ends, int node, int port) {
            const std::pair<int, int> end{node, port};
            if (std::find(ends.begin(), ends.end(), end) == ends.end() && has_stub(layered, node)) ends.push_back(end);
        };
        add(net.uppers, segment.from, segment.from_port);
        add(net.lowers, segment.to, segment.to_port);
    }
    return nets;
}

void join_grounds(Layered& layered, Order& order) {
    if (order.rows.empty()) return;
    std::vector<Node>& nodes = layered.scheme.nodes;
    std::vector<int>& row = order.rows.back();
    std::vector<int> kept;
    for (const int node : row) {
        const bool same = !kept.empty() && nodes[node].kind == NodeKind::ground && nodes[kept.back()].kind == NodeKind::ground &&
                          nodes[node].part == nodes[kept.back()].part && nodes[node].part != none;
        const auto words_move = [&](int ground) { // to the dummies above
            for (const int s : layered.at[ground][0]) {
                const Segment& segment = layered.segments[s];
                const int edge = segment.edge;
                if (layered.scheme.edges[edge].wire == none) continue;
                if (nodes[segment.from].kind != NodeKind::dummy) return false;
                nodes[segment.from].ports[0].label = edge;
            }
            nodes[ground].ports[0].label = none;
            return true;
        };
        if (!same || !words_move(kept.back()) || !words_move(node)) {
            kept.push_back(node);
            continue;
        }
        for (const int s : layered.at[node][0])
            layered.segments[s].to = kept.back();
        nodes[node].layer = none; // gone
        layered.list_segments();
    }
    row = kept;
    std::vector<PartId> marked; // the checks of a ground stand at its first symbol
    for (const int node : row) {
        if (nodes[node].kind != NodeKind::ground) continue;
        if (std::find(marked.begin(), marked.end(), nodes[node].part) != marked.end())
            nodes[node].ports[0].checks.clear();
        else
            marked.push_back(nodes[node].part);
    }
}

} // namespace loomsheet::drawing
