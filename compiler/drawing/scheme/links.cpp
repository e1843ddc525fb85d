#include "drawing/scheme/links.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

class LinkMaker {
public:
    LinkMaker(const SchemeSource& from, NodeMaker& nodes, Scheme& scheme)
        : circuit_(from.circuit), extract_(from.extract), nodes_(nodes), scheme_(scheme) {}

    std::vector<Link> make() {
        for (WireId wire = 0; wire < static_cast<WireId>(circuit_.wires.size()); ++wire)
            if (extract_.has_wire(circuit_, wire)) {
                const End from = nodes_.end_of(circuit_.wires[wire].from), to = nodes_.end_of(circuit_.wires[wire].to);
                add(from, to, wire);
            }
        for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id)
            if (extract_.has_part(id)) {
                join_splice(circuit_.parts[id]);
                bolt(circuit_.parts[id]);
            }
        mark(extract_.from, true);
        mark(extract_.to, false);
        return std::move(links_);
    }

private:
    void add(End a, End b, WireId wire) {
        if (a.node != none && b.node != none) links_.push_back({a, b, wire});
    }
    void join_splice(const Part& splice) {
        if (splice.kind != PartKind::splice || splice.pins.empty()) return;
        for (const PinId pin : splice.joined) {
            const PartId part = circuit_.pins[pin].part;
            if (circuit_.parts[part].kind == PartKind::ground || (extract_.has_part(part) && nodes_.end_at(pin).node != none))
                add(nodes_.end_at(splice.pins.front()), nodes_.end_of(pin), none);
        }
    }
    void bolt(const Part& part) {
        if (part.bolted_to == none || nodes_.end_at(part.bolted_pin).node == none) return;
        const std::vector<PinId>& pins = circuit_.parts[part.bolted_to].pins;
        add(nodes_.end_at(part.bolted_pin), nodes_.add_ground(pins.empty() ? none : pins.front(), part.bolted_to), none);
    }
    void mark(const std::map<PinId, std::string>& pages, bool incoming) {
        for (const auto& [pin, words] : pages) {
            const End end = nodes_.end_at(pin);
            const bool above = scheme_.is_point(end.node) ? incoming : scheme_.nodes[end.node].ports[end.port].top;
            const End page = nodes_.add_page_mark(pin, words, above);
            scheme_.nodes[page.node].incoming = incoming;
            add(end, page, none);
        }
    }

    const Circuit& circuit_;
    const Extract& extract_;
    NodeMaker& nodes_;
    Scheme& scheme_;
    std::vector<Link> links_;
};

const Port& port_at(const Scheme& scheme, End end) { return scheme.nodes[end.node].ports[end.port]; }

// Whether a wire to `other` leaves a port on this side in its own direction.
bool goes_ahead(const Scheme& scheme, End here, End other) {
    if (here.node == other.node) return false;
    return scheme.is_point(other.node) || port_at(scheme, here).top != port_at(scheme, other).top;
}

} // namespace

std::vector<Link> make_links(const SchemeSource& from, NodeMaker& nodes, Scheme& scheme) { return LinkMaker(from, nodes, scheme).make(); }

bool is_plus(const Circuit& circuit, PinId pin) {
    return pin != none && circuit.parts[circuit.pins[pin].part].kind == PartKind::battery && circuit.pins[pin].name == "+";
}

void spread_pins(const Circuit& circuit, Scheme& scheme, std::vector<Link>& links) {
    std::vector<std::vector<std::vector<int>>> at(scheme.nodes.size()); // by node and port
    for (std::size_t n = 0; n < scheme.nodes.size(); ++n)
        at[n].resize(scheme.nodes[n].ports.size());
    for (std::size_t i = 0; i < links.size(); ++i)
        for (const End end : {links[i].a, links[i].b})
            at[end.node][end.port].push_back(static_cast<int>(i));
    for (int n = 0; n < static_cast<int>(at.size()); ++n) {
        if (scheme.is_point(n)) continue;
        for (int p = 0; p < static_cast<int>(at[n].size()); ++p) {
            const End here{n, p};
            const bool ahead = std::all_of(at[n][p].begin(), at[n][p].end(),
                                           [&](int i) { return goes_ahead(scheme, here, links[i].a == here ? links[i].b : links[i].a); });
            if (at[n][p].size() < 2 || ahead) continue;
            const Port& port = port_at(scheme, here);
            Node node;
            node.ports = {bare_port(true, none, port.volts), bare_port(false, none, port.volts)};
            node.rail = is_plus(circuit, port.pin);
            const End point{scheme.add(std::move(node)), 0};
            for (const int i : at[n][p])
                for (End* end : {&links[i].a, &links[i].b})
                    if (*end == here) *end = point;
            links.push_back({here, point, none});
        }
    }
}

} // namespace loomsheet::drawing
