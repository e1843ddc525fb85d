#include "faults/prediction.hpp"
#include "circuit/rig.hpp"
#include "model/change.hpp"
#include <algorithm>
#include <array>
#include <limits>

namespace loomsheet {
namespace {

Fit fit_of_range(double low, double high, double from, double to) {
    if (low >= from && high <= to) return Fit::passes;
    return high < from || low > to ? Fit::fails : Fit::may_miss;
}

Fit fit_of_truth(ReadingKind kind, ReadingKind wanted) {
    if (kind == ReadingKind::unsure) return Fit::may_miss;
    return kind == wanted ? Fit::passes : Fit::fails;
}

Fit either(Fit a, Fit b) { return a == b ? a : Fit::may_miss; }

const Row* row_named(const Check& check, const std::string& name) {
    for (const Row& row : check.rows)
        if (row.name == name) return &row;
    return check.rows.empty() ? nullptr : &check.rows.front();
}

RowPrediction predict_row(const Plan& plan, const Predictor& car, const Check& check, const Row& row, bool for_outcome) {
    RowPrediction made;
    if (const Limit* limit = limit_of(check, row.name)) made.limit = *limit;
    const bool by_difference = made.limit && !made.limit->not_computed && made.limit->kind == LimitKind::within &&
                               made.limit->reference != none && !plan.checks[made.limit->reference].rows.empty();
    made.reading = for_outcome && by_difference ? car.rest(check.with, check.measure, row) : car.read(check.with, check.measure, row);
    if (!made.limit || made.limit->not_computed) return made;
    if (made.limit->kind != LimitKind::within) {
        made.fit = fit_of(made.reading, *made.limit);
        return made;
    }
    if (made.limit->reference == none) return made;
    const Check& before = plan.checks[made.limit->reference];
    if (const Row* row_before = row_named(before, row.name)) {
        made.difference = car.difference(check.with, check.measure, row, before.with, before.measure, *row_before);
        made.fit = fit_of(*made.difference, *made.limit);
    }
    return made;
}

// The states that a part may be in: always one of a family.
constexpr std::array<std::array<StateVerb, 3>, 3> families = {{
    {StateVerb::still, StateVerb::slow, StateVerb::runs},
    {StateVerb::dark, StateVerb::dim, StateVerb::lit},
    {StateVerb::still, StateVerb::works, StateVerb::works},
}};

// Whether the part is in a state of its family that no outcome names; unknown where the outcomes name several parts. Of `K2 works and M2
// still` the half that is sure says nothing.
Truth other_state(const Predictor& car, const Setup& setup, const Check& check) {
    std::vector<State> named;
    const auto name = [&](const States& states) {
        if (states.list.size() == 1) return named.push_back(states.list.front());
        for (const State& state : states.list)
            if (states.any || car.looks(setup, state) != Truth::yes) named.push_back(state);
    };
    name(check.look_states);
    for (const Outcome& outcome : check.outcomes) {
        const std::vector<State>& list = outcome.states.list;
        if (list.empty() || list.front().verb == StateVerb::chatters) continue; // that is no rest
        const bool and_no = list.size() > 1 && !outcome.states.any && hold(car, setup, outcome.states) == Truth::no;
        const std::size_t before = named.size();
        if (!and_no) name(outcome.states);
        if (list.size() > 1 && !and_no && (outcome.states.any || named.size() != before + 1)) return Truth::unknown;
    }
    if (named.empty()) return Truth::unknown;
    std::vector<StateVerb> verbs;
    for (const State& state : named) {
        if (state.of.part != named.front().of.part) return Truth::unknown;
        verbs.push_back(state.verb);
    }
    for (const auto& family : families) {
        const auto has = [](const auto& list, StateVerb verb) { return std::find(list.begin(), list.end(), verb) != list.end(); };
        if (!std::all_of(verbs.begin(), verbs.end(), [&](StateVerb verb) { return has(family, verb); })) continue;
        Truth any = Truth::no;
        for (const StateVerb verb : family) {
            if (has(verbs, verb)) continue;
            State state = named.front();
            state.verb = verb;
            const Truth truth = car.looks(setup, state);
            if (truth != Truth::no) any = truth;
        }
        return any;
    }
    return Truth::unknown;
}

bool is_use(const SetupItem& item) {
    switch (item.kind) {
    case ItemKind::key:
    case ItemKind::asleep:
    case ItemKind::engine_running:
    case ItemKind::engine_speed:
    case ItemKind::position:
    case ItemKind::pressed:
    case ItemKind::output_on:
    case ItemKind::moved: return true;
    default: return false;
    }
}
bool same_use(const SetupItem& a, const SetupItem& b) {
    return a.kind == b.kind && a.word == b.word && a.word2 == b.word2 && a.part == b.part && a.pin == b.pin && a.value.has_value() == b.value.has_value() &&
           (!a.value || a.value->si == b.value->si);
}

} // namespace

Fit fit_of(const Reading& reading, const Limit& limit) {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    switch (reading.kind) {
    case ReadingKind::beyond: return Fit::unknown;
    case ReadingKind::chatters:
    case ReadingKind::history: return Fit::may_miss;
    default: break;
    }
    switch (limit.kind) {
    case LimitKind::yes: return fit_of_truth(reading.kind, ReadingKind::yes);
    case LimitKind::no: return fit_of_truth(reading.kind, ReadingKind::no);
    case LimitKind::open: return reading.kind == ReadingKind::number && reading.may_be_open ? Fit::may_miss : fit_of_truth(reading.kind, ReadingKind::open);
    default: break;
    }
    const Fit of_open = limit.high ? Fit::fails : Fit::passes;
    if (reading.kind == ReadingKind::open) return of_open;
    if (reading.kind == ReadingKind::unsure) return Fit::may_miss;
    if (limit.kind == LimitKind::within) return fit_of_range(reading.low, reading.high, -limit.high->si, limit.high->si);
    const double from = limit.low ? limit.low->si : -infinity; // a sign is looked at elsewhere
    const Fit fit = fit_of_range(reading.low, reading.high, from, limit.high ? limit.high->si : infinity);
    return reading.may_be_open ? either(fit, of_open) : fit;
}

Truth hold(const Predictor& car, const Setup& setup, const States& states) { return car.looks(setup, states); }

namespace {
CheckPrediction predicted(const Plan& plan, const Predictor& car, const Check& check, bool for_outcome) {
    CheckPrediction made;
    for (const Row& row : check.rows)
        made.rows.push_back(predict_row(plan, car, check, row, for_outcome));
    if (check.measure != MeasureKind::look) return made;
    const Setup setup = setup_of(check);
    made.look = hold(car, setup, check.look_states);
    for (const Outcome& outcome : check.outcomes)
        made.answers.push_back(hold(car, setup, outcome.states));
    made.other = other_state(car, setup, check);
    made.may_chatter = car.rig(setup).stands().may_chatter;
    return made;
}
} // namespace

CheckPrediction predict_check(const Plan& plan, const Predictor& car, const Check& check) { return predicted(plan, car, check, false); }
CheckPrediction predict_for_outcome(const Plan& plan, const Predictor& car, const Check& check) { return predicted(plan, car, check, true); }

Prediction predict(const Plan& plan, const Predictor& car) {
    Prediction made;
    for (const Check& check : plan.checks)
        made.push_back(predict_check(plan, car, check));
    return made;
}

std::vector<Setup> normal_use(const Plan& plan) {
    std::vector<Setup> uses(1);
    const auto add = [&](const Setup& from) {
        Setup use;
        for (const SetupItem& item : from.items)
            if (is_use(item)) use.items.push_back(item);
        const auto is_it = [&](const Setup& other) { return std::equal(use.items.begin(), use.items.end(), other.items.begin(), other.items.end(), same_use); };
        if (std::none_of(uses.begin(), uses.end(), is_it)) uses.push_back(std::move(use));
    };
    for (const std::string_view key : {"acc", "on", "crank"}) {
        SetupItem item;
        item.kind = ItemKind::key, item.word = key;
        add({{item}, {}});
    }
    add(plan.complaint_with);
    for (const Check& check : plan.checks)
        add(check.with);
    return uses;
}

} // namespace loomsheet
