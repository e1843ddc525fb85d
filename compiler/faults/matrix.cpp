#include "faults/matrix.hpp"
#include "circuit/rig.hpp"
#include "faults/together.hpp"
#include "model/change.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

// What a fault must touch to change a reading: the branches through which current flows on a sound car.
class Flows {
public:
    Flows(const Predictor& sound, const Setup& setup, MeasureKind measure, const Row* row) : circuit_(sound.circuit()) {
        Setup placed = setup;
        for (SetupItem& item : placed.items)
            if (row && item.kind == ItemKind::load && item.across_points) item.a = row->red, item.b = row->black, item.across_points = false;
        setting_ = row ? set_up(circuit_, sound.parameters(), placed, measure, *row, nullptr, {}, usual(Usual::ohms_test).value)
                       : set_up(circuit_, sound.parameters(), placed, nullptr, {});
        const std::vector<double> values = usual_values(*setting_.network);
        const Stands stands = stands_of(*setting_.bench, setting_.from);
        certain_ = !stands.chatters && !stands.history && stands.list.size() == 1 && setting_.beyond.empty();
        for (const SetupItem& item : setup.items)
            certain_ &= item.kind != ItemKind::moved && item.kind != ItemKind::one_of_pulled;
        if (!certain_) return;
        Stand stand = stands.list.front();
        setting_.bench->settle(values, stand, true);
        flows_.resize(setting_.network->branches.size());
        for (std::size_t i = 0; i < flows_.size(); ++i)
            flows_[i] = std::abs(setting_.bench->amps(static_cast<int>(i))) > 1e-15;
        if (measured_branch(row)) flows_.clear(), certain_ = false;
    }
    bool may_change(const Fault& fault) const {
        if (!certain_ || can_blow(fault.kind)) return true;
        const std::vector<int> branches = touched(circuit_, fault, *setting_.network);
        return std::any_of(branches.begin(), branches.end(), [&](int branch) { return flows_[branch] != 0; });
    }

private:
    // The branch that a clamp lies round is the instrument: its own current is not seen here.
    bool measured_branch(const Row*) const { return setting_.term.amps; }
    const Circuit& circuit_;
    Setting setting_;
    std::vector<char> flows_;
    bool certain_ = false;
};

struct CheckFlows {
    std::vector<Flows> rows;     // with what they are held against
    std::vector<PartId> seen;    // parts that are looked at, in the hand too
    bool may_change(const Fault& fault) const {
        if (std::find(seen.begin(), seen.end(), fault.at_point.part) != seen.end() && fault.at_point.part != none) return true;
        return std::any_of(rows.begin(), rows.end(), [&](const Flows& each) { return each.may_change(fault); });
    }
};

CheckFlows flows_of(const Plan& plan, const Predictor& sound, const Check& check) {
    CheckFlows made;
    if (check.measure == MeasureKind::look) made.rows.emplace_back(sound, setup_of(check), MeasureKind::look, nullptr);
    const auto see = [&](const States& states) {
        for (const State& state : states.list)
            made.seen.push_back(state.of.part);
    };
    see(check.look_states);
    for (const Outcome& outcome : check.outcomes)
        see(outcome.states);
    for (const Row& row : check.rows) {
        made.rows.emplace_back(sound, check.with, check.measure, &row);
        const Limit* limit = limit_of(check, row.name);
        if (!limit || limit->kind != LimitKind::within || limit->reference == none) continue;
        const Check& before = plan.checks[limit->reference];
        for (const Row& each : before.rows)
            made.rows.emplace_back(sound, before.with, before.measure, &each);
    }
    return made;
}

bool works_as_before(const Plan& plan, const Predictor& sound, const Predictor& car) {
    for (const Setup& use : normal_use(plan))
        for (PartId id = 0; id < static_cast<PartId>(plan.circuit.parts.size()); ++id) {
            const PartKind kind = plan.circuit.parts[id].kind;
            if (kind != PartKind::motor && kind != PartKind::lamp && kind != PartKind::heater && kind != PartKind::horn &&
                kind != PartKind::solenoid)
                continue;
            State works;
            works.of.part = id, works.of.metal = Metal::whole;
            if (sound.looks(use, works) == Truth::yes && car.looks(use, works) != Truth::yes) return false;
        }
    return true;
}

} // namespace

Truth complains(const Plan& plan, const Predictor& sound, const Predictor& car) {
    if (!plan.complaint_states.empty()) return hold(car, plan.complaint_with, plan.complaint_states);
    if (plan.complaint_points && plan.complaint_limit) {
        const Reading reading = car.read(plan.complaint_with, plan.complaint_measure, *plan.complaint_points);
        switch (fit_of(reading, *plan.complaint_limit)) {
        case Fit::passes: return Truth::yes;
        case Fit::fails: return Truth::no;
        default: return Truth::maybe;
        }
    }
    return works_as_before(plan, sound, car) ? Truth::no : Truth::maybe;
}

std::vector<OutcomeSet> outcomes_of_car(const Plan& plan, const Predictor& car) {
    std::vector<OutcomeSet> cells;
    for (const Check& check : plan.checks)
        cells.push_back(outcomes_of(check, predict_check(plan, car, check)));
    return cells;
}

Candidate as_candidate(const Fault& fault) {
    Candidate made;
    made.fault = fault;
    const PointRef& at = fault.at_point;
    if (at.wire != none)
        made.suspect.wire = at.wire;
    else if (at.metal == Metal::joint)
        made.suspect.joint = at.pin;
    else
        made.suspect.part = at.part;
    return made;
}

namespace {
// A short with no fuse before it: no plan is walked with such a car.
bool burns(const Plan& plan, const Predictor& car) {
    constexpr double too_much = 500; // A, from a battery at rest
    const Setting& setting = car.rig(plan.complaint_with).setting();
    Stand stand = setting.from;
    setting.bench->settle(usual_values(*setting.network), stand);
    for (std::size_t i = 0; i < setting.network->branches.size(); ++i)
        if (setting.network->branches[i].law == Law::source && std::abs(setting.bench->amps(static_cast<int>(i))) > too_much) return true;
    return false;
}
} // namespace

Matrix fault_matrix(const Plan& plan, const Predictor& sound, const Prediction& of_sound) {
    Matrix matrix;
    std::vector<CheckFlows> flows;
    for (std::size_t i = 0; i < plan.checks.size(); ++i) {
        matrix.sound.push_back(outcomes_of(plan.checks[i], of_sound[i]));
        flows.push_back(flows_of(plan, sound, plan.checks[i]));
    }
    const std::optional<ComplaintVolts> volts = complaint_volts(plan, sound.parameters().system_volts);
    const std::vector<Setup> uses = normal_use(plan);
    const Flows complaint_flows(sound, plan.complaint_with, MeasureKind::look, nullptr);
    for (Candidate& candidate : all_faults(plan.circuit)) {
        const bool formal = !plan.complaint_states.empty();
        if (formal && !complaint_flows.may_change(candidate.fault)) { // a sound car does not complain
            matrix.harmless.push_back(std::move(candidate));
            continue;
        }
        const Predictor car(sound, candidate.fault, can_blow(candidate.fault.kind) ? uses : std::vector<Setup>());
        if (candidate.fault.kind == FaultKind::to_ground && car.blown_before().empty() && burns(plan, car)) continue;
        std::optional<Together> together;
        Truth harm = complains(plan, sound, car);
        if (harm != Truth::no && volts) {
            together.emplace(plan, car, *volts);
            const Truth by_volts = together->complains();
            if (by_volts == Truth::no || harm == Truth::yes) harm = by_volts;
        }
        if (harm == Truth::no) {
            matrix.harmless.push_back(std::move(candidate));
            continue;
        }
        std::vector<OutcomeSet>& cells = matrix.cells.emplace_back();
        for (std::size_t i = 0; i < plan.checks.size(); ++i)
        {
            const Check& check = plan.checks[i];
            if (!flows[i].may_change(candidate.fault) && car.blown_before().empty()) {
                cells.push_back(matrix.sound[i]);
                continue;
            }
            const CheckPrediction made = predict_check(plan, car, check);
            const Possible possible = [&](std::size_t row, Answer answer) {
                return together->possible(check, made.rows.empty() ? nullptr : &made.rows[row], row, answer);
            };
            cells.push_back(outcomes_of(check, made, together && harm == Truth::maybe ? possible : Possible()));
        }
        matrix.harm.push_back(harm);
        matrix.faults.push_back(std::move(candidate));
    }
    return matrix;
}

} // namespace loomsheet
