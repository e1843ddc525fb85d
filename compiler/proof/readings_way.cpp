// LS607, LS608, LS611 and LS613: where the current of a measurement goes.
#include "circuit/fault.hpp"
#include "circuit/setting.hpp"
#include "proof/computed.hpp"
#include "proof/reading_table.hpp"
#include "proof/readings.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <utility>

namespace loomsheet {
namespace {

constexpr double least_current = 1; // A: from here on the drop of a ground matters

Setting setting_of(const Predictor& sound, const Check& check, const Row& row) {
    return set_up(sound.circuit(), sound.parameters(), placed(check.with, row), check.measure, row, nullptr, {},
                  usual(Usual::ohms_test).value);
}

// The shortest way from red to black through what conducts at all.
std::vector<int> direct_way(const Setting& setting) {
    const Network& network = *setting.network;
    const Admit conducts_here = [&](const Edge& edge, NodeId, NodeId) {
        const auto index = static_cast<int>(&edge - network.graph.edges.data());
        return network.branches[index].law != Law::absent && edge.kind != EdgeKind::source;
    };
    const NodeId start[] = {setting.red};
    const Reach way = reach(network.graph, start, conducts_here, setting.black);
    return way.has(setting.black) ? way.way(network.graph, setting.black) : std::vector<int>();
}

// --- LS607 ---------------------------------------------------------------------------------------------------------
// A coil that takes most of the meter's volts, and its diode the way that it conducts.
bool prove_polarity(const Circuit& circuit, Setting& setting, const Row& row, Findings& findings) {
    Stand stand = setting.from;
    if (setting.bench->settle(usual_values(*setting.network), stand) != Settling::settled) return false;
    for (std::size_t i = 0; i < setting.network->branches.size(); ++i) {
        const NetBranch& branch = setting.network->branches[i];
        if (branch.law != Law::diode || setting.network->graph.edges[i].kind != EdgeKind::damper) continue;
        if (setting.bench->volts(static_cast<int>(i)) < setting.bench->port_volts() / 2) continue;
        const std::string red = written_point(circuit, row.red), black = written_point(circuit, row.black);
        findings.add(finding::ohms_across_diode, row.at,
                     fmt::format("with red on {} the diode across the coil of {} conducts: a broken coil reads as the "
                                 "diode does, not open",
                                 red, circuit.parts[branch.part].id),
                     fmt::format("change the leads: `ohms {} to {}`", black, red));
        return true;
    }
    return false;
}

// --- LS608 ---------------------------------------------------------------------------------------------------------
bool prove_cold(const Circuit& circuit, const Setting& setting, const Row& row, const RowPrediction& made, Findings& findings) {
    if (!made.limit || (made.fit != Fit::may_miss && made.fit != Fit::fails)) return false;
    for (const int index : direct_way(setting)) {
        const NetBranch& branch = setting.network->branches[index];
        if (branch.law != Law::filament) continue;
        const double hot = setting.network->parameters[branch.ohms].value;
        if (made.limit->high && hot > made.limit->high->si) continue;
        if (made.limit->low && hot < made.limit->low->si) continue;
        findings.add(finding::cold_filament, made.limit->at.end > made.limit->at.begin ? made.limit->at : row.at,
                     fmt::format("{} reads {} cold: the limit fits its {} when it is lit", circuit.parts[branch.part].id,
                                 range_words(circuit, made.reading, MeasureKind::ohms), value_words(hot, 0.1, MeasureKind::ohms)),
                     "leave `expect` out: it is computed then, for the cold filament");
        return true;
    }
    return false;
}

// --- LS611 ---------------------------------------------------------------------------------------------------------
std::string branch_words(const Circuit& circuit, const Edge& edge) {
    if (edge.wire != none) return circuit.wires[edge.wire].id;
    if (edge.kind == EdgeKind::joint) return "joint " + circuit.pin_name(edge.pin);
    return edge.part == none ? std::string("the bridge") : circuit.parts[edge.part].id;
}

void prove_no_way_round(const Plan& plan, const Check& check, const Row& row, const RowPrediction& made, Setting& setting,
                        Findings& findings) {
    const auto limit = made.limit ? made.limit : computed_limit(plan.circuit, check.measure, made.reading);
    if (!limit || limit->not_computed || fit_of(made.reading, *limit, check.measure) != Fit::passes || limit->kind == LimitKind::open ||
        limit->kind == LimitKind::no)
        return;
    const std::vector<double> values = usual_values(*setting.network);
    std::vector<int> way = direct_way(setting); // what is measured first, then the wires to it
    std::stable_partition(way.begin(), way.end(), [&](int index) { return limits_current(setting.network->graph.edges[index]); });
    for (const int index : way) {
        NetBranch& branch = setting.network->branches[index];
        const Law law = std::exchange(branch.law, Law::absent);
        setting.bench->renew();
        Stand stand = setting.from;
        const bool settled = setting.bench->settle(values, stand) == Settling::settled;
        const Admittance port = setting.bench->port();
        const std::vector<int> round = direct_way(setting);
        branch.law = law;
        setting.bench->renew();
        if (!settled || port.g == 0) continue;
        const double ohms = 1 / port.g;
        Reading open;
        open.kind = check.measure == MeasureKind::ohms ? ReadingKind::number
                    : ohms <= usual(Usual::beep).low   ? ReadingKind::yes
                                                       : ReadingKind::no;
        open.low = open.high = ohms;
        if (fit_of(open, *limit, check.measure) != Fit::passes) continue;
        const Edge& edge = setting.network->graph.edges[index];
        findings.add(finding::way_round_part, row.at,
                     fmt::format("with {} open this still {} {} and passes: there is a way round, by {}", branch_words(plan.circuit, edge),
                                 check.measure == MeasureKind::ohms ? "reads" : "beeps at", value_words(ohms, 0.1, MeasureKind::ohms),
                                 list_words(way_words(plan.circuit, setting.network->graph, round), "and", 5)),
                     "unplug or pull what lies in the way round, or choose points that leave it out");
        return;
    }
}

// --- LS613 ---------------------------------------------------------------------------------------------------------
// What conducts, from a point on; with `downstream` only the way that the current flows.
Reach along_conductors(const Network& network, NodeId from, const Bench* downstream = nullptr) {
    const Admit carries_on = [&](const Edge& edge, NodeId here, NodeId next) {
        const auto index = static_cast<int>(&edge - network.graph.edges.data());
        if (downstream && downstream->node_volts(next) > downstream->node_volts(here) + 1e-9) return false;
        return network.branches[index].law != Law::absent && !limits_current(edge) && edge.kind != EdgeKind::source &&
               (edge.kind != EdgeKind::driver);
    };
    const NodeId start[] = {from};
    return reach(network.graph, start, carries_on);
}

bool looks_at(const Plan& plan, const Network& network, const std::vector<NodeId>& nodes) {
    for (const Check& check : plan.checks)
        for (const Row& row : check.rows)
            for (const PointRef* point : {&row.red, &row.black})
                if (point->metal != Metal::body && (check.measure == MeasureKind::volts || check.measure == MeasureKind::drop) &&
                    std::find(nodes.begin(), nodes.end(), network.graph.node_of(*point)) != nodes.end())
                    return true;
    return false;
}

// Where a lead reaches the ground end of a load: at its plug, if it has one.
std::string ground_end(const Circuit& circuit, const Graph& graph, NodeId back) {
    const PinId pin = graph.nodes[back].pin;
    if (pin == none) return node_name(circuit, graph.nodes[back]);
    const PinId cavity = circuit.mate(pin);
    return circuit.pin_name(cavity == none ? pin : cavity);
}

void prove_ground_seen(const Plan& plan, const Row& row, Setting& setting, Findings& findings) {
    const Network& network = *setting.network;
    if (row.red.part != none && plan.circuit.parts[row.red.part].kind == PartKind::battery) return; // of the battery itself
    Stand stand = setting.from;
    if (setting.bench->settle(usual_values(*setting.network), stand) != Settling::settled) return;
    const Reach feed = along_conductors(network, setting.red, setting.bench.get());
    for (std::size_t i = 0; i < network.graph.edges.size(); ++i) {
        const Edge& edge = network.graph.edges[i];
        if (edge.kind != EdgeKind::load || std::abs(setting.bench->amps(static_cast<int>(i))) < least_current) continue;
        if (feed.has(edge.a) == feed.has(edge.b)) continue;
        const NodeId back = feed.has(edge.a) ? edge.b : edge.a;
        const Reach ground = along_conductors(network, back);
        if (!ground.has(network.graph.body)) continue;
        std::vector<int> way = ground.way(network.graph, network.graph.body);
        const std::vector<std::string> words = way_words(plan.circuit, network.graph, way);
        std::vector<NodeId> nodes{back};
        for (const int each : way)
            for (const NodeId node : {network.graph.edges[each].a, network.graph.edges[each].b})
                if (node != network.graph.body) nodes.push_back(node);
        const bool wired = std::any_of(way.begin(), way.end(), [&](int each) { return network.graph.edges[each].wire != none; });
        if (!wired || looks_at(plan, network, nodes)) continue;
        findings.add(finding::ground_drop_not_seen, row.at,
                     fmt::format("with black on the body this does not see a poor ground of {} ({}), and no other check looks at it",
                                 plan.circuit.parts[edge.part].id, list_words(words, "and", 5)),
                     fmt::format("put the black lead on {}, or add a `drop` from there to the battery",
                                 ground_end(plan.circuit, network.graph, back)));
        return;
    }
}

} // namespace

bool prove_way(const Plan& plan, const Predictor& sound, const Check& check, const Row& row, const RowPrediction& made,
               Findings& findings) {
    const bool to_body = check.measure == MeasureKind::volts && row.black.metal == Metal::body;
    if (!is_ohms(check.measure) && !to_body) return false;
    Setting setting = setting_of(sound, check, row);
    if (!setting.beyond.empty()) return false;
    if (to_body) {
        prove_ground_seen(plan, row, setting, findings);
        return false;
    }
    if (check.measure == MeasureKind::ohms && prove_polarity(plan.circuit, setting, row, findings)) return true;
    if (check.measure == MeasureKind::ohms && prove_cold(plan.circuit, setting, row, made, findings)) return true;
    prove_no_way_round(plan, check, row, made, setting, findings);
    return false;
}

} // namespace loomsheet
