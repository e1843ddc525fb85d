#include "circuit/graph.hpp"
#include "circuit/situation.hpp"
#include "grammar/vocabulary.hpp"
#include <algorithm>
#include <numeric>

namespace loomsheet {
namespace {

class Builder {
public:
    Builder(const Circuit& circuit, const Setup& setup)
        : circuit_(circuit), setup_(setup), now_(circuit, setup), one_(circuit.pins.size()) {}

    Graph build() {
        join_wire_ends();
        lay_nodes();
        for (PartId part = 0; part < static_cast<PartId>(circuit_.parts.size()); ++part) {
            lay_joints(part);
            lay_bolts(part);
            lay_elements(part);
        }
        for (WireId wire = 0; wire < static_cast<WireId>(circuit_.wires.size()); ++wire) {
            const Wire& each = circuit_.wires[wire];
            if (each.from != none && each.to != none)
                edge({.kind = EdgeKind::wire, .a = graph_.wire_end[each.from], .b = graph_.wire_end[each.to], .wire = wire});
        }
        lay_bridges();
        graph_.at.resize(graph_.nodes.size());
        for (int i = 0; i < static_cast<int>(graph_.edges.size()); ++i) {
            graph_.at[graph_.edges[i].a].push_back(i);
            if (graph_.edges[i].b != graph_.edges[i].a) graph_.at[graph_.edges[i].b].push_back(i);
        }
        return std::move(graph_);
    }

private:
    void edge(Edge edge) {
        if (edge.a != none && edge.b != none) graph_.edges.push_back(edge);
    }
    NodeId node(MetalNode node) {
        graph_.nodes.push_back(std::move(node));
        return static_cast<NodeId>(graph_.nodes.size()) - 1;
    }

    // --- wire ends that are one: a part's pin and the cavity over it, and all that a splice joins
    PinId one_of(PinId pin) {
        while (one_[pin] != pin)
            pin = one_[pin] = one_[one_[pin]];
        return pin;
    }
    void join_wire_ends() {
        std::iota(one_.begin(), one_.end(), 0);
        for (PinId pin = 0; pin < static_cast<PinId>(circuit_.pins.size()); ++pin)
            if (under_plug(pin)) one_[pin] = circuit_.mate(pin);
        for (const Part& part : circuit_.parts) // the splice gives the name
            for (const PinId pin : part.joined)
                one_[one_of(pin)] = one_of(part.pins.front());
    }
    bool under_plug(PinId pin) const { return kind_of(pin) != PartKind::connector && circuit_.mate(pin) != none; }

    void lay_nodes() {
        graph_.body = node({none, Metal::body, "body"});
        graph_.engine = node({none, Metal::body, "engine"});
        graph_.chassis = node({none, Metal::body, "chassis"});
        graph_.wire_end.assign(circuit_.pins.size(), none);
        graph_.own.assign(circuit_.pins.size(), none);
        for (PinId pin = 0; pin < static_cast<PinId>(circuit_.pins.size()); ++pin) {
            const PartKind kind = kind_of(pin);
            const bool one_metal = kind == PartKind::connector || kind == PartKind::splice || kind == PartKind::ground;
            if (!one_metal) graph_.own[pin] = node({pin, Metal::part, {}});
            if (!circuit_.pins[pin].declared) { // inside an assembly
                graph_.wire_end[pin] = graph_.own[pin];
                continue;
            }
            NodeId& end = graph_.wire_end[one_of(pin)];
            if (end == none) end = node({one_of(pin), Metal::wire_end, {}});
            graph_.wire_end[pin] = end;
            if (one_metal) graph_.own[pin] = end;
        }
    }
    PartKind kind_of(PinId pin) const { return circuit_.parts[circuit_.pins[pin].part].kind; }

    // --- what comes off: plugs, in-line pairs, sockets, clamps
    void lay_joints(PartId id) {
        const Part& part = circuit_.parts[id];
        if (part.kind == PartKind::splice || part.kind == PartKind::ground) return;
        const bool connector = part.kind == PartKind::connector;
        if (connector && part.plugs_on == none && !part.first_half) return; // an open socket, or the pair's second half
        if (now_.taken_off(id)) return;
        for (const PinId pin : part.pins) {
            if (now_.disconnected(pin) || !circuit_.pins[pin].declared) continue;
            PinId there = pin;
            if (connector)
                there = circuit_.mate(pin);
            else if (under_plug(pin))
                continue; // the plug's pin brings the joint
            if (there == none || (connector && now_.disconnected(there))) continue;
            edge({.kind = EdgeKind::joint, .a = graph_.wire_end[pin], .b = graph_.own[there], .part = id, .pin = pin});
        }
    }

    void lay_bolts(PartId id) {
        const Part& part = circuit_.parts[id];
        if (part.kind == PartKind::ground)
            for (const PinId pin : part.pins)
                edge({.kind = EdgeKind::bolt, .a = graph_.own[pin], .b = graph_.metal(part.metal), .part = id, .pin = pin});
        if (part.bolted_pin == none) return;
        const auto lay_case = [&](PartId by, const std::string& metal) {
            edge({.kind = EdgeKind::bolt, .a = own(part.bolted_pin), .b = graph_.metal(metal), .part = by, .pin = part.bolted_pin});
        };
        if (part.bolted_to != none) lay_case(part.bolted_to, circuit_.parts[part.bolted_to].metal); // the ground point holds it there
        if (part.bolted_to == none || !part.metal.empty()) lay_case(id, part.metal);
    }

    // --- what is inside the parts
    NodeId own(PinId pin) const { return pin == none ? NodeId{none} : graph_.own[pin]; }

    void lay_elements(PartId id) {
        const Part& part = circuit_.parts[id];
        lay_itself(id);
        for (int i = 0; i < static_cast<int>(part.elements.size()); ++i)
            lay_element(id, i);
        const std::vector<PinId> grounds = ground_pins(part);
        if (grounds.empty()) return;
        for (const PinId other : grounds)
            if (other != grounds.front()) edge({.kind = EdgeKind::rail, .a = own(grounds.front()), .b = own(other), .part = id});
        for (const PinId plus : part.supply_pins)
            edge({.kind = EdgeKind::supply, .a = own(plus), .b = own(grounds.front()), .part = id});
    }

    void lay_itself(PartId id) {
        const PartKindRow& row = row_of(circuit_.parts[id].kind);
        if (!row.itself) return;
        const EdgeKind kind = row.itself == ElementKind::source ? EdgeKind::source : EdgeKind::link;
        const auto pins = words_in(row.pins);
        edge({.kind = kind, .a = own(circuit_.find_pin(id, pins[0])), .b = own(circuit_.find_pin(id, pins[1])), .part = id});
    }

    void lay_element(PartId id, int index) {
        const Part& part = circuit_.parts[id];
        const Element& element = part.elements[index];
        const auto lay = [&](EdgeKind kind, PinId a, PinId b, bool closed = true) {
            edge({.kind = kind, .a = own(a), .b = own(b), .part = id, .element = index, .closed = closed});
        };
        switch (element.kind) {
        case ElementKind::source:
        case ElementKind::link: return; // of the part itself
        case ElementKind::coil: return lay(part.kind == PartKind::sensor ? EdgeKind::sensor : EdgeKind::coil, element.a, element.b);
        case ElementKind::contact: return lay_contact(id, index);
        case ElementKind::load: return lay(EdgeKind::load, element.a, element.b);
        case ElementKind::resistor:
        case ElementKind::between: return lay(EdgeKind::resistor, element.a, element.b);
        case ElementKind::diode: // beside a coil it only damps
            return lay(part.kind == PartKind::diode ? EdgeKind::diode : EdgeKind::damper, element.a, element.b);
        case ElementKind::ntc: return lay(EdgeKind::sensor, element.a, element.b);
        case ElementKind::pot: lay(EdgeKind::sensor, element.a, element.b); return lay(EdgeKind::sensor, element.b, element.c);
        case ElementKind::hall: // its supply and ground may be said as those of a module
            lay(EdgeKind::sensor, element.a, element.c);
            return lay(EdgeKind::sensor, element.b, element.c);
        case ElementKind::module_output:
            if (const std::vector<PinId> grounds = ground_pins(part); element.pulls_down && !grounds.empty())
                lay(EdgeKind::driver, element.a, grounds.front(), now_.output_on(element));
            for (const PinId rail : part.supply_pins)
                if (!element.pulls_down) lay(EdgeKind::driver, rail, element.a, now_.output_on(element));
            return;
        case ElementKind::module_gives:
        case ElementKind::pull_up:
            for (const PinId rail : part.supply_pins)
                lay(EdgeKind::pull_up, rail, element.a);
            return;
        case ElementKind::input:
            if (const std::vector<PinId> grounds = ground_pins(part); !grounds.empty()) lay(EdgeKind::input, element.a, grounds.front());
            return;
        }
    }

    static constexpr std::uint64_t rest_position = 1, made_position = 2;

    void lay_contact(PartId id, int index) {
        const Part& part = circuit_.parts[id];
        const Element& element = part.elements[index];
        const auto lay = [&](PinId a, PinId b, bool closed, std::uint64_t positions) {
            edge({.kind = EdgeKind::contact,
                  .a = own(a),
                  .b = own(b),
                  .part = id,
                  .element = index,
                  .closed = closed,
                  .positions = positions});
        };
        if (part.kind == PartKind::relay) { // at rest: make open, break closed
            lay(element.a, element.b, false, made_position);
            return lay(element.a, element.c, true, rest_position);
        }
        if (element.when) return lay(element.a, element.b, now_.holds(*element.when), ~std::uint64_t{0});
        bool closed = false;
        std::uint64_t positions = 0;
        for (std::size_t i = 0; i < part.positions.size(); ++i) {
            const auto& pairs = part.positions[i].closed;
            if (std::find(pairs.begin(), pairs.end(), std::pair(element.a, element.b)) == pairs.end()) continue;
            positions |= std::uint64_t{1} << std::min(i, std::size_t{63});
            closed |= now_.at_position(id, part.positions[i].position, i == 0);
        }
        lay(element.a, element.b, closed, positions);
    }

    void lay_bridges() {
        for (int i = 0; i < static_cast<int>(setup_.items.size()); ++i) {
            const SetupItem& item = setup_.items[i];
            const bool load = item.kind == ItemKind::load && !item.across_points;
            if (load || item.kind == ItemKind::bridge)
                edge({.kind = load ? EdgeKind::filament : EdgeKind::bridge,
                      .a = graph_.node_of(item.a),
                      .b = graph_.node_of(item.b),
                      .item = i});
        }
    }

    const Circuit& circuit_;
    const Setup& setup_;
    Situation now_;
    std::vector<PinId> one_; // union-find over pins
    Graph graph_;
};

} // namespace

std::vector<PinId> ground_pins(const Part& part) {
    std::vector<PinId> pins = part.ground_pins;
    const bool module = part.kind == PartKind::module || part.kind == PartKind::sensor;
    if (module && part.bolted_pin != none && std::find(pins.begin(), pins.end(), part.bolted_pin) == pins.end())
        pins.push_back(part.bolted_pin);
    return pins;
}

NodeId Graph::metal(std::string_view name) const { return name == "engine" ? engine : name == "chassis" ? chassis : body; }

NodeId Graph::node_of(const PointRef& point) const {
    if (point.metal == Metal::body) return body;
    if (point.pin == none || point.metal == Metal::joint) return none;
    return point.metal == Metal::part ? own[point.pin] : wire_end[point.pin];
}

Graph build_graph(const Circuit& circuit, const Setup& setup) { return Builder(circuit, setup).build(); }

std::string node_name(const Circuit& circuit, const MetalNode& node) {
    if (node.pin == none) return "the " + node.name;
    return (node.metal == Metal::part ? "part " : "") + circuit.pin_name(node.pin);
}

std::vector<Edge> sources(const Circuit& circuit, const Graph& graph, const Setup& setup) {
    const bool running = std::any_of(setup.items.begin(), setup.items.end(), [](const SetupItem& item) {
        return item.kind == ItemKind::engine_running || item.kind == ItemKind::engine_speed;
    });
    std::vector<Edge> list;
    for (const Edge& edge : graph.edges) {
        if (edge.kind != EdgeKind::source) continue;
        const std::vector<Draw>& gives = circuit.parts[edge.part].gives;
        const bool always = gives.empty() || std::any_of(gives.begin(), gives.end(), [](const Draw& each) { return !each.when; });
        if (always || running) list.push_back(edge);
    }
    return list;
}

void pull_in(const Circuit& circuit, Graph& graph, const Setup& setup) {
    std::vector<NodeId> plus, minus;
    for (const Edge& source : sources(circuit, graph, setup))
        plus.push_back(source.a), minus.push_back(source.b);
    const Admit closed = [](const Edge& edge, NodeId, NodeId) { return conducts(edge); };
    const auto makes = [](const Edge& edge) { return edge.kind == EdgeKind::contact && (edge.positions & 1) == 0; };
    for (bool moved = true; moved;) { // each round closes at least one contact
        moved = false;
        const Reach fed = reach(graph, plus, closed), grounded = reach(graph, minus, closed);
        std::vector<bool> pulled_in(circuit.parts.size());
        for (const Edge& edge : graph.edges)
            if (edge.kind == EdgeKind::coil && ((fed.has(edge.a) && grounded.has(edge.b)) || (fed.has(edge.b) && grounded.has(edge.a))))
                pulled_in[edge.part] = true;
        for (Edge& edge : graph.edges) {
            if (edge.kind != EdgeKind::contact || !pulled_in[edge.part]) continue;
            if (makes(edge) && !edge.closed) edge.closed = moved = true;
            if (!makes(edge)) edge.closed = false;
        }
    }
}

bool is_conductor(const Edge& edge) { return edge.kind <= EdgeKind::bridge; }
bool conducts(const Edge& edge) {
    return is_conductor(edge) || ((edge.kind == EdgeKind::contact || edge.kind == EdgeKind::driver) && edge.closed);
}
bool may_conduct(const Edge& edge, NodeId from) {
    return is_conductor(edge) || edge.kind == EdgeKind::contact ||
           ((edge.kind == EdgeKind::diode || edge.kind == EdgeKind::driver) && from == edge.a);
}
bool limits_current(const Edge& edge) { return edge.kind >= EdgeKind::coil && edge.kind != EdgeKind::source; }

std::vector<int> Reach::way(const Graph& graph, NodeId node) const {
    std::vector<int> edges;
    while (by[node] >= 0) {
        edges.push_back(by[node]);
        node = graph.edges[by[node]].other(node);
    }
    std::reverse(edges.begin(), edges.end());
    return edges;
}

namespace {
bool exclude_each_other(const Edge& one, const Edge& other) {
    return one.kind == EdgeKind::contact && other.kind == EdgeKind::contact && one.part == other.part &&
           (one.positions & other.positions) == 0;
}
} // namespace

Reach reach(const Graph& graph, std::span<const NodeId> from, const Admit& admit, NodeId until) {
    Reach result;
    result.by.assign(graph.nodes.size(), Reach::never);
    for (const NodeId node : from)
        if (node != none && !result.has(node)) result.by[node] = Reach::start, result.order.push_back(node);
    for (std::size_t next = 0; next < result.order.size() && !result.has(until); ++next) {
        const NodeId here = result.order[next];
        for (const int index : graph.at[here]) {
            const Edge& edge = graph.edges[index];
            const NodeId there = edge.other(here);
            if (result.has(there) || !admit(edge, here, there)) continue;
            if (result.by[here] >= 0 && exclude_each_other(graph.edges[result.by[here]], edge)) continue;
            result.by[there] = index;
            result.order.push_back(there);
        }
    }
    return result;
}

} // namespace loomsheet
