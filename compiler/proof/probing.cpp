// LS503 to LS507 and LS513: where the tips go, in the set-up of their check.
#include "proof/families.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <memory>

namespace loomsheet {
namespace {

// One check, and its circuit when it is first asked for.
class Probed {
public:
    Probed(const Plan& plan, const Graph& whole, const Check& measured, bool wires_lost)
        : circuit(plan.circuit), at_rest(whole), check(measured), doubtful(wires_lost) {}
    const Circuit& circuit;
    const Graph& at_rest;
    const Check& check;
    const bool doubtful; // wires were left out
    const Graph& in_setup() {
        if (!graph_) graph_ = std::make_unique<Graph>(build_graph(circuit, check.with)), pull_in(circuit, *graph_, check.with);
        return *graph_;
    }
    bool taken_off(PartId part) const {
        return std::any_of(check.with.items.begin(), check.with.items.end(), [&](const SetupItem& item) {
            return (item.kind == ItemKind::unplugged || item.kind == ItemKind::pulled) && item.part != none &&
                   (item.part == part || circuit.parts[part].twin == item.part);
        });
    }
    bool disconnected(PinId pin) const {
        return std::any_of(check.with.items.begin(), check.with.items.end(),
                           [&](const SetupItem& item) { return item.kind == ItemKind::disconnected && item.pin == pin; });
    }
    // A joint that this set-up takes apart.
    bool is_gone(const Edge& edge) const { return edge.kind == EdgeKind::joint && (taken_off(edge.part) || disconnected(edge.pin)); }
    std::string name(NodeId node) const { return node_name(circuit, at_rest.nodes[node]); }

private:
    std::unique_ptr<Graph> graph_;
};

// --- LS503 ---------------------------------------------------------------------------------------------------------
// A fuse of ISO 8820-3 has openings over its blades for the tips (common practice, no source).
bool can_be_probed_in_place(const Part& part) { return !part.fuse_type.empty(); }

void prove_point(const Probed& probed, const PointRef& point, Findings& findings) {
    const Circuit& circuit = probed.circuit;
    const auto hidden = [&](std::string says, std::string help) {
        findings.add(finding::probing_what_is_hidden, point.at, std::move(says), std::move(help));
    };
    if (point.wire != none) {
        const Wire& wire = circuit.wires[point.wire];
        if (wire.from == none || wire.to == none) return;
        return hidden(fmt::format("{} is insulated along its way: no tip gets there", wire.id),
                      fmt::format("write one of its ends, {} or {}", circuit.pin_name(wire.from), circuit.pin_name(wire.to)));
    }
    if (point.part == none) return;
    const Part& part = circuit.parts[point.part];
    if (part.kind == PartKind::splice) {
        if (!part.bare)
            hidden(fmt::format("{} is a splice inside the loom: there is nothing to probe", part.id),
                   "write a pin near it, or `bare` in its statement when it is a bar that can be reached");
        return;
    }
    if (part.kind == PartKind::ground) return;
    if (point.pin == none) {
        if (part.pins.empty() || !point.pins.empty()) return;
        return hidden(fmt::format("{} has more than one pin: a tip goes to one of them", part.id),
                      fmt::format("write the pin, such as {}", circuit.pin_name(part.pins.front())));
    }
    const std::string pin = circuit.pin_name(point.pin);
    if (point.metal == Metal::joint) {
        const std::string other = part.kind == PartKind::connector && circuit.mate(point.pin) != none && part.twin != none
                                      ? circuit.pin_name(circuit.mate(point.pin))
                                      : "part " + pin;
        return hidden(fmt::format("joint {} is a contact, no place for a tip", pin),
                      fmt::format("write its two sides, {} and {}", pin, other));
    }
    if (part.kind == PartKind::connector) return;
    const PinId cavity = circuit.mate(point.pin);
    if (cavity != none && !probed.taken_off(circuit.pins[cavity].part)) { // M3.1 and part M3.1 alike
        const std::string plug = circuit.parts[circuit.pins[cavity].part].id;
        return hidden(fmt::format("{} is hidden under {}", pin, plug),
                      fmt::format("write {}, the wire's end, or add `{} unplugged` to the set-up", circuit.pin_name(cavity), plug));
    }
    if (cavity != none || point.metal != Metal::part || can_be_probed_in_place(part)) return;
    if (circuit.sits_in_holder(point.part) && !probed.taken_off(point.part))
        return hidden(fmt::format("the metal of {} is hidden in its socket", pin),
                      fmt::format("write {}, the wire's end, or add `{} pulled` to the set-up", pin, part.id));
}

// A wire that is missing was told of; what hangs on it cannot be judged.
bool wire_is_missing(const Findings& findings) {
    return std::any_of(findings.list().begin(), findings.list().end(), [](const Diagnostic& finding) {
        return finding.code == finding::missing_ground || finding.code == finding::no_way_to_supply ||
               finding.code == finding::pin_not_wired || finding.code == finding::mates_do_not_match ||
               finding.code == finding::wire_goes_nowhere;
    });
}

// LS503 again, and LS513.
void prove_drop(const Probed& probed, const Row& row, NodeId red, NodeId black, Findings& findings) {
    const Admit without_load = [](const Edge& edge, NodeId, NodeId) { return !limits_current(edge) && edge.kind != EdgeKind::source; };
    const Reach whole = reach(probed.at_rest, std::vector{red}, without_load, black);
    if (!whole.has(black)) {
        if (probed.doubtful || wire_is_missing(findings)) return;
        const Admit anything = [](const Edge& edge, NodeId, NodeId) { return edge.kind != EdgeKind::source; };
        const Reach through = reach(probed.at_rest, std::vector{red}, anything);
        std::string between = "nothing joins them";
        if (through.has(black))
            for (const int index : through.way(probed.at_rest, black))
                if (limits_current(probed.at_rest.edges[index]))
                    between = fmt::format("{} lies between them", probed.circuit.parts[probed.at_rest.edges[index].part].id);
        findings.add(finding::drop_across_load, row.at,
                     fmt::format("a drop is read along wires, joints and closed contacts; from {} to {} {}", probed.name(red),
                                 probed.name(black), between),
                     "write `volts`, or two points on one side of the load");
        return;
    }
    const Edge* gone = nullptr;
    for (const int index : whole.way(probed.at_rest, black))
        if (!gone && probed.is_gone(probed.at_rest.edges[index])) gone = &probed.at_rest.edges[index];
    if (!gone) return;
    const Admit not_gone = [&](const Edge& edge, NodeId from, NodeId to) { return without_load(edge, from, to) && !probed.is_gone(edge); };
    if (reach(probed.at_rest, std::vector{red}, not_gone, black).has(black)) return; // another way is left
    const std::string& part = probed.circuit.parts[gone->part].id;
    findings.add(finding::probing_what_is_hidden, row.at,
                 fmt::format("{} is off here, and with it the joint {}: there is no way from {} to {}", part,
                             probed.circuit.pin_name(gone->pin), probed.name(red), probed.name(black)),
                 fmt::format("leave {} on, or choose two points on one side of it", part));
}

// What the battery does to the circuit in a set-up. A battery with a clamp off does nothing.
struct Driven {
    Driven(const Probed& probed, const Graph& graph) {
        std::vector<NodeId> plus, minus;
        for (const Edge& source : sources(probed.circuit, graph, probed.check.with)) {
            if (probed.disconnected(graph.nodes[source.a].pin) || probed.disconnected(graph.nodes[source.b].pin)) continue;
            plus.push_back(source.a);
            minus.push_back(source.b);
        }
        ground = reach(graph, minus, [](const Edge& edge, NodeId, NodeId) { return conducts(edge); });
        by_plus = reach(graph, plus, [&](const Edge& edge, NodeId from, NodeId to) {
            return (conducts(edge) || limits_current(edge) || (edge.kind == EdgeKind::diode && from == edge.a)) && !ground.has(to);
        });
    }
    Reach ground;  // what conducts to the minus
    Reach by_plus; // what the plus reaches, through loads too, but not through ground
};

// --- LS504 ---------------------------------------------------------------------------------------------------------
// A half that hangs dead because the pair is apart, while the other half is alive.
void prove_live_half(Probed& probed, const Row& row, Findings& findings) {
    if (probed.check.measure != MeasureKind::volts && probed.check.measure != MeasureKind::testlamp) return;
    for (const PointRef* point : {&row.red, &row.black}) {
        if (point->pin == none || probed.circuit.parts[point->part].twin == none || !probed.taken_off(point->part)) continue;
        const Part& half = probed.circuit.parts[point->part];
        const PinId mate = probed.circuit.mate(point->pin);
        if (mate == none) continue;
        const Graph& graph = probed.in_setup();
        const Driven driven(probed, graph);
        const auto live = [&](PinId pin) { return driven.ground.has(graph.wire_end[pin]) || driven.by_plus.has(graph.wire_end[pin]); };
        if (live(point->pin) || !live(mate)) continue;
        const Part& other = probed.circuit.parts[half.twin];
        const auto named = [](const Part& part) { return part.half.empty() ? part.id : fmt::format("{} (\"{}\")", part.id, part.half); };
        findings.add(finding::wrong_half_of_pair, point->at,
                     fmt::format("{} hangs dead here: with the pair apart the battery reaches only {}", named(half), named(other)),
                     fmt::format("write {}", probed.circuit.pin_name(mate)));
        return; // one message a row
    }
}

// --- LS505 ---------------------------------------------------------------------------------------------------------
// Whether a way leads to a battery at all, all contacts closed and through ground too: most points of an ohms check are apart
// from everything, and that is soon seen.
bool hangs_on_a_battery(const Probed& probed, const std::vector<NodeId>& points) {
    const Reach all = reach(probed.at_rest, points,
                            [&](const Edge& edge, NodeId, NodeId) { return edge.kind != EdgeKind::source && !probed.is_gone(edge); });
    return std::any_of(all.order.begin(), all.order.end(), [&](NodeId node) {
        const std::vector<int>& edges = probed.at_rest.at[node];
        return std::any_of(edges.begin(), edges.end(), [&](int edge) { return probed.at_rest.edges[edge].kind == EdgeKind::source; });
    });
}

void prove_not_driven(Probed& probed, const Row& row, NodeId red, NodeId black, Findings& findings) {
    if (!is_ohms(probed.check.measure)) return;
    if (!hangs_on_a_battery(probed, {red, black})) return;
    const Graph& graph = probed.in_setup();
    const Driven driven(probed, graph);
    for (const NodeId point : {red, black}) {
        if (!driven.by_plus.has(point)) continue;
        const std::vector<int> way = driven.by_plus.way(graph, point);
        const std::vector<std::string> by = way_words(probed.circuit, graph, way);
        std::string off = fmt::format("{}.- disconnected",
                                      probed.circuit.parts[probed.circuit.pins[graph.nodes[driven.by_plus.order.front()].pin].part].id);
        for (const int index : way)
            if (graph.edges[index].kind == EdgeKind::link) off = fmt::format("{} pulled", probed.circuit.parts[graph.edges[index].part].id);
        findings.add(finding::ohms_with_supply, row.at,
                     fmt::format("a supply still feeds {} in this set-up, by {}: `{}` reads false and the meter may suffer",
                                 probed.name(point), list_words(by, "and", 8), measure_word(probed.check.measure)),
                     fmt::format("take the supply off first, such as `{}`", off));
        return;
    }
}

// --- LS506 ---------------------------------------------------------------------------------------------------------
void prove_bridges(Probed& probed, Findings& findings) {
    for (const SetupItem& item : probed.check.with.items) {
        if (item.kind != ItemKind::bridge) continue;
        const Graph& graph = probed.in_setup();
        const NodeId a = graph.node_of(item.a), b = graph.node_of(item.b);
        if (a == none || b == none) continue;
        const Admit without = [&](const Edge& edge, NodeId, NodeId) {
            const bool itself = edge.kind == EdgeKind::bridge && ((edge.a == a && edge.b == b) || (edge.a == b && edge.b == a));
            return conducts(edge) && !itself;
        };
        std::vector<NodeId> plus, minus;
        for (const Edge& source : sources(probed.circuit, graph, probed.check.with))
            plus.push_back(source.a), minus.push_back(source.b);
        const Reach fed = reach(graph, plus, without), ground = reach(graph, minus, without);
        if ((fed.has(a) && ground.has(b)) || (fed.has(b) && ground.has(a))) {
            const NodeId live = fed.has(a) && ground.has(b) ? a : b;
            findings.add(finding::bridge_joins_supply_to_ground, item.at,
                         fmt::format("this bridge joins the supply at {} straight to ground at {}", probed.name(live),
                                     probed.name(live == a ? b : a)),
                         "bridge two points of one side, such as the contact of a relay");
        }
    }
}

// --- LS507 ---------------------------------------------------------------------------------------------------------
bool prove_apart(const Probed& probed, const Row& row, NodeId red, NodeId black, Findings& findings) {
    if (red != black) return true;
    findings.add(finding::points_are_same_joint, row.at,
                 fmt::format("both tips are on one piece of metal, {}: this always reads 0", probed.name(red)),
                 "write two points with something between them");
    return false;
}

void prove_row(Probed& probed, const Row& row, Findings& findings) {
    prove_point(probed, row.red, findings);
    prove_point(probed, row.black, findings);
    const NodeId red = probed.at_rest.node_of(row.red), black = probed.at_rest.node_of(row.black);
    if (red == none || black == none || !prove_apart(probed, row, red, black, findings)) return;
    if (probed.check.measure == MeasureKind::drop) prove_drop(probed, row, red, black, findings);
    prove_live_half(probed, row, findings);
    prove_not_driven(probed, row, red, black, findings);
}

} // namespace

void prove_probing(const Plan& plan, const Doubt& doubt, Findings& findings) {
    const Graph at_rest = build_graph(plan.circuit);
    const bool wires_lost = doubt.circuit || std::any_of(plan.circuit.wires.begin(), plan.circuit.wires.end(),
                                                         [](const Wire& wire) { return wire.from == none || wire.to == none; });
    for (const Check& check : plan.checks) {
        Probed probed(plan, at_rest, check, wires_lost);
        for (const SetupItem& item : check.with.items)
            if (item.kind == ItemKind::bridge || (item.kind == ItemKind::load && !item.across_points)) {
                prove_point(probed, item.a, findings);
                prove_point(probed, item.b, findings);
            }
        prove_bridges(probed, findings);
        if (row_of(check.measure).two_points)
            for (const Row& row : check.rows)
                prove_row(probed, row, findings);
    }
}

} // namespace loomsheet
