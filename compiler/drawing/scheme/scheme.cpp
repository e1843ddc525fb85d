#include "drawing/scheme/scheme.hpp"
#include "drawing/scheme/cycles.hpp"
#include "drawing/scheme/links.hpp"
#include <cmath>

namespace loomsheet::drawing {
namespace {

// Gives links a direction: down from high volts, and through ports on their own side.
class EdgeMaker {
public:
    EdgeMaker(const Circuit& circuit, const Probes& probes, Scheme& scheme) : circuit_(circuit), probes_(probes), scheme_(scheme) {}

    void add(const Link& link) {
        const bool point_a = scheme_.is_point(link.a.node), point_b = scheme_.is_point(link.b.node);
        if (point_a && point_b)
            between_points(link);
        else if (point_a)
            from_point(link.a, link.b, link.wire);
        else if (point_b)
            from_point(link.b, link.a, link.wire);
        else
            between_ports(link);
    }

private:
    const Port& port(End end) const { return scheme_.nodes[end.node].ports[end.port]; }
    bool is_battery_plus(End end) const { return is_plus(circuit_, port(end).pin); }

    void edge(End from, End to, WireId wire, bool thick = false) {
        Edge edge;
        edge.from = from.node, edge.to = to.node;
        edge.from_port = scheme_.is_point(from.node) ? 1 : from.port;
        edge.to_port = scheme_.is_point(to.node) ? 0 : to.port;
        edge.wire = wire;
        edge.thick = thick;
        if (wire != none)
            if (const auto found = probes_.wires.find(wire); found != probes_.wires.end()) edge.checks = found->second;
        scheme_.edges.push_back(std::move(edge));
    }

    void between_points(const Link& link) {
        if (link.a.node == link.b.node) return edge(link.a, {scheme_.add_turn(false), 0}, link.wire);
        const double a = port(link.a).volts, b = port(link.b).volts;
        const bool b_above = b > a + same_volts || (std::abs(a - b) <= same_volts && link.b.node < link.a.node);
        b_above ? edge(link.b, link.a, link.wire) : edge(link.a, link.b, link.wire);
    }
    void from_point(End point, End other, WireId wire) {
        if (!port(other).top) return edge(other, point, wire);
        const bool rail = scheme_.nodes[point.node].rail || is_battery_plus(point) || is_battery_plus(other);
        edge(point, other, wire, rail && wire == none);
    }
    void between_ports(const Link& link) {
        const bool top_a = port(link.a).top, top_b = port(link.b).top;
        if (link.a == link.b) {
            const End turn{scheme_.add_turn(false), 0};
            top_a ? edge(turn, link.a, link.wire) : edge(link.a, turn, link.wire);
        } else if (top_a && top_b) {
            turn_above(link);
        } else if (!top_a && !top_b) {
            const End below{scheme_.add_turn(false), 0};
            edge(link.a, below, link.wire);
            edge(link.b, below, none);
        } else {
            top_a ? edge(link.b, link.a, link.wire) : edge(link.a, link.b, link.wire);
        }
    }
    // Two upper ports meet in a turn above both; the words of the wire stand at the one that is not the battery's.
    void turn_above(const Link& link) {
        const bool swap = is_battery_plus(link.b);
        const End one = swap ? link.b : link.a, other = swap ? link.a : link.b;
        const bool plus = is_battery_plus(one);
        const End turn{scheme_.add_turn(plus), 0};
        edge(turn, one, plus ? none : link.wire, plus);
        edge(turn, other, plus ? link.wire : none);
    }

    const Circuit& circuit_;
    const Probes& probes_;
    Scheme& scheme_;
};

// Points that nothing meets any more, such as a splice without wires.
void drop_idle_points(Scheme& scheme) {
    std::vector<char> used(scheme.nodes.size(), 0);
    for (const Edge& edge : scheme.edges)
        used[edge.from] = used[edge.to] = 1;
    std::vector<int> at(scheme.nodes.size(), none);
    std::vector<Node> kept;
    for (std::size_t n = 0; n < scheme.nodes.size(); ++n) {
        if (!used[n] && scheme.is_point(static_cast<int>(n))) continue;
        at[n] = static_cast<int>(kept.size());
        kept.push_back(std::move(scheme.nodes[n]));
    }
    scheme.nodes = std::move(kept);
    for (Edge& edge : scheme.edges)
        edge.from = at[edge.from], edge.to = at[edge.to];
    for (auto& pair : scheme.parted)
        for (int& node : pair)
            node = at[node];
}

} // namespace

bool Extract::has_wire(const Circuit& circuit, WireId wire) const {
    const Wire& each = circuit.wires[wire];
    return each.from != none && each.to != none && (wires.empty() || wires[wire]);
}

Port bare_port(bool top, PinId pin, double volts) {
    Port port;
    port.pin = pin, port.top = top, port.volts = volts;
    return port;
}

Words title_line(const Measure& measure, Type type, const std::string& text) {
    return {0, 0, measure.width(type, text), type, text, false};
}

int Scheme::add(Node node) {
    nodes.push_back(std::move(node));
    return static_cast<int>(nodes.size()) - 1;
}

int Scheme::add_turn(bool rail) {
    Node node;
    node.kind = NodeKind::turn;
    node.rail = rail;
    node.ports = {bare_port(true), bare_port(false)};
    return add(std::move(node));
}

Scheme make_scheme(const Circuit& circuit, const std::vector<double>& volts, const Probes& probes, const Measure& measure,
                   const Extract& extract) {
    Scheme scheme;
    const SchemeSource from{circuit, volts, probes, measure, extract};
    NodeMaker nodes(from, scheme);
    std::vector<Link> links = make_links(from, nodes, scheme);
    spread_pins(circuit, scheme, links);
    EdgeMaker edges(circuit, probes, scheme);
    for (const Link& link : links)
        edges.add(link);
    remove_cycles(scheme);
    drop_idle_points(scheme);
    return scheme;
}

} // namespace loomsheet::drawing
