#include "drawing/paint/wiring.hpp"
#include "drawing/scheme/measures.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

constexpr double heavy_from = 16, thick_from = 4; // mm²

bool is_passed(NodeKind kind) { return kind == NodeKind::point || kind == NodeKind::turn || kind == NodeKind::dummy; }

} // namespace

Wiring::Wiring(const Circuit& circuit, const Layered& layered) : circuit_(circuit), layered_(layered), nets_(layered.segments.size()) {
    const auto join = [&](const std::vector<int>& list) {
        for (std::size_t i = 1; i < list.size(); ++i)
            nets_.join(list[0], list[i]);
    };
    for (std::size_t n = 0; n < layered.scheme.nodes.size(); ++n) {
        std::vector<int> all;
        for (const auto& port : layered.at[n]) {
            join(port);
            all.insert(all.end(), port.begin(), port.end());
        }
        if (is_passed(layered.scheme.nodes[n].kind)) join(all);
    }
}

int Wiring::net_at(int node, int port) {
    constexpr int most_ports = 16;
    const auto& at = layered_.at[node][port];
    return at.empty() ? none - 1 - node * most_ports - port : net_of(at[0]);
}

double Wiring::width_of(int segment) const {
    const Edge& edge = layered_.scheme.edges[layered_.segments[segment].edge];
    if (edge.wire == none || !circuit_.wires[edge.wire].area) return pt::wire;
    const double area = circuit_.wires[edge.wire].area->si * 1e6;
    return area >= heavy_from ? pt::heavy : area >= thick_from ? pt::thick : pt::wire;
}

double Wiring::width_at(int node, int port) const {
    double most = pt::wire;
    for (const int s : layered_.at[node][port])
        most = std::max(most, width_of(s));
    return most;
}

} // namespace loomsheet::drawing
