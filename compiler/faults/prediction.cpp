#include "faults/prediction.hpp"
#include "circuit/rig.hpp"
#include "model/change.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

const Row* row_named(const Check& check, const std::string& name) {
    for (const Row& row : check.rows)
        if (row.name == name) return &row;
    return check.rows.empty() ? nullptr : &check.rows.front();
}

RowPrediction predict_row(const Plan& plan, const Predictor& car, const Check& check, const Setup& with, const Row& row,
                          const std::string& name, bool for_outcome) {
    RowPrediction made;
    made.name = name;
    if (const Limit* limit = limit_of(check, name)) made.limit = *limit;
    const Check* before = nullptr; // whose reading this one is held against
    if (made.limit && !made.limit->not_computed && made.limit->kind == LimitKind::within && made.limit->reference != none)
        before = &plan.checks[made.limit->reference];
    const Row* row_before = before ? row_named(*before, row.name) : nullptr;
    made.reading = for_outcome && row_before ? car.rest(with, check.measure, row) : car.read(with, check.measure, row);
    if (row_before) made.difference = car.difference(with, check.measure, row, before->with, before->measure, *row_before);
    if (before && !row_before) return made; // nothing to be held against
    made.fit = fit_of(check, made);
    return made;
}

// Together the rows of all turns.
RowPrediction united(const Check& check, RowPrediction all, const RowPrediction& more) {
    std::optional<Reading> reading = std::move(all.reading);
    unite(reading, more.reading);
    all.reading = std::move(*reading);
    if (more.difference) unite(all.difference, *more.difference);
    all.fit = fit_of(check, all);
    return all;
}

PartId pulled_one(const Check& check, const Setup& turn) {
    for (std::size_t i = 0; i < check.with.items.size(); ++i)
        if (check.with.items[i].kind == ItemKind::one_of_pulled) return turn.items[i].part;
    return none;
}

OutcomeSet outcomes_seen(const Check& check, const Sights& sights) {
    OutcomeSet set = sights.computed ? 0 : every_outcome(check);
    for (const std::uint64_t seen : sights.seen)
        set |= outcomes_of(check, {seen, sights.unknown});
    return set;
}

bool same_use(const SetupItem& a, const SetupItem& b) {
    return a.kind == b.kind && a.word == b.word && a.word2 == b.word2 && a.part == b.part && a.pin == b.pin &&
           a.value.has_value() == b.value.has_value() && (!a.value || a.value->si == b.value->si);
}

} // namespace

std::vector<ReadCase> fits_of(const Check& check, const RowPrediction& row) {
    const Reading& reading = row.compared();
    std::vector<ReadCase> fits;
    const auto touches = [&](const ReadCase& each) {
        const bool unsure = reading.kind == ReadingKind::unsure;
        switch (each.shown) {
        case ReadCase::Shown::number: return reading.is_number() && each.holds(reading.low, reading.high);
        case ReadCase::Shown::open: return reading.kind == ReadingKind::open || reading.may_be_open;
        case ReadCase::Shown::yes: return unsure || reading.kind == ReadingKind::yes;
        case ReadCase::Shown::no: return unsure || reading.kind == ReadingKind::no;
        }
        return false;
    };
    if (reading.kind == ReadingKind::chatters) return fits;
    const bool known = row.limit && !row.limit->not_computed && reading.kind != ReadingKind::beyond && reading.kind != ReadingKind::history;
    for (const ReadCase& each : cases_of(check, row.name))
        if (!known || touches(each)) fits.push_back(each);
    return fits;
}

namespace {
Fit fit_of(bool some_pass, bool some_miss) {
    return some_pass && some_miss ? Fit::may_miss : some_pass ? Fit::passes : some_miss ? Fit::fails : Fit::unknown;
}
} // namespace

Fit fit_of(const Check& check, const RowPrediction& row) {
    const Reading& reading = row.compared();
    if (!row.limit || row.limit->not_computed || reading.kind == ReadingKind::beyond) return Fit::unknown;
    if (reading.kind == ReadingKind::chatters || reading.kind == ReadingKind::history) return Fit::may_miss;
    const std::vector<ReadCase> fits = fits_of(check, row);
    const auto passes = [](const ReadCase& each) { return each.answer == Answer::pass; };
    return fit_of(std::any_of(fits.begin(), fits.end(), passes), !std::all_of(fits.begin(), fits.end(), passes));
}

Fit fit_of(const Reading& reading, const Limit& limit, MeasureKind measure) {
    Check alone;
    alone.measure = measure;
    alone.limits = {limit}, alone.limits.front().row.clear();
    RowPrediction row;
    row.reading = reading, row.limit = limit;
    return fit_of(alone, row);
}

Truth hold(const Predictor& car, const Setup& setup, const States& states) { return car.looks(setup, states); }

namespace {
CheckPrediction predicted(const Plan& plan, const Predictor& car, const Check& check, bool for_outcome) {
    CheckPrediction made;
    if (check.measure == MeasureKind::look) {
        const Sights sights = car.see(setup_of(check), states_of(check));
        if (sights.may_jump) made.rattles = outcome_of_rattling(check);
        made.seen = outcomes_seen(check, sights) | made.rattles;
        made.look = hold(car, setup_of(check), check.look_states);
        return made;
    }
    const std::vector<Setup> turns = one_by_one(check.with);
    for (const Setup& turn : turns) {
        TurnPrediction one;
        one.pulled = pulled_one(check, turn);
        for (const Row& row : check.rows)
            one.rows.push_back(
                predict_row(plan, car, check, turn, row, one.pulled == none ? row.name : plan.circuit.parts[one.pulled].id, for_outcome));
        made.turns.push_back(std::move(one));
    }
    made.rows = made.turns.front().rows;
    for (std::size_t t = 1; t < turns.size(); ++t)
        for (std::size_t r = 0; r < made.rows.size(); ++r)
            made.rows[r] = united(check, std::move(made.rows[r]), made.turns[t].rows[r]);
    return made;
}
} // namespace

CheckPrediction predict_check(const Plan& plan, const Predictor& car, const Check& check) { return predicted(plan, car, check, false); }
CheckPrediction predict_for_outcome(const Plan& plan, const Predictor& car, const Check& check) {
    return predicted(plan, car, check, true);
}

Prediction predict(const Plan& plan, const Predictor& car, const Stop& stop) {
    Prediction made;
    for (const Check& check : plan.checks) {
        give_way(stop);
        made.push_back(predict_check(plan, car, check));
    }
    return made;
}

std::vector<Setup> normal_use(const Plan& plan) {
    std::vector<Setup> uses(1);
    const auto add = [&](const Setup& from) {
        Setup use;
        for (const SetupItem& item : from.items)
            if (row_of(item.kind).is_use) use.items.push_back(item);
        const auto is_it = [&](const Setup& other) {
            return std::equal(use.items.begin(), use.items.end(), other.items.begin(), other.items.end(), same_use);
        };
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
