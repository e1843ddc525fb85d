#include "drawing/scheme.hpp"
#include "drawing/parts.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet::drawing {
namespace {

constexpr double same_volts = 1e-9;

struct End { // of a wire: a node and its port
    int node = none, port = 0;
};
struct Link { // between two ends, before it has a direction
    End a, b;
    WireId wire = none;
};

class SchemeMaker {
public:
    SchemeMaker(const Circuit& circuit, const std::vector<double>& volts, const Probes& probes, const Measure& measure,
                const Extract& extract)
        : circuit_(circuit), volts_(volts), probes_(probes), measure_(measure), extract_(extract) {}

    Scheme make() {
        find_wired();
        make_nodes();
        make_links();
        spread_pins();
        for (const Link& link : links_)
            direct(link);
        cut_circles();
        drop_idle_points();
        return std::move(scheme_);
    }

private:
    bool has_part(PartId part) const { return extract_.parts.empty() || extract_.parts[part]; }
    bool has_wire(WireId wire) const {
        const Wire& each = circuit_.wires[wire];
        return each.from != none && each.to != none && (extract_.wires.empty() || extract_.wires[wire]);
    }
    PartKind kind_of(PinId pin) const { return circuit_.parts[circuit_.pins[pin].part].kind; }

    // A pin of a part is wired when a wire, or one of the plug on it, ends there.
    void find_wired() {
        wired_.assign(circuit_.pins.size(), 0);
        const auto mark = [&](PinId pin) {
            wired_[pin] = 1;
            if (const PinId mate = circuit_.pins[pin].mate; mate != none) wired_[mate] = 1;
        };
        for (WireId wire = 0; wire < static_cast<WireId>(circuit_.wires.size()); ++wire)
            if (has_wire(wire)) mark(circuit_.wires[wire].from), mark(circuit_.wires[wire].to);
        for (const Part& part : circuit_.parts) {
            if (part.bolted_pin != none) wired_[part.bolted_pin] = 1;
            for (const PinId pin : part.joined)
                mark(pin);
        }
        for (const auto* pages : {&extract_.from, &extract_.to})
            for (const auto& [pin, words] : *pages)
                mark(pin);
    }

    void make_nodes() {
        end_of_.assign(circuit_.pins.size(), {});
        for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id) {
            const Part& part = circuit_.parts[id];
            if (!has_part(id) || part.assembly != none || part.kind == PartKind::ground) continue;
            if (part.kind == PartKind::splice) {
                if (!part.pins.empty() && wired_[part.pins.front()]) make_point(part.pins.front(), id);
            } else if (part.kind == PartKind::connector && part.twin != none) {
                make_cavities(id);
            } else if (part.kind != PartKind::connector || part.plugs_on == none) {
                const bool partly = is_partly(part);
                Node node = part_node(circuit_, id, volts_, wired_, measure_, partly);
                if (partly && !extract_.part_words.empty())
                    node.title.push_back({0, 0, measure_.width(Type::small, extract_.part_words), Type::small,
                                          extract_.part_words, false});
                if (!node.ports.empty()) keep_part(std::move(node));
            } else {
                make_loose_cavities(id);
            }
        }
        for (const auto* pages : {&extract_.from, &extract_.to}) // pins whose part is on another page
            for (const auto& [pin, words] : *pages)
                if (end_of_[pin].node == none) {
                    make_point(pin, none);
                    if (const PinId outer = outer_pin(circuit_, pin); outer != pin) end_of_[outer] = end_of_[pin];
                }
    }
    // Whether some of its wires are on other pages only.
    bool is_partly(const Part& part) const {
        for (const PinId pin : part.pins)
            for (const PinId each : {pin, outer_pin(circuit_, pin)})
                for (const WireId wire : circuit_.wires_at(each))
                    if (!wired_[pin] && !has_wire(wire)) return true;
        return false;
    }
    void keep_part(Node node) {
        const int index = static_cast<int>(scheme_.nodes.size());
        for (std::size_t i = 0; i < node.ports.size(); ++i) {
            const PinId pin = node.ports[i].pin, outer = outer_pin(circuit_, pin);
            end_of_[pin] = end_of_[outer] = {index, static_cast<int>(i)};
            node.ports[i].checks = checks_at(pin, outer);
        }
        scheme_.nodes.push_back(std::move(node));
    }
    std::vector<int> checks_at(PinId pin, PinId other) const {
        std::vector<int> list;
        for (const PinId each : {pin, other})
            if (const auto found = probes_.pins.find(each); found != probes_.pins.end())
                list.insert(list.end(), found->second.begin(), found->second.end());
        std::sort(list.begin(), list.end());
        list.erase(std::unique(list.begin(), list.end()), list.end());
        return list;
    }
    void make_point(PinId pin, PartId part) {
        Node node;
        node.part = part;
        node.ports = {bare_port(true, pin, volts_[pin]), bare_port(false, pin, volts_[pin])};
        node.ports[0].checks = checks_at(pin, pin);
        if (part != none && !extract_.from.contains(pin)) { // else the mark of the page names it
            const std::string& name = circuit_.parts[part].id;
            for (const std::string& line : measure_.wrap(Type::small_bold, 20, name))
                node.title.push_back({0, 0, measure_.width(Type::small_bold, line), Type::small_bold, line, false});
        }
        end_of_[pin] = {static_cast<int>(scheme_.nodes.size()), 0};
        scheme_.nodes.push_back(std::move(node));
    }
    void make_cavities(PartId id) {
        std::vector<int> made;
        for (const PinId pin : circuit_.parts[id].pins) {
            const PinId mate = circuit_.pins[pin].mate;
            if (!wired_[pin] || end_of_[pin].node != none || (mate == none && circuit_.wires_at(pin).empty())) continue;
            const PinId upper = mate != none && volts_[mate] > volts_[pin] + same_volts ? mate : pin;
            const PinId lower = mate == none ? pin : upper == pin ? mate : pin;
            Node node;
            node.kind = NodeKind::cavity;
            node.part = id;
            const auto add = [&](PinId each, bool top) {
                end_of_[each] = {static_cast<int>(scheme_.nodes.size()), top ? 0 : 1};
                node.ports.push_back(named_port(each, top));
            };
            add(upper, true);
            if (lower != upper) add(lower, false);
            made.push_back(static_cast<int>(scheme_.nodes.size()));
            scheme_.nodes.push_back(std::move(node));
        }
        if (made.size() > 1) scheme_.parted.push_back(made);
    }
    Port named_port(PinId pin, bool top) const {
        Port port = bare_port(top, pin, volts_[pin]);
        port.name = circuit_.pin_name(pin);
        port.checks = checks_at(pin, pin);
        return port;
    }
    // Cavities of a plug over no pin of its part.
    void make_loose_cavities(PartId id) {
        for (const PinId pin : circuit_.parts[id].pins) {
            if (!wired_[pin] || circuit_.pins[pin].mate != none || circuit_.wires_at(pin).empty()) continue;
            Node node;
            node.kind = NodeKind::cavity;
            node.part = id;
            node.ports.push_back(named_port(pin, true));
            end_of_[pin] = {static_cast<int>(scheme_.nodes.size()), 0};
            scheme_.nodes.push_back(std::move(node));
        }
    }

    // A symbol for each wire that goes to ground; neighbours are joined once their order is known.
    End ground_end(PinId pin, PartId part, const std::string& metal) {
        Node node;
        node.kind = NodeKind::ground;
        node.part = part;
        const auto add = [&](Type type, const std::string& words) {
            constexpr double room = 26;
            for (const std::string& line : measure_.wrap(type, room, words))
                node.title.push_back({0, 0, measure_.width(type, line), type, line, false});
        };
        if (part == none) {
            add(Type::small, metal);
        } else {
            add(Type::designator, circuit_.parts[part].id);
            const std::string& name = circuit_.parts[part].name;
            if (!name.empty()) add(Type::small, name);
            if (!circuit_.parts[part].place.empty()) add(Type::small, circuit_.parts[part].place);
        }
        node.ports.push_back(bare_port(true, pin));
        if (pin != none) node.ports[0].checks = checks_at(pin, pin);
        scheme_.nodes.push_back(std::move(node));
        return {static_cast<int>(scheme_.nodes.size()) - 1, 0};
    }
    End end_of(PinId pin) {
        if (kind_of(pin) == PartKind::ground) return ground_end(pin, circuit_.pins[pin].part, "");
        return end_of_[pin];
    }
    void add_link(End a, End b, WireId wire) {
        if (a.node != none && b.node != none) links_.push_back({a, b, wire});
    }
    End page_end(PinId pin, const std::string& words, bool from) {
        Node node;
        node.kind = from ? NodeKind::from_page : NodeKind::to_page;
        constexpr double room = 24;
        for (const std::string& line : measure_.wrap(Type::small, room, words)) {
            const Type type = node.title.empty() ? Type::small_bold : Type::small;
            node.title.push_back({0, 0, measure_.width(type, line), type, line, false});
        }
        node.ports.push_back(bare_port(!from, none, volts_[pin]));
        scheme_.nodes.push_back(std::move(node));
        return {static_cast<int>(scheme_.nodes.size()) - 1, 0};
    }

    void make_links() {
        for (WireId wire = 0; wire < static_cast<WireId>(circuit_.wires.size()); ++wire)
            if (has_wire(wire)) {
                const End a = end_of(circuit_.wires[wire].from), b = end_of(circuit_.wires[wire].to);
                add_link(a, b, wire);
            }
        for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id) {
            const Part& part = circuit_.parts[id];
            if (part.kind == PartKind::splice && !part.pins.empty() && has_part(id))
                for (const PinId pin : part.joined) {
                    if (kind_of(pin) == PartKind::ground ||
                        (has_part(circuit_.pins[pin].part) && end_of_[pin].node != none))
                        add_link(end_of_[part.pins.front()], end_of(pin), none);
                }
            if (part.bolted_pin != none && has_part(id) && end_of_[part.bolted_pin].node != none) {
                const PartId to = part.bolted_to;
                const PinId pin =
                    to == none || circuit_.parts[to].pins.empty() ? none : circuit_.parts[to].pins.front();
                add_link(end_of_[part.bolted_pin], ground_end(pin, to, part.metal), none);
            }
        }
        for (const auto* pages : {&extract_.from, &extract_.to})
            for (const auto& [pin, words] : *pages) {
                const End end = end_of_[pin];
                const bool from = pages == &extract_.from, above = is_point(end.node) ? from : port(end).top;
                const End mark = page_end(pin, words, above);
                scheme_.nodes[mark.node].incoming = from;
                add_link(end, mark, none);
            }
    }

    bool is_point(int node) const {
        const NodeKind kind = scheme_.nodes[node].kind;
        return kind == NodeKind::point || kind == NodeKind::turn;
    }
    const Port& port(End end) const { return scheme_.nodes[end.node].ports[end.port]; }
    // Whether a wire to `other` leaves a port on this side in its own direction.
    bool goes_ahead(End here, End other) const {
        if (here.node == other.node) return false;
        return is_point(other.node) || port(here).top != port(other).top;
    }

    // A pin with several wires that do not all leave in its own direction gets a point beside it.
    void spread_pins() {
        std::vector<std::vector<std::vector<int>>> at(scheme_.nodes.size());
        for (std::size_t n = 0; n < scheme_.nodes.size(); ++n)
            at[n].resize(scheme_.nodes[n].ports.size());
        for (std::size_t i = 0; i < links_.size(); ++i) {
            at[links_[i].a.node][links_[i].a.port].push_back(static_cast<int>(i));
            at[links_[i].b.node][links_[i].b.port].push_back(static_cast<int>(i));
        }
        const std::size_t nodes = scheme_.nodes.size();
        for (std::size_t n = 0; n < nodes; ++n) {
            if (is_point(static_cast<int>(n))) continue;
            for (std::size_t p = 0; p < at[n].size(); ++p) {
                const End here{static_cast<int>(n), static_cast<int>(p)};
                if (at[n][p].size() < 2) continue;
                const bool ahead = std::all_of(at[n][p].begin(), at[n][p].end(), [&](int i) {
                    const bool first = links_[i].a.node == here.node && links_[i].a.port == here.port;
                    return goes_ahead(here, first ? links_[i].b : links_[i].a);
                });
                if (!ahead) spread(here, at[n][p]);
            }
        }
    }
    void spread(End here, const std::vector<int>& links) {
        const double volts = port(here).volts;
        const bool rail = is_plus(here);
        const End point{static_cast<int>(scheme_.nodes.size()), 0};
        Node node;
        node.ports = {bare_port(true, none, volts), bare_port(false, none, volts)};
        node.rail = rail;
        scheme_.nodes.push_back(std::move(node));
        for (const int i : links)
            for (End* end : {&links_[i].a, &links_[i].b})
                if (end->node == here.node && end->port == here.port) *end = point;
        links_.push_back({here, point, none});
    }
    bool is_plus(End end) const {
        const PinId pin = port(end).pin;
        return pin != none && kind_of(pin) == PartKind::battery && circuit_.pins[pin].name == "+";
    }

    int turn(bool rail) {
        Node node;
        node.kind = NodeKind::turn;
        node.rail = rail;
        node.ports = {bare_port(true), bare_port(false)};
        scheme_.nodes.push_back(std::move(node));
        return static_cast<int>(scheme_.nodes.size()) - 1;
    }
    void add_edge(End from, End to, WireId wire, bool thick = false) {
        Edge edge;
        edge.from = from.node, edge.to = to.node;
        edge.from_port = is_point(from.node) ? 1 : from.port;
        edge.to_port = is_point(to.node) ? 0 : to.port;
        edge.wire = wire;
        edge.thick = thick;
        if (wire != none)
            if (const auto found = probes_.wires.find(wire); found != probes_.wires.end()) edge.checks = found->second;
        scheme_.edges.push_back(std::move(edge));
    }

    void direct(const Link& link) {
        End a = link.a, b = link.b;
        const bool point_a = is_point(a.node), point_b = is_point(b.node);
        const bool rail = (point_a && scheme_.nodes[a.node].rail) || (point_b && scheme_.nodes[b.node].rail) ||
                          is_plus(a) || is_plus(b);
        if (point_a && point_b) {
            const double va = port(a).volts, vb = port(b).volts;
            const bool swap = vb > va + same_volts || (std::abs(va - vb) <= same_volts && b.node < a.node);
            if (a.node == b.node) {
                const int loop = turn(false);
                return add_edge(a, {loop, 0}, link.wire);
            }
            return swap ? add_edge(b, a, link.wire) : add_edge(a, b, link.wire);
        }
        if (point_a || point_b) {
            if (point_b) std::swap(a, b); // a is the point
            return port(b).top ? add_edge(a, b, link.wire, rail && link.wire == none) : add_edge(b, a, link.wire);
        }
        if (a.node == b.node && a.port == b.port) {
            const int loop = turn(false);
            return port(a).top ? add_edge({loop, 0}, a, link.wire) : add_edge(a, {loop, 0}, link.wire);
        }
        if (port(a).top && port(b).top) {
            if (is_plus(b)) std::swap(a, b);
            const int above = turn(rail);
            add_edge({above, 0}, a, is_plus(a) ? none : link.wire, is_plus(a));
            return add_edge({above, 0}, b, is_plus(a) ? link.wire : none);
        }
        if (!port(a).top && !port(b).top) {
            const int below = turn(false);
            add_edge(a, {below, 0}, link.wire);
            return add_edge(b, {below, 0}, none);
        }
        port(a).top ? add_edge(b, a, link.wire) : add_edge(a, b, link.wire);
    }

    // An edge that leads back up turns round twice: below its upper end and above its lower end.
    void cut_circles() {
        enum : char { fresh, open, done };
        const std::size_t nodes = scheme_.nodes.size(), edges = scheme_.edges.size();
        std::vector<std::vector<int>> out(nodes);
        for (std::size_t e = 0; e < edges; ++e)
            out[scheme_.edges[e].from].push_back(static_cast<int>(e));
        std::vector<int> order(nodes);
        for (std::size_t n = 0; n < nodes; ++n)
            order[n] = static_cast<int>(n);
        const auto high = [&](int n) {
            double most = 0;
            for (const Port& each : scheme_.nodes[n].ports)
                most = std::max(most, each.volts);
            return most;
        };
        std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return high(a) > high(b); });
        std::vector<char> state(nodes, fresh), back(edges, 0);
        for (const int start : order) {
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
                const int e = out[node][next++];
                const int to = scheme_.edges[e].to;
                if (state[to] == open) {
                    back[e] = 1;
                } else if (state[to] == fresh) {
                    state[to] = open;
                    path.emplace_back(to, 0);
                }
            }
        }
        for (std::size_t e = 0; e < edges; ++e) {
            if (!back[e]) continue;
            const Edge edge = scheme_.edges[e];
            const int below = turn(false), above = turn(false);
            scheme_.edges[e].to = below, scheme_.edges[e].to_port = 0;
            Edge up = edge;
            up.from = above, up.from_port = 1, up.wire = none;
            up.checks.clear();
            scheme_.edges.push_back(up);
            Edge side;
            side.from = above, side.from_port = 1, side.to = below;
            scheme_.edges.push_back(side);
        }
    }

    // Points that nothing meets any more, such as a splice without wires.
    void drop_idle_points() {
        std::vector<char> used(scheme_.nodes.size(), 0);
        for (const Edge& edge : scheme_.edges)
            used[edge.from] = used[edge.to] = 1;
        std::vector<int> at(scheme_.nodes.size(), none);
        std::vector<Node> kept;
        for (std::size_t n = 0; n < scheme_.nodes.size(); ++n) {
            if (!used[n] && is_point(static_cast<int>(n))) continue;
            at[n] = static_cast<int>(kept.size());
            kept.push_back(std::move(scheme_.nodes[n]));
        }
        scheme_.nodes = std::move(kept);
        for (Edge& edge : scheme_.edges)
            edge.from = at[edge.from], edge.to = at[edge.to];
        for (auto& pair : scheme_.parted)
            for (int& node : pair)
                node = at[node];
    }

    const Circuit& circuit_;
    const std::vector<double>& volts_;
    const Probes& probes_;
    const Measure& measure_;
    const Extract& extract_;
    std::vector<char> wired_;
    std::vector<End> end_of_; // by pin
    std::vector<Link> links_;
    Scheme scheme_;
};

} // namespace

Port bare_port(bool top, PinId pin, double volts) {
    Port port;
    port.pin = pin, port.top = top, port.volts = volts;
    return port;
}

Scheme make_scheme(const Circuit& circuit, const std::vector<double>& volts, const Probes& probes,
                   const Measure& measure, const Extract& extract) {
    return SchemeMaker(circuit, volts, probes, measure, extract).make();
}

} // namespace loomsheet::drawing
