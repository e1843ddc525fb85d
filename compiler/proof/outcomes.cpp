// LS306 to LS311, LS313 and LS314: limits, outcomes and answers of single checks, and the proof of repairs.
#include "proof/families.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <limits>

namespace loomsheet {
namespace {

bool takes_a_number(MeasureKind measure) { return row_of(measure).gives == Gives::number; }

std::string_view outcome_word(OutcomeKind kind) {
    constexpr std::string_view words[] = {"pass", "fail", "low", "high", "open", "no current", "a band", "an answer"};
    return words[static_cast<std::size_t>(kind)];
}

// --- LS306 ---------------------------------------------------------------------------------------------------------
struct Band {
    double low = -std::numeric_limits<double>::infinity(), high = std::numeric_limits<double>::infinity();
    const Unit* unit = nullptr;
    std::string words; // as it is written
    Span at;
};

std::optional<Band> band_of(const Limit& limit) {
    Band band;
    const MaybeQuantity& any = limit.low ? limit.low : limit.high;
    if (!any || limit.kind == LimitKind::within) return std::nullopt;
    band.unit = any->unit;
    band.at = limit.at;
    if (limit.low) band.low = limit.low->si;
    if (limit.high) band.high = limit.high->si;
    if (limit.kind == LimitKind::below)
        band.words = "below " + limit.high->written;
    else if (limit.kind == LimitKind::above)
        band.words = "above " + limit.low->written;
    else if (limit.low && limit.high)
        band.words = limit.low->written + " .. " + limit.high->written;
    else
        return std::nullopt;
    if (band.low > band.high) return std::nullopt; // LS207
    return band;
}

std::string amount(double si, const Unit* unit) {
    if (unit == nullptr) return number_words(si);
    return fmt::format("{} {}", number_words(si / unit->factor), unit->printed);
}

constexpr double slack = 1e-9; // 300 mV touches 0.3 V

void prove_they_touch(const Check& check, std::vector<Band> bands, const std::optional<Band>& pass, Findings& findings) {
    std::stable_sort(bands.begin(), bands.end(), [](const Band& a, const Band& b) { return a.low < b.low; });
    for (std::size_t i = 1; i < bands.size(); ++i) {
        const Band &under = bands[i - 1], &over = bands[i];
        const Band& later = under.at.begin < over.at.begin ? over : under;
        const Band& earlier = &later == &over ? under : over;
        // `fail`, and `low` or `high` on their side of the pass, take what no band takes.
        const bool above = pass && over.low > pass->low;
        const bool rest_is_named = has_outcome(check, OutcomeKind::fail) || ((!pass || above) && has_outcome(check, OutcomeKind::high)) ||
                                   ((!pass || !above) && has_outcome(check, OutcomeKind::low));
        if (over.low < under.high - slack) {
            const double high = std::min(under.high, over.high);
            const std::string where = high == std::numeric_limits<double>::infinity()
                                          ? "above " + amount(over.low, over.unit)
                                          : fmt::format("between {} and {}", amount(over.low, over.unit), amount(high, over.unit));
            findings.add({finding::bands_overlap_or_gap,
                          later.at,
                          fmt::format("`{}` overlaps `{}`: a reading {} has two ways to go", later.words, earlier.words, where),
                          "let one band end where the next begins",
                          {{earlier.at, "this one"}}});
        } else if (over.low > under.high + slack && !rest_is_named) {
            findings.add({finding::bands_overlap_or_gap,
                          later.at,
                          fmt::format("between `{}` and `{}` there is a gap: a reading between {} and {} has no way to go", under.words,
                                      over.words, amount(under.high, under.unit), amount(over.low, over.unit)),
                          "let the bands touch, or write `fail -> ` for what is left",
                          {{earlier.at, "this one"}}});
        }
    }
}

void prove_bands(const Check& check, Findings& findings) {
    std::vector<Band> bands;
    for (const Outcome& outcome : check.outcomes) {
        if (outcome.kind != OutcomeKind::band || !outcome.band) continue;
        if (auto band = band_of(*outcome.band)) band->at = outcome.at, bands.push_back(*band);
    }
    if (bands.empty()) return;
    const std::optional<Band> pass = check.limits.size() == 1 ? band_of(check.limits.front()) : std::nullopt; // else rows differ
    if (pass) bands.push_back(*pass);
    prove_they_touch(check, std::move(bands), pass, findings);
}

// --- LS307 ---------------------------------------------------------------------------------------------------------
std::vector<std::string> row_names(const Plan& plan, const Check& check) {
    std::vector<std::string> names;
    for (const Row& row : check.rows)
        if (!row.name.empty()) names.push_back(row.name);
    for (const SetupItem& item : check.with.items)
        for (const PartId part : item.parts)
            names.push_back(plan.circuit.parts[part].id);
    return names;
}

void prove_row(const Plan& plan, const Check& check, const std::string& row, Span at, Findings& findings) {
    if (row.empty()) return;
    const std::vector<std::string> names = row_names(plan, check);
    if (std::find(names.begin(), names.end(), row) != names.end()) return;
    findings.add(finding::impossible_outcome, at, fmt::format("'{}' has no row \"{}\"", check.label, row),
                 names.empty() ? "it has one reading only: leave the name away"
                               : fmt::format("its rows are {}", list_words(names, "and", 8)));
}

void prove_limit_suits(const Check& check, const Limit& limit, Findings& findings) {
    const std::string_view measure = measure_word(check.measure);
    switch (limit.kind) {
    case LimitKind::yes:
    case LimitKind::no:
        if (row_of(check.measure).gives != Gives::yes_or_no)
            findings.add(finding::impossible_outcome, limit.at, fmt::format("`{}` gives no yes or no", measure),
                         takes_a_number(check.measure) ? "write the limits as numbers, such as `expect below 0.3 V`"
                                                       : "a look needs no `expect`: write where a `pass`, a `fail` or an answer leads");
        return;
    case LimitKind::open:
        if (!is_ohms(check.measure))
            findings.add(finding::impossible_outcome, limit.at,
                         fmt::format("`{}` never reads open; only `ohms` and `continuity` do", measure),
                         "write what the meter shows, as a number with its unit");
        return;
    case LimitKind::range:
    case LimitKind::below:
    case LimitKind::above:
    case LimitKind::within: return; // a number for a measure that has none is a unit that does not fit (LS206)
    }
}

void prove_outcome_suits(const Check& check, const Outcome& outcome, Findings& findings) {
    const std::string_view measure = measure_word(check.measure);
    const auto all_limits = [&](LimitKind kind) {
        return !check.limits.empty() &&
               std::all_of(check.limits.begin(), check.limits.end(), [&](const Limit& limit) { return limit.kind == kind; });
    };
    std::string says, help = "write `fail` for every bad result";
    switch (outcome.kind) {
    case OutcomeKind::low:
    case OutcomeKind::high: {
        const bool low = outcome.kind == OutcomeKind::low;
        if (!takes_a_number(check.measure))
            says = fmt::format("`{}` is an outcome of a reading; `{}` gives none", outcome_word(outcome.kind), measure);
        else if (all_limits(low ? LimitKind::below : LimitKind::above))
            says = fmt::format("nothing can read too {} here: the limit has no {} end", low ? "low" : "high", low ? "lower" : "upper");
        break;
    }
    case OutcomeKind::open:
        if (!is_ohms(check.measure))
            says = fmt::format("`{}` never reads open; only `ohms` and `continuity` do", measure);
        else if (all_limits(LimitKind::open))
            says = "open is what is expected here: that is the `pass`";
        break;
    case OutcomeKind::no_current:
        if (check.measure != MeasureKind::drop)
            says = fmt::format("`no current` belongs to a `drop`, where nothing flowing reads 0 V; this is `{}`", measure);
        break;
    case OutcomeKind::answer:
        if (check.measure != MeasureKind::look) {
            says = fmt::format("only a `look` has answers; this is `{}`", measure);
            help = takes_a_number(check.measure) ? "write `pass`, `fail`, `low`, `high` or a band such as `0.3 .. 3 V -> `"
                                                 : "write `pass` or `fail`";
        }
        break;
    case OutcomeKind::pass:
    case OutcomeKind::fail:
    case OutcomeKind::band: break;
    }
    if (!says.empty()) findings.add(finding::impossible_outcome, outcome.at, std::move(says), std::move(help));
}

void prove_suited(const Plan& plan, const Check& check, Findings& findings) {
    if (check.measure == MeasureKind::nothing) return;
    for (const Limit& limit : check.limits) {
        prove_row(plan, check, limit.row, limit.at, findings);
        prove_limit_suits(check, limit, findings);
    }
    for (const Outcome& outcome : check.outcomes) {
        prove_row(plan, check, outcome.row, outcome.at, findings);
        prove_outcome_suits(check, outcome, findings);
    }
}

// --- LS308 ---------------------------------------------------------------------------------------------------------
void prove_limited(const Check& check, Findings& findings) {
    if (row_of(check.measure).computed) return;
    const auto limited = [&](const std::string& row) {
        return std::any_of(check.limits.begin(), check.limits.end(),
                           [&](const Limit& limit) { return limit.row.empty() || limit.row == row; });
    };
    const std::string why = fmt::format("no circuit gives a limit for `{}`", measure_word(check.measure));
    const bool read = check.measure == MeasureKind::read;
    const std::string help = read ? "write it, such as `expect 2.8 .. 3.2 bar`" : "write it, such as `expect above 0.3 V`";
    if (check.rows.size() < 2) {
        if (!limited("")) findings.add(finding::check_without_limit, check.measure_at, why + ": it must be written", help);
        return;
    }
    for (const Row& row : check.rows)
        if (!limited(row.name))
            findings.add(finding::check_without_limit, row.at, fmt::format("{}: it must be written for \"{}\" too", why, row.name), help);
}

// --- LS309 ---------------------------------------------------------------------------------------------------------
const Unit* unit_of(const Check& check) {
    for (const Limit& limit : check.limits) {
        if (limit.high && limit.high->unit) return limit.high->unit;
        if (limit.low && limit.low->unit) return limit.low->unit;
    }
    return nullptr;
}

// Of a gauge it is that of its limits.
std::optional<Dimension> dimension_of(const Check& check) {
    if (check.measure != MeasureKind::read) return dimension_of(check.measure);
    return unit_of(check) ? std::optional(unit_of(check)->dimension) : std::nullopt;
}

std::string way_past(const PlanMap& map, const std::vector<int>& by, StopId stop) {
    std::vector<std::string> names{map.quoted(stop)};
    while (by[stop] >= 0) {
        stop = map.arrows()[by[stop]].from;
        names.push_back(map.quoted(stop));
    }
    std::reverse(names.begin(), names.end());
    if (names.size() > 6) names.erase(names.begin() + 2, names.end() - 3), names.insert(names.begin() + 2, "...");
    return fmt::format("{}", fmt::join(names, " -> "));
}

void prove_reference(const Plan& plan, const PlanMap& map, int index, const Limit& limit, Findings& findings) {
    const Check& check = plan.checks[index];
    const Check& reference = plan.checks[limit.reference];
    if (limit.reference == index) {
        findings.add(finding::reading_not_yet_taken, limit.at, fmt::format("'{}' is held against its own reading", check.label),
                     "name an earlier check");
        return;
    }
    if (reference.measure == MeasureKind::nothing) return; // LS114
    if (dimension_of(reference) != dimension_of(check) || !dimension_of(reference)) {
        const std::string gives =
            dimension_of(reference) ? fmt::format("gives {}", row_of(*dimension_of(reference)).word) : "gives no number";
        findings.add({finding::reading_not_yet_taken,
                      limit.at,
                      fmt::format("'{}' {}, which '{}' cannot be held against", reference.label, gives, check.label),
                      "name a check that measures the same",
                      {{reference.at, "this check"}}});
        return;
    }
    if (check.exercise) return; // it stands on no path
    const std::vector<int> by = map.reach({0}, limit.reference);
    if (by[index] == PlanMap::never) return;
    findings.add(
        {finding::reading_not_yet_taken,
         limit.at,
         fmt::format("not every way to '{}' has taken the reading of '{}': {}", check.label, reference.label, way_past(map, by, index)),
         fmt::format("take '{}' before the ways part, or write the limits as numbers", reference.label),
         {{reference.at, "the reading it needs"}}});
}

// --- LS310 ---------------------------------------------------------------------------------------------------------
void prove_look_proves(const Check& check, Findings& findings) {
    if (check.measure != MeasureKind::look) return;
    const auto has_states = [](const Outcome& each) { return each.kind == OutcomeKind::answer && !each.states.empty(); };
    if (check.look_states.empty() && std::none_of(check.outcomes.begin(), check.outcomes.end(), has_states)) {
        findings.add(finding::look_proves_nothing, check.measure_at,
                     fmt::format("'{}' does not say what a yes means for the circuit: it proves nothing", check.label),
                     "write the state after a colon, such as `look \"The fan runs\": M3 runs`");
        return;
    }
    for (const Outcome& outcome : check.outcomes)
        if (outcome.kind == OutcomeKind::answer && outcome.states.empty())
            findings.add(finding::look_proves_nothing, outcome.at,
                         fmt::format("the answer \"{}\" does not say what it means for the circuit: it proves nothing", outcome.answer),
                         "write the state after a colon, such as `\"runs, but slowly\": M3 slow -> `");
}

// --- LS311 ---------------------------------------------------------------------------------------------------------
void prove_decides(const PlanMap& map, int index, const Check& check, Findings& findings) {
    if (check.outcomes.size() < 2 || fail_is_left(check)) return;
    const Target& first = check.outcomes.front().target;
    const bool same = std::all_of(check.outcomes.begin(), check.outcomes.end(), [&](const Outcome& each) {
        return each.target.index == first.index && (each.target.kind == TargetKind::verdict) == (first.kind == TargetKind::verdict);
    });
    if (!same || first.index == none) return;
    const StopId to = map.arrows()[map.from(index).front()].to;
    findings.add(finding::check_decides_nothing, check.at,
                 fmt::format("every outcome of '{}' leads to {}: this check decides nothing", check.label, map.quoted(to)),
                 "leave it out, let its outcomes part, or write `allow LS311` with the reason");
}

// --- LS313 ---------------------------------------------------------------------------------------------------------
void prove_repaired(const Verdict& verdict, Findings& findings) {
    const bool blames = !verdict.blames.empty() || !verdict.blamed_runs.empty();
    if (!blames || !verdict.after.empty() || verdict.then.kind != TargetKind::nowhere || !verdict.then_plan.empty()) return;
    findings.add(finding::repair_never_proved, verdict.at, fmt::format("nothing proves the repair that '{}' asks for", verdict.label),
                 "write `after` and the check that proves it, or `-> ` and the check to go on with");
}

// --- LS314 ---------------------------------------------------------------------------------------------------------
void prove_said_once(const Check& check, Findings& findings) {
    for (std::size_t i = 0; i < check.outcomes.size(); ++i) {
        const Outcome& later = check.outcomes[i];
        if (later.kind == OutcomeKind::band) continue; // LS306
        for (std::size_t j = 0; j < i; ++j) {
            const Outcome& earlier = check.outcomes[j];
            if (earlier.kind != later.kind || earlier.row != later.row || earlier.answer != later.answer) continue;
            const std::string what =
                later.kind == OutcomeKind::answer ? fmt::format("\"{}\"", later.answer) : fmt::format("`{}`", outcome_word(later.kind));
            findings.add({finding::outcome_given_twice,
                          later.at,
                          fmt::format("where {} leads is said twice", what),
                          "keep one of the two",
                          {{earlier.at, "first said here"}}});
            break;
        }
    }
}

} // namespace

void prove_outcomes(const Plan& plan, const PlanMap& map, const Doubt& doubt, Findings& findings) {
    for (int index = 0; index < static_cast<int>(plan.checks.size()); ++index) {
        const Check& check = plan.checks[index];
        if (doubt.tangled[index]) continue;
        prove_bands(check, findings);
        prove_suited(plan, check, findings);
        if (!doubt.checks[index]) prove_limited(check, findings);
        for (const Limit& limit : check.limits)
            if (limit.kind == LimitKind::within && limit.reference != none) prove_reference(plan, map, index, limit, findings);
        prove_look_proves(check, findings);
        prove_decides(map, index, check, findings);
        prove_said_once(check, findings);
    }
    for (std::size_t i = 0; i < plan.verdicts.size(); ++i)
        if (!doubt.verdicts[i]) prove_repaired(plan.verdicts[i], findings);
}

} // namespace loomsheet
