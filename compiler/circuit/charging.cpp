#include "circuit/charging.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

Reach metal_from(const Network& network, NodeId node, const std::vector<PartId>& blown) {
    const Admit joined = [&](const Edge& edge, NodeId, NodeId) {
        const auto index = static_cast<std::size_t>(&edge - network.graph.edges.data());
        const bool gone = edge.kind == EdgeKind::link && std::find(blown.begin(), blown.end(), edge.part) != blown.end();
        return !limits_current(edge) && edge.kind != EdgeKind::source && network.branches[index].law != Law::absent && !gone;
    };
    const NodeId start[] = {node};
    return reach(network.graph, start, joined);
}

} // namespace

void settle_charging(Network& network, const std::vector<PartId>& blown) {
    for (const Charged& battery : network.charged) {
        const Reach plus = metal_from(network, network.ends[battery.branch].a, blown),
                    minus = metal_from(network, network.ends[battery.branch].b, blown);
        const bool fed = std::any_of(battery.by.begin(), battery.by.end(), [&](int alternator) {
            return network.branches[alternator].law == Law::source && plus.has(network.ends[alternator].a) &&
                   minus.has(network.ends[alternator].b);
        });
        if (!fed) network.branches[battery.branch].second = battery.at_rest;
    }
}

} // namespace loomsheet
