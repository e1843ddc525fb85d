// LS401 and LS402: what has no way back to ground, or to a supply, and where that way ends.
#include "proof/families.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <utility>

namespace loomsheet {
namespace {

// Which way is looked for: back to ground, as the current flows, or to the supply, against it.
struct Aim {
    bool ground;
    const Reach& there(const Nets& nets) const { return ground ? nets.grounded : nets.fed; }
    const Reach& opposite(const Nets& nets) const { return ground ? nets.fed : nets.grounded; }
    const Reach& not_through(const Nets& nets) const { return ground ? nets.hot : nets.cold; }
};

bool can_be_in_series(EdgeKind kind) {
    return kind == EdgeKind::load || kind == EdgeKind::resistor || kind == EdgeKind::coil || kind == EdgeKind::sensor;
}

// One step on the way: by what may conduct, and through another load that hangs in between: its far end is not on the
// other net, and its near end neither, unless that is the metal on which the consumer itself hangs (a winding that ends
// at the motor). So two lamps in series are a way, and a neighbour with the same lost ground is none.
bool one_step(const Nets& nets, const Edge& edge, NodeId here, NodeId to, Aim aim, bool on_own_metal) {
    if (aim.not_through(nets).has(to)) return false;
    if (may_conduct(edge, aim.ground ? here : to)) return true;
    const Reach& opposite = aim.opposite(nets);
    return can_be_in_series(edge.kind) && (on_own_metal || !opposite.has(here)) && (!opposite.has(to) || aim.there(nets).has(to));
}

bool is_itself(const Edge& edge, const Consumer& consumer) {
    return limits_current(edge) && edge.part == consumer.part && edge.element == consumer.element;
}

// All that hangs on `from`, but not through the consumer itself.
Reach ways_from(const Nets& nets, const Consumer& consumer, NodeId from, Aim aim) {
    const Reach own_metal = reach(nets.graph, std::vector{from}, [](const Edge& edge, NodeId, NodeId) { return is_conductor(edge); });
    return reach(nets.graph, std::vector{from}, [&](const Edge& edge, NodeId here, NodeId to) {
        return !is_itself(edge, consumer) && one_step(nets, edge, here, to, aim, own_metal.has(here));
    });
}

// All from where a way leads there, if it may lead through any consumer.
Reach ways_to(const Nets& nets, Aim aim) {
    std::vector<NodeId> starts = aim.there(nets).order;
    for (NodeId node = 0; node < static_cast<NodeId>(nets.graph.nodes.size()); ++node)
        if (nets.beyond_the_plan(node)) starts.push_back(node);
    return reach(nets.graph, starts, [&](const Edge& edge, NodeId here, NodeId to) { return one_step(nets, edge, to, here, aim, true); });
}

class Ways {
public:
    explicit Ways(const Nets& nets) : nets_(nets), to_supply_(ways_to(nets, {false})), to_ground_(ways_to(nets, {true})) {}
    bool lead(const Consumer& consumer, NodeId from, Aim aim) const {
        if (aim.there(nets_).has(from)) return true;
        if (!(aim.ground ? to_ground_ : to_supply_).has(from)) return false;
        const Reach ways = ways_from(nets_, consumer, from, aim);
        return std::any_of(ways.order.begin(), ways.order.end(),
                           [&](NodeId node) { return aim.there(nets_).has(node) || nets_.beyond_the_plan(node); });
    }
    bool any_leads(const Consumer& consumer, const std::vector<NodeId>& from, Aim aim) const {
        return std::any_of(from.begin(), from.end(), [&](NodeId node) { return lead(consumer, node, aim); });
    }

private:
    const Nets& nets_;
    Reach to_supply_, to_ground_;
};

struct Missing {
    const Consumer* consumer;
    std::vector<NodeId> from; // the consumer's metals from which no way leads there
};

struct MissingWays {
    std::vector<Missing> supplies, grounds;
};

void look_at(const Ways& ways, const Consumer& consumer, MissingWays& missing) {
    constexpr Aim to_supply{false}, to_ground{true};
    if (!consumer.either_way) {
        if (!consumer.plus.empty() && !ways.any_leads(consumer, consumer.plus, to_supply))
            missing.supplies.push_back({&consumer, consumer.plus});
        if (!consumer.minus.empty() && !ways.any_leads(consumer, consumer.minus, to_ground))
            missing.grounds.push_back({&consumer, consumer.minus});
        return;
    }
    const NodeId a = consumer.plus.front(), b = consumer.minus.front();
    const bool a_fed = ways.lead(consumer, a, to_supply), b_grounded = ways.lead(consumer, b, to_ground);
    if (a_fed && b_grounded) return;
    const auto other_way_round = [&] { return ways.lead(consumer, b, to_supply) && ways.lead(consumer, a, to_ground); };
    if (a_fed) { // by custom the first pin is the fed one, should it have both ways and the other none
        if (!ways.lead(consumer, a, to_ground) || !other_way_round()) missing.grounds.push_back({&consumer, {b}});
        return;
    }
    if (b_grounded) {
        if (!other_way_round()) missing.supplies.push_back({&consumer, {a}});
        return;
    }
    const bool b_fed = ways.lead(consumer, b, to_supply), a_grounded = ways.lead(consumer, a, to_ground);
    if (!b_fed) missing.supplies.push_back({&consumer, {a_grounded ? b : a}});
    if (!a_grounded) missing.grounds.push_back({&consumer, {b_fed ? a : b}});
}

MissingWays missing_ways(const Nets& nets) {
    MissingWays missing;
    const Ways ways(nets);
    for (const Consumer& consumer : nets.consumers)
        look_at(ways, consumer, missing);
    return missing;
}

// Consumers whose ways end at the same point.
struct Group {
    std::vector<Missing> members;
    std::vector<NodeId> ends;
    std::vector<bool> passed; // by node: the ways of the first member come by here
};

// The last points that the ways come to: wire ends from which no wire goes on; else the metal of the car or the splice
// that leads no further; else the pin itself.
Group group_of(const Nets& nets, const Missing& missing, Aim aim) {
    Group group{{missing}, {}, std::vector<bool>(nets.graph.nodes.size())};
    std::vector<NodeId> metals, splices, others;
    for (const NodeId start : missing.from) {
        const Reach ways = ways_from(nets, *missing.consumer, start, aim);
        for (const NodeId node : ways.order) {
            group.passed[node] = true;
            const MetalNode& here = nets.graph.nodes[node];
            if (nets.loose(node))
                group.ends.push_back(node);
            else if (here.metal == Metal::body)
                metals.push_back(node);
            else if (here.metal != Metal::wire_end)
                continue;
            else if (nets.circuit.parts[nets.circuit.pins[here.pin].part].kind == PartKind::splice)
                splices.push_back(node);
            else
                others.push_back(node);
        }
    }
    if (group.ends.empty()) group.ends = metals;
    for (const auto* next : {&std::as_const(splices), &std::as_const(others), &missing.from})
        if (group.ends.empty() && !next->empty()) group.ends = {next->front()};
    std::sort(group.ends.begin(), group.ends.end());
    group.ends.erase(std::unique(group.ends.begin(), group.ends.end()), group.ends.end());
    return group;
}

std::vector<Group> grouped(const Nets& nets, const std::vector<Missing>& list, Aim aim) {
    std::vector<Group> groups;
    for (const Missing& missing : list) {
        const auto on_its_way = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
            return std::any_of(missing.from.begin(), missing.from.end(), [&](NodeId node) { return group.passed[node]; });
        });
        if (on_its_way != groups.end()) {
            on_its_way->members.push_back(missing);
            continue;
        }
        Group fresh = group_of(nets, missing, aim);
        const auto same_end = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
            return std::any_of(fresh.ends.begin(), fresh.ends.end(),
                               [&](NodeId end) { return std::binary_search(group.ends.begin(), group.ends.end(), end); });
        });
        if (same_end != groups.end())
            same_end->members.push_back(missing);
        else
            groups.push_back(std::move(fresh));
    }
    return groups;
}

std::string who(const Nets& nets, const Group& group) {
    std::vector<std::string> names;
    for (const Missing& member : group.members)
        if (const std::string& id = nets.circuit.parts[member.consumer->part].id; std::find(names.begin(), names.end(), id) == names.end())
            names.push_back(id);
    if (names.size() == 1) return nets.circuit.part_name(group.members.front().consumer->part);
    return list_words(names);
}

bool several(const Group& group) {
    return std::any_of(group.members.begin(), group.members.end(),
                       [&](const Missing& each) { return each.consumer->part != group.members.front().consumer->part; });
}

// The wire that comes to the last point.
WireId last_wire(const Nets& nets, const Missing& missing, NodeId end, Aim aim) {
    for (const NodeId start : missing.from) {
        const Reach ways = ways_from(nets, *missing.consumer, start, aim);
        if (!ways.has(end)) continue;
        const std::vector<int> way = ways.way(nets.graph, end);
        for (auto edge = way.rbegin(); edge != way.rend(); ++edge)
            if (nets.graph.edges[*edge].wire != none) return nets.graph.edges[*edge].wire;
    }
    return none;
}

// Of the open ends that lead where the way should go: the one to join, best the cavity of the same number.
int end_to_join(const Nets& nets, const Group& group, const std::vector<OpenEnd>& open, Aim aim) {
    const bool of_relay = nets.circuit.parts[group.members.front().consumer->part].kind == PartKind::relay;
    int best = none;
    for (int i = 0; i < static_cast<int>(open.size()); ++i) {
        if (open[i].told || (open[i].finding.code == 0 && !of_relay) || !aim.there(nets).has(nets.graph.wire_end[open[i].pin])) continue;
        const NodeId end = nets.graph.wire_end[open[i].pin];
        if (std::find(group.ends.begin(), group.ends.end(), end) != group.ends.end()) continue;
        const PinId last = nets.graph.nodes[group.ends.front()].pin;
        if (last != none && nets.circuit.pins[last].name == nets.circuit.pins[open[i].pin].name) return i;
        if (best == none) best = i;
    }
    return best;
}

std::string help_words(const Nets& nets, const Group& group, int join, const std::vector<OpenEnd>& open, Aim aim) {
    const MetalNode& last = nets.graph.nodes[group.ends.front()];
    if (last.pin == none)
        return fmt::format("join {} to the battery, with a strap from a ground point on it", node_name(nets.circuit, last));
    const std::string from = nets.circuit.pin_name(last.pin);
    if (join != none) {
        const std::string to = node_name(nets.circuit, nets.graph.nodes[nets.graph.wire_end[open[join].pin]]);
        return fmt::format("{} leads {} and no wire comes to it: write a wire {} -> {}", to, aim.ground ? "to ground" : "to the supply",
                           aim.ground ? from : to, aim.ground ? to : from);
    }
    if (!aim.ground) return fmt::format("write a wire from a fused supply to {}", from);
    for (const Part& part : nets.circuit.parts)
        if (part.kind == PartKind::ground && !part.pins.empty() && nets.grounded.has(nets.graph.own[part.pins.front()]))
            return fmt::format("write a wire from {} to a ground point, such as {} -> {}", from, from, part.id);
    return fmt::format("write a wire from {} to a ground point", from);
}

std::string battery_words(const Nets& nets, Aim aim) {
    const NodeId post = aim.ground ? nets.minus.front() : nets.plus.front();
    return nets.circuit.pin_name(nets.graph.nodes[post].pin);
}

void mark_told(const Nets& nets, const Group& group, std::vector<OpenEnd>& open) {
    for (OpenEnd& each : open)
        if (std::binary_search(group.ends.begin(), group.ends.end(), nets.graph.wire_end[each.pin])) each.told = true;
}

// A wire whose other end was left out, and which leads where this way should go: it was meant to be here.
bool is_explained(Nets& nets, Aim aim) {
    const auto meant = std::find_if(nets.lost_wires.begin(), nets.lost_wires.end(), [&](NodeId end) { return aim.there(nets).has(end); });
    if (meant == nets.lost_wires.end()) return false;
    nets.lost_wires.erase(meant);
    return true;
}

void report(const Nets& nets, const Group& group, std::vector<OpenEnd>& open, Aim aim, Findings& findings) {
    const int join = end_to_join(nets, group, open, aim);
    if (join != none) open[join].told = true;
    std::vector<std::string> ends;
    for (const NodeId end : group.ends)
        ends.push_back(node_name(nets.circuit, nets.graph.nodes[end]));
    const Consumer& first = *group.members.front().consumer;
    Diagnostic finding{aim.ground ? finding::missing_ground : finding::no_way_to_supply,
                       nets.circuit.parts[first.part].at,
                       {},
                       help_words(nets, group, join, open, aim),
                       {}};
    finding.says = fmt::format("{} {} no way {}: nothing leads from {} on to {}", who(nets, group), several(group) ? "have" : "has",
                               aim.ground ? "back to ground" : "to a supply", list_words(ends, "or"), battery_words(nets, aim));
    if (const WireId wire = last_wire(nets, group.members.front(), group.ends.front(), aim); wire != none)
        finding.related.push_back({nets.circuit.wires[wire].at, fmt::format("{} is the last wire on the way, it comes to {}",
                                                                            nets.circuit.wires[wire].id, ends.front())});
    findings.add(std::move(finding));
}

} // namespace

std::size_t count_missing_ways(const Nets& nets) {
    const MissingWays missing = missing_ways(nets);
    return missing.supplies.size() + missing.grounds.size();
}

void prove_ways(Nets& nets, std::vector<OpenEnd>& open, Findings& findings) {
    const MissingWays missing = missing_ways(nets);
    for (const Aim aim : {Aim{true}, Aim{false}})
        for (const Group& group : grouped(nets, aim.ground ? missing.grounds : missing.supplies, aim)) {
            mark_told(nets, group, open);
            if (!is_explained(nets, aim)) report(nets, group, open, aim, findings);
        }
}

} // namespace loomsheet
