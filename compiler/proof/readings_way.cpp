// LS607, LS608, LS611 and LS613: where the current of a measurement goes.
#include "circuit/fault.hpp"
#include "circuit/setting.hpp"
#include "proof/reading_table.hpp"
#include "proof/readings.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <cmath>
#include <utility>
#include <fmt/format.h>

namespace loomsheet {
namespace {

constexpr double carries = 1; // A: from here on the drop of a ground matters

bool is_ohms(MeasureKind measure) { return measure == MeasureKind::ohms || measure == MeasureKind::continuity; }

Setting setting_of(const Predictor& sound, const Check& check, const Row& row) {
    Setup setup = check.with;
    for (SetupItem& item : setup.items)
        if (item.kind == ItemKind::load && item.across_points) item.a = row.red, item.b = row.black, item.across_points = false;
    return set_up(sound.circuit(), sound.parameters(), setup, check.measure, row, nullptr, {}, usual(Usual::ohms_test).value);
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
bool prove_polarity(const Circuit& circuit, const Setting& setting, const Row& row, Findings& findings) {
    for (std::size_t i = 0; i < setting.network->branches.size(); ++i) {
        const NetBranch& branch = setting.network->branches[i];
        const Branch& ends = setting.network->ends[i];
        if (branch.law != Law::diode || setting.network->graph.edges[i].kind != EdgeKind::damper) continue;
        if (ends.a != setting.red || ends.b != setting.black) continue; // the meter drives it the way that it conducts
        findings.add(607, row.at,
                     fmt::format("the diode of {} lies across its coil: with red on {} it conducts, and a meter of 2 V or more reads the diode",
                                 circuit.parts[branch.part].id, written_point(circuit, row.red)),
                     fmt::format("change the leads: {} to {}", written_point(circuit, row.black), written_point(circuit, row.red)));
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
        findings.add(608, made.limit->at.end > made.limit->at.begin ? made.limit->at : row.at,
                     fmt::format("{} reads {} cold; {} is what it has when it is lit", circuit.parts[branch.part].id,
                                 range_words(circuit, made.reading, MeasureKind::ohms), value_words(hot, 0.1, MeasureKind::ohms)),
                     "leave `expect` out: it is computed for the cold filament");
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

void prove_no_way_round(const Plan& plan, const Check& check, const Row& row, const RowPrediction& made,
                        Setting& setting, Findings& findings) {
    if (!made.limit || made.limit->not_computed || made.fit != Fit::passes || made.limit->kind == LimitKind::open ||
        made.limit->kind == LimitKind::no)
        return;
    const std::vector<double> values = usual_values(*setting.network);
    for (const int index : direct_way(setting)) {
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
        if (fit_of(open, *made.limit) != Fit::passes) continue;
        const Edge& edge = setting.network->graph.edges[index];
        findings.add(611, row.at,
                     fmt::format("with {} open this still reads {} and passes: there is a way round, by {}", branch_words(plan.circuit, edge),
                                 value_words(ohms, 0.1, MeasureKind::ohms),
                                 list_words(way_words(plan.circuit, setting.network->graph, round), "and", 5)),
                     "unplug what lies in the way round, or choose points that leave it out");
        return;
    }
}

// --- LS613 ---------------------------------------------------------------------------------------------------------
Reach along_conductors(const Network& network, NodeId from) {
    const Admit carries_on = [&](const Edge& edge, NodeId, NodeId) {
        const auto index = static_cast<int>(&edge - network.graph.edges.data());
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

void prove_ground_seen(const Plan& plan, const Row& row, Setting& setting, Findings& findings) {
    const Network& network = *setting.network;
    Stand stand = setting.from;
    if (setting.bench->settle(usual_values(*setting.network), stand) != Settling::settled) return;
    const Reach feed = along_conductors(network, setting.red);
    for (std::size_t i = 0; i < network.graph.edges.size(); ++i) {
        const Edge& edge = network.graph.edges[i];
        if (edge.kind != EdgeKind::load || std::abs(setting.bench->amps(static_cast<int>(i))) < carries) continue;
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
        findings.add(613, row.at,
                     fmt::format("with black on the body this does not see what the ground side of {} drops, by {}, and no other check does",
                                 plan.circuit.parts[edge.part].id, list_words(words, "and", 5)),
                     fmt::format("put the black lead on {}, or add a `drop` on the ground side",
                                 node_name(plan.circuit, network.graph.nodes[back])));
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
