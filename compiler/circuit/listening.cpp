#include "circuit/listening.hpp"
#include "circuit/graph.hpp"
#include <algorithm>
#include <optional>

namespace loomsheet {
namespace {

class Listening {
public:
    Listening(const Circuit& circuit, PartId switch_)
        : circuit_(circuit), graph_(build_graph(circuit)), part_(circuit.parts[switch_]), id_(switch_) {
        for (const Edge& each : sources(circuit, graph_))
            plus_.push_back(each.a), minus_.push_back(each.b);
    }

    // How many ways the switch can stand; the first is at rest.
    std::size_t positions() const { return std::clamp<std::size_t>(part_.positions.size(), 2, 64); }

    // Whether it reads high as the switch stands; none where that cannot be told.
    std::optional<bool> level(const Element& input, std::size_t position) const {
        const NodeId start[] = {graph_.own[input.a]};
        const Reach metal = reach(graph_, start, [](const Edge& edge, NodeId, NodeId) {
            return is_conductor(edge) || edge.kind == EdgeKind::resistor || edge.kind == EdgeKind::diode;
        });
        std::vector<NodeId> beyond;
        for (const Edge& edge : graph_.edges) {
            if (edge.kind != EdgeKind::contact || edge.part != id_ || metal.has(edge.a) == metal.has(edge.b)) continue;
            if (is_closed(edge, position)) beyond.push_back(metal.has(edge.a) ? edge.b : edge.a);
        }
        if (beyond.empty()) return input.kind == ElementKind::pull_up;
        const Reach joined = reach(graph_, beyond, [&](const Edge& edge, NodeId from, NodeId to) {
            const bool own = edge.kind == EdgeKind::contact && edge.part == id_;
            return may_conduct(edge, from) && !own && !metal.has(to);
        });
        const auto meets = [&](const std::vector<NodeId>& ends) {
            return std::any_of(ends.begin(), ends.end(), [&](NodeId end) { return joined.has(end); });
        };
        const bool high = meets(plus_), low = meets(minus_);
        return high == low ? std::optional<bool>() : high;
    }

private:
    bool is_closed(const Edge& contact, std::size_t position) const {
        if (part_.positions.empty()) return position != 0; // it has a condition, which holds
        return (contact.positions >> position & 1) != 0;
    }
    const Circuit& circuit_;
    const Graph graph_;
    const Part& part_;
    PartId id_;
    std::vector<NodeId> plus_, minus_;
};

} // namespace

Heard heard_by(const Circuit& circuit, PartId module, const Element& output) {
    const Listening listening(circuit, output.follows);
    for (const Element& input : circuit.parts[module].elements) {
        if (input.kind != ElementKind::input && input.kind != ElementKind::pull_up) continue;
        const std::optional<bool> rest = listening.level(input, 0);
        for (std::size_t position = 1; rest && position < listening.positions(); ++position)
            if (const std::optional<bool> operated = listening.level(input, position); operated && *operated != *rest)
                return {input.a, *operated};
    }
    return {};
}

} // namespace loomsheet
