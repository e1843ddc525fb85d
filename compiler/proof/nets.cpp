#include "proof/nets.hpp"
#include <algorithm>

namespace loomsheet {

Nets::Nets(const Plan& plan, const Doubt& doubt)
    : circuit(plan.circuit), graph(build_graph(plan.circuit)), wired(graph.nodes.size()), known_(graph.nodes.size()),
      open_(graph.nodes.size()), own_file_(plan.at.file) {
    mark_ends(doubt);
    find_consumers(doubt);
    lay();
}

void Nets::cut(WireId wire) {
    for (std::vector<int>& edges : graph.at)
        std::erase_if(edges, [&](int index) { return graph.edges[index].wire == wire; });
    lay();
}

void Nets::restore(WireId wire) {
    for (int index = 0; index < static_cast<int>(graph.edges.size()); ++index) {
        const Edge& edge = graph.edges[index];
        if (edge.wire != wire) continue;
        graph.at[edge.a].push_back(index);
        if (edge.b != edge.a) graph.at[edge.b].push_back(index);
    }
    lay();
}

void Nets::lay() {
    const Admit conductors = [](const Edge& edge, NodeId, NodeId) { return is_conductor(edge); };
    plus.clear();
    minus.clear();
    const std::vector<Edge> batteries = sources(circuit, graph);
    std::vector<Reach> from_plus;
    for (const Edge& battery : batteries) {
        plus.push_back(battery.a);
        from_plus.push_back(reach(graph, std::vector{battery.a}, conductors));
    }
    for (std::size_t i = 0; i < batteries.size(); ++i) { // two in series: the - of the upper one is the + of the lower
        const NodeId post = batteries[i].b;
        const bool in_series =
            !from_plus[i].has(post) && std::any_of(from_plus.begin(), from_plus.end(), [&](const Reach& other) { return other.has(post); });
        if (!in_series) minus.push_back(post);
    }
    hot = reach(graph, plus, conductors);
    cold = reach(graph, minus, conductors);
    fed = reach(graph, plus, [&](const Edge& edge, NodeId from, NodeId to) { return may_conduct(edge, from) && !cold.has(to); });
    grounded = reach(graph, minus, [&](const Edge& edge, NodeId, NodeId to) { return may_conduct(edge, to) && !hot.has(to); });
}

void Nets::mark_ends(const Doubt& doubt) {
    for (const Wire& wire : circuit.wires)
        for (const PinId pin : {wire.from, wire.to}) {
            if (pin == none) continue;
            wired[graph.wire_end[pin]] = true;
            if (wire.from != none && wire.to != none) continue;
            open_[graph.wire_end[pin]] = true;
            lost_wires.push_back(graph.wire_end[pin]);
        }
    const auto know = [&](PinId pin) {
        if (pin != none) known_[graph.own[pin]] = true;
    };
    for (PartId id = 0; id < static_cast<PartId>(circuit.parts.size()); ++id) {
        const Part& part = circuit.parts[id];
        for (const Element& element : part.elements)
            for (const PinId pin : {element.a, element.b, element.c})
                know(pin);
        for (const PinId pin : part.supply_pins)
            know(pin);
        for (const PinId pin : ground_pins(part))
            know(pin);
        know(part.bolted_pin);
        if (row_of(part.kind).itself)
            for (const PinId pin : part.pins)
                know(pin);
        if (part.kind != PartKind::connector) continue;
        const bool unmated = part.plugs_on == none && part.twin == none;
        lost_plug_ |= unmated;
        if (unmated || (part.plugs_on != none && circuit.parts[part.plugs_on].kind == PartKind::module))
            for (const PinId pin : part.pins)
                if (circuit.pins[pin].mate == none && wired[graph.wire_end[pin]]) open_[graph.wire_end[pin]] = true;
    }
    for (PartId id = 0; id < static_cast<PartId>(circuit.parts.size()); ++id)
        if (doubt.parts[id])
            for (const PinId pin : circuit.parts[id].pins)
                known_[graph.own[pin]] = false, open_[graph.wire_end[pin]] = true;
}

void Nets::find_consumers(const Doubt& doubt) {
    const auto add = [&](PartId part, int element, std::vector<PinId> plus_pins, std::vector<PinId> minus_pins) {
        Consumer consumer{part, element, {}, {}, std::move(plus_pins), std::move(minus_pins), element != none};
        bool any = false;
        for (const PinId pin : consumer.plus_pins)
            consumer.plus.push_back(graph.own[pin]), any |= joined(pin);
        for (const PinId pin : consumer.minus_pins)
            consumer.minus.push_back(graph.own[pin]), any |= joined(pin);
        if (any) consumers.push_back(std::move(consumer));
    };
    for (PartId id = 0; id < static_cast<PartId>(circuit.parts.size()); ++id) {
        const Part& part = circuit.parts[id];
        if (doubt.parts[id]) continue;
        for (int i = 0; i < static_cast<int>(part.elements.size()); ++i) {
            const Element& element = part.elements[i];
            const bool coil = element.kind == ElementKind::coil && part.kind == PartKind::relay;
            if ((coil || element.kind == ElementKind::load) && element.a != none && element.b != none) add(id, i, {element.a}, {element.b});
        }
        if (part.kind == PartKind::module) add(id, none, part.supply_pins, ground_pins(part));
    }
}

bool Nets::joined(PinId pin) const { return !circuit.pins[pin].declared || !loose(graph.wire_end[pin]) || bolted(pin); }

bool Nets::bolted(PinId pin) const {
    const std::vector<int>& edges = graph.at[graph.own[pin]];
    return std::any_of(edges.begin(), edges.end(), [&](int index) { return graph.edges[index].kind == EdgeKind::bolt; });
}

bool Nets::loose(NodeId node) const {
    return graph.nodes[node].metal == Metal::wire_end && !wired[node] &&
           !row_of(circuit.parts[circuit.pins[graph.nodes[node].pin].part].kind).is_point;
}

bool Nets::beyond_the_plan(NodeId node) const {
    const MetalNode& here = graph.nodes[node];
    if (here.pin == none) return false;
    if (here.metal == Metal::part) return !known_[node];
    return open_[node];
}

} // namespace loomsheet
