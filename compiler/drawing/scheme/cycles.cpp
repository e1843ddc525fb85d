#include "drawing/scheme/cycles.hpp"
#include <algorithm>
#include <numeric>

namespace loomsheet::drawing {
namespace {

double highest_volts(const Node& node) {
    double most = 0;
    for (const Port& port : node.ports)
        most = std::max(most, port.volts);
    return most;
}

// The edges that close a cycle in a depth-first walk from the nodes of high volts on.
std::vector<int> back_edges(const Scheme& scheme) {
    enum : char { fresh, open, done };
    std::vector<std::vector<int>> out(scheme.nodes.size());
    for (std::size_t e = 0; e < scheme.edges.size(); ++e)
        out[scheme.edges[e].from].push_back(static_cast<int>(e));
    std::vector<int> starts(scheme.nodes.size());
    std::iota(starts.begin(), starts.end(), 0);
    std::stable_sort(starts.begin(), starts.end(),
                     [&](int a, int b) { return highest_volts(scheme.nodes[a]) > highest_volts(scheme.nodes[b]); });
    std::vector<char> state(scheme.nodes.size(), fresh);
    std::vector<int> back;
    for (const int start : starts) {
        if (state[start] != fresh) continue;
        std::vector<std::pair<int, std::size_t>> path{{start, 0}};
        state[start] = open;
        while (!path.empty()) {
            auto& [node, next] = path.back();
            if (next == out[node].size()) {
                state[node] = done;
                path.pop_back();
                continue;
            }
            const int edge = out[node][next++], to = scheme.edges[edge].to;
            if (state[to] == open) back.push_back(edge);
            if (state[to] != fresh) continue;
            state[to] = open;
            path.emplace_back(to, 0);
        }
    }
    std::sort(back.begin(), back.end());
    return back;
}

} // namespace

void remove_cycles(Scheme& scheme) {
    for (const int e : back_edges(scheme)) {
        const int below = scheme.add_turn(false), above = scheme.add_turn(false);
        Edge up = scheme.edges[e];
        up.from = above, up.from_port = 1, up.wire = none;
        up.checks.clear();
        Edge side;
        side.from = above, side.from_port = 1, side.to = below;
        scheme.edges[e].to = below, scheme.edges[e].to_port = 0;
        scheme.edges.push_back(up);
        scheme.edges.push_back(side);
    }
}

} // namespace loomsheet::drawing
