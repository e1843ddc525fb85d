#include "planning/new_checks.hpp"
#include "faults/between.hpp"
#include "model/change.hpp"
#include "proof/computed.hpp"
#include "proof/readings.hpp"
#include "proof/rules.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

// All of them: common practice, no source.
constexpr double minutes_of_a_check = 3, minutes_of_a_change = 1;
constexpr double moves_volts = 0.05,
                 moves_share = 0.1; // V and share of the sound reading: less is no limit worth setting
constexpr std::size_t most_setups = 16;

// Whether a set-up can be written into another check, and asked of a car at rest.
bool can_be_used(const Setup& setup) {
    return std::none_of(setup.items.begin(), setup.items.end(), [](const SetupItem& item) {
        return item.kind == ItemKind::one_of_pulled || item.kind == ItemKind::moved || item.kind == ItemKind::as_found ||
               item.kind == ItemKind::at_value || item.kind == ItemKind::engine_speed;
    });
}

std::vector<Setup> setups_of(const Plan& plan) {
    std::vector<Setup> list;
    const auto add = [&](Setup setup) {
        for (SetupItem& item : setup.items)
            item.across_points = false; // it lies where it lay
        const bool known = std::any_of(list.begin(), list.end(), [&](const Setup& each) {
            return std::equal(each.items.begin(), each.items.end(), setup.items.begin(), setup.items.end(),
                              [](const SetupItem& a, const SetupItem& b) { return same_subject(a, b) && same_state(a, b); });
        });
        if (!known && can_be_used(setup) && list.size() < most_setups) list.push_back(std::move(setup));
    };
    add(plan.complaint_with);
    for (const Check& check : plan.checks)
        add(setup_of(check));
    return list;
}

// The metals that a tip can be laid on, as a plan writes them: crimps in their cavities, sockets, ground points,
// battery posts.
std::vector<PointRef> points_of(const Circuit& circuit) {
    std::vector<PointRef> list;
    for (PinId pin = 0; pin < static_cast<PinId>(circuit.pins.size()); ++pin) {
        PointRef point;
        point.part = circuit.pins[pin].part, point.pin = pin;
        const Part& part = circuit.parts[point.part];
        if (circuit.wires_at(pin).empty() || (part.kind == PartKind::splice && !part.bare)) continue;
        if (part.kind == PartKind::battery) point.metal = Metal::part;
        if (part.kind == PartKind::ground) {
            const bool known = std::any_of(list.begin(), list.end(), [&](const PointRef& each) { return each.part == point.part; });
            if (known) continue;
            point.pin = none, point.metal = Metal::whole;
        }
        list.push_back(std::move(point));
    }
    return list;
}

NodeId node_of(const Circuit& circuit, const Graph& graph, const PointRef& point) {
    if (point.pin == none && point.part != none && !circuit.parts[point.part].pins.empty())
        return graph.wire_end[circuit.parts[point.part].pins.front()];
    return graph.node_of(point);
}

} // namespace

void add_once(std::vector<Suspect>& list, const Suspect& suspect) {
    if (std::find(list.begin(), list.end(), suspect) == list.end()) list.push_back(suspect);
}

NewChecks::NewChecks(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis)
    : plan_(plan), circuit_(plan.circuit), sound_(sound), diagnosis_(diagnosis), setups_(setups_of(plan)), points_(points_of(plan.circuit)),
      at_rest_(build_graph(plan.circuit)), uses_(normal_use(plan)), volts_(complaint_volts(plan, sound.parameters().system_volts)) {}

bool NewChecks::is_moved(const ProbePair& pair, double reads) {
    return reads != no_rest && std::abs(reads - pair.volts) > moves_volts + moves_share * pair.volts;
}

double NewChecks::likely(const std::vector<std::size_t>& faults) const {
    double sum = 0;
    for (const std::size_t each : faults)
        sum += fault(each).likely;
    return sum;
}

std::vector<std::size_t> NewChecks::least_of(const std::vector<std::size_t>& faults) const {
    std::vector<std::size_t> list;
    for (const std::size_t each : faults) {
        const bool larger = !list.empty() && fault(each).fault.kind == FaultKind::added &&
                            fault(list.back()).fault.kind == FaultKind::added && fault(list.back()).suspect == fault(each).suspect;
        if (!larger) list.push_back(each);
    }
    return list;
}

const Predictor& NewChecks::car(std::size_t which) {
    std::unique_ptr<Predictor>& made = cars_[which];
    const Fault& of = fault(which).fault;
    if (!made) made = std::make_unique<Predictor>(sound_, of, can_blow(of.kind) ? uses_ : std::vector<Setup>());
    return *made;
}

// Of all points, on a car whose values are all usual; empty where it does not come to rest.
std::vector<double> NewChecks::volts_at_points(const Predictor& of, const Setup& setup) const {
    const Setting& setting = of.rig(setup).setting();
    Stand stand = setting.from;
    if (setting.bench->settle(usual_values(*setting.network), stand) != Settling::settled) return {};
    std::vector<double> volts;
    for (const PointRef& point : points_) {
        const NodeId node = node_of(circuit_, setting.network->graph, point);
        volts.push_back(node == none ? 0 : setting.bench->node_volts(node));
    }
    return volts;
}

double NewChecks::minutes(int before, const ProbePair& pair) const {
    const Setup& setup = setups_[pair.setup];
    std::vector<PanelId> panels;
    const auto open = [&](PartId part) {
        const PanelId panel = part == none ? PanelId{none} : circuit_.panel_of(part);
        if (panel != none && std::find(panels.begin(), panels.end(), panel) == panels.end()) panels.push_back(panel);
    };
    open(points_[pair.red].part), open(points_[pair.black].part);
    for (const SetupItem& item : setup.items)
        if (item.kind == ItemKind::pulled || item.kind == ItemKind::unplugged) open(item.part);
    double all = minutes_of_a_check;
    for (const PanelId panel : panels)
        all += circuit_.panels[panel].time ? circuit_.panels[panel].time->si / 60 : 0;
    for (const Change& change : changes(setup_of(plan_.checks[before]), setup))
        all += change.kind == ChangeKind::keep ? 0 : minutes_of_a_change;
    return all;
}

OutcomeSet NewChecks::outcomes(std::size_t which, const Check& check) {
    const Predictor& of = car(which);
    const CheckPrediction made = predict_for_outcome(plan_, of, check);
    if (!volts_ || diagnosis_.matrix.harm[which] != Truth::maybe) return outcomes_of(check, made);
    Together together(plan_, of, *volts_);
    return outcomes_of(check, made, [&](std::size_t row, Answer answer) { return together.possible(check, &made.rows[row], row, answer); });
}

// The rules of a single check, as they would be asked if it stood in the plan.
bool NewChecks::is_clean(const Check& check) const {
    Plan alone = plan_;
    alone.checks = {check}, alone.verdicts.clear(), alone.plants.clear(), alone.setups.clear(), alone.complaint_with = {};
    Findings found;
    const Doubt doubt = doubt_of(alone, found);
    prove_setup(alone, doubt, found);
    prove_readings(alone, sound_, {predict_check(alone, sound_, check)}, found);
    return std::all_of(found.list().begin(), found.list().end(), [](const Diagnostic& each) {
        return each.code == finding::wire_loses_too_much || each.code == finding::fuse_blows_in_use; // of the circuit
    });
}

std::optional<Check> NewChecks::made(const ProbePair& pair) const {
    Check check;
    check.with = setups_[pair.setup];
    Row row;
    row.red = points_[pair.red], row.black = points_[pair.black];
    check.rows = {row};
    check.outcomes.resize(2);
    check.outcomes[0].kind = OutcomeKind::pass, check.outcomes[1].kind = OutcomeKind::fail;
    const Reading reading = sound_.read(check.with, MeasureKind::volts, row);
    if (reading.kind != ReadingKind::number || reading.may_chatter) return std::nullopt;
    for (const MeasureKind kind : {MeasureKind::drop, MeasureKind::volts}) {
        check.measure = kind;
        const std::optional<Limit> limit = computed_limit(circuit_, kind, reading);
        if (!limit) return std::nullopt;
        check.limits = {*limit};
        if (is_clean(check)) return check;
    }
    return std::nullopt;
}

std::vector<Suspect> NewChecks::run(const ProbePair& pair) const {
    return suspects_between(circuit_, at_rest_, points_[pair.red], points_[pair.black]);
}

} // namespace loomsheet
