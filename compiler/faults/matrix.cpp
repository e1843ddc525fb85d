#include "faults/matrix.hpp"
#include "faults/effects.hpp"
#include "faults/together.hpp"
#include "model/change.hpp"
#include <algorithm>
#include <cmath>
#include <map>

namespace loomsheet {
namespace {

void see(std::vector<PartId>& seen, const States& states) {
    for (const State& state : states.list)
        seen.push_back(state.of.part);
}

// What the outcome of a check hangs on: its settings with what faults do to them, and the parts that are looked at, in the
// hand too.
struct CheckEffects {
    std::vector<Asked> settings;
    std::vector<const Effects::List*> effects;
    std::vector<PartId> seen;

    CheckEffects(const Plan& plan, Effects& of_faults, const Check& check) {
        if (check.measure == MeasureKind::look) ask(of_faults, {setup_of(check), MeasureKind::look, {}, 0});
        see(seen, check.look_states);
        for (const Outcome& outcome : check.outcomes)
            see(seen, outcome.states);
        const auto measured = [&](const Check& of, const Row& row) {
            for (Asked& each : settings_of(of.with, of.measure, row))
                ask(of_faults, std::move(each));
        };
        for (const Row& row : check.rows) {
            measured(check, row);
            const Limit* limit = limit_of(check, row.name);
            if (!limit || limit->kind != LimitKind::within || limit->reference == none) continue;
            for (const Row& each : plan.checks[limit->reference].rows)
                measured(plan.checks[limit->reference], each);
        }
    }

private:
    void ask(Effects& of_faults, Asked asked) {
        const Effects::List* list = &of_faults.of(asked);
        if (std::find(effects.begin(), effects.end(), list) != effects.end()) return;
        effects.push_back(list), settings.push_back(std::move(asked));
    }
};

bool has(const std::vector<PartId>& parts, PartId part) {
    return part != none && std::find(parts.begin(), parts.end(), part) != parts.end();
}

// What works in normal use.
struct Use {
    const Setup* setup;
    State works;
};
std::vector<Use> working(const Plan& plan, const Predictor& sound, const std::vector<Setup>& uses) {
    std::vector<Use> list;
    for (const Setup& use : uses)
        for (PartId id = 0; id < static_cast<PartId>(plan.circuit.parts.size()); ++id) {
            if (!is_load(plan.circuit.parts[id].kind)) continue;
            State works;
            works.of.part = id, works.of.metal = Metal::whole;
            if (sound.looks(use, works) == Truth::yes) list.push_back({&use, works});
        }
    return list;
}

Truth complains_of(const Plan& plan, const std::vector<Use>& before, const Predictor& car) {
    if (!plan.complaint_states.empty()) {
        const Truth truth = hold(car, plan.complaint_with, plan.complaint_states);
        const bool rattles = truth == Truth::no && car.rig(plan.complaint_with).stands().may_chatter;
        return rattles ? Truth::jumps : truth; // and then it has the complaint for part of the time
    }
    if (plan.complaint_points && plan.complaint_limit) {
        const Reading reading = car.read(plan.complaint_with, plan.complaint_measure, *plan.complaint_points);
        switch (fit_of(reading, *plan.complaint_limit, plan.complaint_measure)) {
        case Fit::passes: return Truth::yes;
        case Fit::fails: return Truth::no;
        default: return Truth::maybe;
        }
    }
    const auto works = [&](const Use& use) { return car.looks(*use.setup, use.works) == Truth::yes; };
    return std::all_of(before.begin(), before.end(), works) ? Truth::no : Truth::maybe;
}

bool is_formal(const Plan& plan) { return !plan.complaint_states.empty() || (plan.complaint_points && plan.complaint_limit); }

} // namespace

Truth complains(const Plan& plan, const Predictor& sound, const Predictor& car) {
    const std::vector<Setup> uses = is_formal(plan) ? std::vector<Setup>() : normal_use(plan);
    return complains_of(plan, working(plan, sound, uses), car);
}

std::vector<OutcomeSet> outcomes_of_car(const Plan& plan, const Predictor& car) {
    std::vector<OutcomeSet> cells;
    for (const Check& check : plan.checks)
        cells.push_back(outcomes_of(check, predict_for_outcome(plan, car, check)));
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

namespace {

class Making {
public:
    Making(const Plan& plan, const Predictor& sound, const Prediction& of_sound)
        : plan_(plan), sound_(sound), faults_(all_faults(plan.circuit)), effects_(sound, faults_), uses_(normal_use(plan)),
          volts_(complaint_volts(plan, sound.parameters().system_volts)), known_(plan.checks.size()) {
        for (std::size_t i = 0; i < plan.checks.size(); ++i) {
            matrix_.sound.push_back(outcomes_of(plan.checks[i], of_sound[i]));
            on_checks_.emplace_back(plan, effects_, plan.checks[i]);
        }
        if (!plan.complaint_states.empty()) {
            on_complaint_.push_back(&effects_.of({plan.complaint_with, MeasureKind::look, {}, 0}));
            see(complained_of_, plan.complaint_states);
        } else if (is_formal(plan)) {
            for (const Asked& each : settings_of(plan.complaint_with, plan.complaint_measure, *plan.complaint_points))
                on_complaint_.push_back(&effects_.of(each));
        } else {
            working_ = working(plan, sound, uses_);
            for (const Use& each : working_) {
                complained_of_.push_back(each.works.of.part);
                const Effects::List* list = &effects_.of({*each.setup, MeasureKind::look, {}, 0});
                if (std::find(on_complaint_.begin(), on_complaint_.end(), list) == on_complaint_.end()) on_complaint_.push_back(list);
            }
        }
    }

    Matrix make(const Stop& stop) {
        for (std::size_t i = 0; i < faults_.size(); ++i) {
            give_way(stop);
            begin(i);
            const std::optional<Truth> harm = harm_of();
            if (!harm) continue;
            if (*harm == Truth::no) {
                matrix_.harmless.push_back(std::move(faults_[i]));
                continue;
            }
            std::vector<OutcomeSet>& cells = matrix_.cells.emplace_back();
            for (std::size_t check = 0; check < plan_.checks.size(); ++check)
                cells.push_back(cell(check, *harm));
            matrix_.harm.push_back(*harm);
            matrix_.faults.push_back(std::move(faults_[i]));
        }
        return std::move(matrix_);
    }

private:
    // --- the fault at hand; its car is made when it is asked for
    void begin(std::size_t index) { index_ = index, together_.reset(), car_.reset(); }
    const Fault& fault() const { return faults_[index_].fault; }
    const Predictor& car() {
        if (!car_) car_ = std::make_unique<Predictor>(sound_, fault(), uses_);
        return *car_;
    }
    Together& together() {
        if (!together_) together_.emplace(plan_, car(), *volts_);
        return *together_;
    }
    bool has_blown() { return can_blow(fault().kind) && !(car().blown_before().empty() && car().may_be_blown_before().empty()); }

    // None for what burns.
    std::optional<Truth> harm_of() {
        const bool own = has(complained_of_, fault().at_point.part);
        std::vector<int> key;
        for (const Effects::List* each : on_complaint_)
            key.push_back(own ? own_effect : (*each)[index_]);
        const bool blown = has_blown();
        const auto are_all = [&](int effect) { return std::all_of(key.begin(), key.end(), [&](int each) { return each == effect; }); };
        if (!blown && are_all(no_effect)) return Truth::no; // a sound car does not complain
        const bool alike = !can_blow(fault().kind) && std::find(key.begin(), key.end(), own_effect) == key.end();
        if (const auto known = alike ? harms_.find(key) : harms_.end(); known != harms_.end()) return known->second;
        if (fault().kind == FaultKind::to_ground && !blown && burns(plan_, car())) return std::nullopt;
        Truth harm = complains_of(plan_, working_, car());
        if (harm != Truth::no && volts_) {
            const Truth by_volts = together().complains();
            if (by_volts == Truth::no || harm == Truth::yes) harm = by_volts;
        }
        if (alike) harms_[std::move(key)] = harm;
        return harm;
    }

    OutcomeSet cell(std::size_t index, Truth harm) {
        const Check& check = plan_.checks[index];
        if (harm == Truth::jumps && &car().rig(setup_of(check)) == &car().rig(plan_.complaint_with)) return outcome_of_rattling(check);
        const CheckEffects& on = on_checks_[index];
        const bool own = has(on.seen, fault().at_point.part);
        const bool none_changed =
            std::all_of(on.effects.begin(), on.effects.end(), [&](const Effects::List* each) { return (*each)[index_] == no_effect; });
        if (!own && none_changed && !has_blown()) return matrix_.sound[index];
        const bool with_complaint = volts_ && harm == Truth::maybe;
        if (!own && !with_complaint && has_blown())
            if (const std::optional<OutcomeSet> known = after_blowing(index)) return *known;
        std::vector<int> key;
        for (const Effects::List* each : on.effects)
            key.push_back((*each)[index_]);
        for (const Effects::List* each : on_complaint_)
            key.push_back(with_complaint ? (*each)[index_] : no_effect);
        key.push_back(with_complaint);
        const bool alike = !own && !can_blow(fault().kind) && std::find(key.begin(), key.end() - 1, own_effect) == key.end() - 1;
        if (alike)
            if (const auto known = known_[index].find(key); known != known_[index].end()) return known->second;
        const CheckPrediction made = predict_for_outcome(plan_, car(), check);
        const Possible possible = [&](std::size_t row, Answer answer) {
            return together().possible(check, made.rows.empty() ? nullptr : &made.rows[row], row, answer);
        };
        const OutcomeSet set = outcomes_of(check, made, with_complaint ? possible : Possible());
        if (alike) known_[index][key] = set;
        return set;
    }

    // Of a short that has blown one fuse and then does nothing more: what the blown fuse alone does.
    std::optional<OutcomeSet> after_blowing(std::size_t index) {
        const FaultKind kind = fault().kind;
        if (row_of(kind).acts != Acts::lays) return std::nullopt;
        const std::vector<PartId>& fuses = car().blown_before();
        if (fuses.size() != 1 || !car().may_be_blown_before().empty()) return std::nullopt;
        Blown& blown = blown_[fuses.front()];
        if (!blown.car) {
            Fault fault;
            fault.kind = FaultKind::blown, fault.at_point.part = fuses.front(), fault.at_point.metal = Metal::whole;
            blown.car = std::make_unique<Predictor>(sound_, fault, std::vector<Setup>());
            blown.cells.resize(plan_.checks.size());
        }
        for (const Asked& each : on_checks_[index].settings)
            if (!lies_idle(*blown.car, fault(), each)) return std::nullopt;
        std::optional<OutcomeSet>& cell = blown.cells[index];
        if (!cell) cell = outcomes_of(plan_.checks[index], predict_for_outcome(plan_, *blown.car, plan_.checks[index]));
        return cell;
    }

    const Plan& plan_;
    const Predictor& sound_;
    Matrix matrix_;
    std::vector<Candidate> faults_;
    Effects effects_;
    std::vector<Setup> uses_;
    std::optional<ComplaintVolts> volts_;
    std::vector<CheckEffects> on_checks_;
    std::vector<const Effects::List*> on_complaint_; // of the set-ups in which it is complained
    std::vector<PartId> complained_of_;
    std::vector<Use> working_;
    std::map<std::vector<int>, Truth> harms_;                   // by effects on the complaint
    std::vector<std::map<std::vector<int>, OutcomeSet>> known_; // by check and effects
    struct Blown {
        std::unique_ptr<Predictor> car;
        std::vector<std::optional<OutcomeSet>> cells; // by check
    };
    std::map<PartId, Blown> blown_;
    std::size_t index_ = 0;
    std::unique_ptr<Predictor> car_;
    std::optional<Together> together_; // with that car
};

} // namespace

Matrix fault_matrix(const Plan& plan, const Predictor& sound, const Prediction& of_sound, const Stop& stop) {
    return Making(plan, sound, of_sound).make(stop);
}

} // namespace loomsheet
