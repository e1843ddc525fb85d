#include "sheet/words/limit.hpp"
#include "faults/outcome.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
bool has_own_limits(const Check& check) {
    return std::any_of(check.limits.begin(), check.limits.end(), [](const Limit& limit) { return !limit.row.empty(); });
}

namespace {

bool has(const Check& check, OutcomeKind kind) {
    return std::any_of(check.outcomes.begin(), check.outcomes.end(), [&](const Outcome& outcome) { return outcome.kind == kind; });
}

bool names_cases(const Check& check) { return has(check, OutcomeKind::band) || has(check, OutcomeKind::answer); }

std::string yes_words(const Wording& say, MeasureKind measure, bool yes) {
    if (measure == MeasureKind::testlamp) return say(yes ? Word::lights : Word::stays_dark);
    if (measure == MeasureKind::continuity) return say(yes ? Word::beeps : Word::silent);
    return say(yes ? Word::yes : Word::no);
}

std::string below_words(const Wording& say, const Limit& limit) {
    return limit.low ? say(Word::below, amount(say, *limit.low)) : say(Word::lower);
}
std::string above_words(const Wording& say, const Limit& limit) {
    return limit.high ? say(Word::above, amount(say, *limit.high)) : say(Word::higher);
}

// What lies outside the limit, when neither side of it has an outcome of its own.
std::string outside_words(const Wording& say, const Limit& limit) {
    if (limit.low && limit.high && limit.low->unit == limit.high->unit)
        return say(Word::below_or_above, figure(*limit.low), amount(say, *limit.high));
    if (limit.low && limit.high) return say(Word::below_or_above, amount(say, *limit.low), amount(say, *limit.high));
    return limit.high ? above_words(say, limit) : below_words(say, limit);
}

// An open circuit is above any ohms: said, unless it has an outcome of its own.
std::string or_open(const Wording& say, const Check& check, const std::string& words, bool above) {
    const bool says = above && check.measure == MeasureKind::ohms && !has(check, OutcomeKind::open);
    return says ? say(Word::or_open, words) : words;
}

std::string fail_words(const Wording& say, const Check& check, const Limit* limit) {
    if (names_cases(check)) return say(Word::anything_else);
    if (check.measure == MeasureKind::look) return say(Word::no);
    if (!limit) return or_open(say, check, say(Word::outside), true);
    switch (limit->kind) {
    case LimitKind::yes: return yes_words(say, check.measure, false);
    case LimitKind::no: return yes_words(say, check.measure, true);
    case LimitKind::open: return say(Word::not_open);
    case LimitKind::within: return say(has(check, OutcomeKind::high) ? Word::outside : Word::less_than_that);
    case LimitKind::range:
    case LimitKind::below:
    case LimitKind::above: break;
    }
    const bool low = has(check, OutcomeKind::low), high = has(check, OutcomeKind::high);
    if (low && high) return say(Word::anything_else);
    if (low) return or_open(say, check, above_words(say, *limit), true);
    if (high) return below_words(say, *limit);
    return or_open(say, check, outside_words(say, *limit), limit->high.has_value());
}

std::string side_words(const Wording& say, const Check& check, const Limit* limit, OutcomeKind side) {
    const bool low = side == OutcomeKind::low;
    if (!limit || limit->kind == LimitKind::within) return say(low ? Word::lower : Word::higher);
    if (low) return below_words(say, *limit);
    return or_open(say, check, above_words(say, *limit), true);
}

std::string pass_words(const Wording& say, const Check& check, const Limit* limit) {
    if (check.measure == MeasureKind::look) return say(Word::yes);
    if (limit && limit->kind == LimitKind::within && has(check, OutcomeKind::high)) return say(Word::between_the_two);
    return limit ? limit_words(say, *limit, check.measure) : "";
}

// What an outcome that names no row says where there are several.
std::string for_all_rows(const Wording& say, const Check& check, const Outcome& outcome, const std::string& words) {
    if (outcome.kind == OutcomeKind::no_current || outcome.kind == OutcomeKind::answer) return words;
    if (outcome.kind == OutcomeKind::pass) return has_own_limits(check) ? say(Word::every_row_within) : say(Word::in_every_row, words);
    const bool some_own = std::any_of(check.outcomes.begin(), check.outcomes.end(),
                                      [](const Outcome& other) { return other.kind != OutcomeKind::pass && !other.row.empty(); });
    if (some_own) return say(Word::any_other_row);
    return has_own_limits(check) ? say(Word::any_row_not) : say(Word::in_any_row, words);
}

OutcomeLine line_of(const Wording& say, const Check& check, const Outcome& outcome) {
    const Limit* limit = limit_of(check, outcome.row);
    OutcomeLine line;
    line.outcome = &outcome;
    switch (outcome.kind) {
    case OutcomeKind::pass:
        line.good = true;
        line.words = pass_words(say, check, limit);
        break;
    case OutcomeKind::fail: line.words = fail_words(say, check, limit); break;
    case OutcomeKind::low:
    case OutcomeKind::high: line.words = side_words(say, check, limit, outcome.kind); break;
    case OutcomeKind::open: line.words = say(Word::open); break;
    case OutcomeKind::no_current: line.words = say(Word::no_current); break;
    case OutcomeKind::band: line.words = limit_words(say, *outcome.band, check.measure); break;
    case OutcomeKind::answer: line.words = outcome.answer; break;
    }
    const bool several = check.rows.size() > 1;
    if (several && outcome.row.empty())
        line.words = for_all_rows(say, check, outcome, line.words);
    else if (!several && !outcome.row.empty())
        line.words = say(Word::row_and_limit, outcome.row, line.words);
    return line;
}

// Bands keep theirs: nothing else tells them apart. So does what has none.
std::string without_figures(const Wording& say, const Check& check, const OutcomeLine& line) {
    const Limit* limit = limit_of(check, line.outcome ? line.outcome->row : "");
    const bool figures = limit && (limit->low || limit->high);
    if (!figures) return line.words;
    const bool several = check.rows.size() > 1 && (!line.outcome || line.outcome->row.empty());
    if (!line.outcome) return say(several ? Word::any_row_not : Word::not_in_order);
    switch (line.outcome->kind) {
    case OutcomeKind::pass: return several ? say(Word::in_every_row, say(Word::in_order)) : say(Word::in_order);
    case OutcomeKind::low: return several ? say(Word::in_any_row, say(Word::lower)) : say(Word::lower);
    case OutcomeKind::high: return several ? say(Word::in_any_row, say(Word::higher)) : say(Word::higher);
    case OutcomeKind::fail: return several ? say(Word::any_row_not) : say(Word::not_in_order);
    case OutcomeKind::open:
    case OutcomeKind::no_current:
    case OutcomeKind::band:
    case OutcomeKind::answer: break;
    }
    return line.words;
}

} // namespace

std::vector<const Limit*> limits_of(const Check& check) {
    std::vector<const Limit*> limits;
    for (const Limit& limit : check.limits)
        limits.push_back(&limit);
    for (const Outcome& outcome : check.outcomes)
        if (outcome.band) limits.push_back(&*outcome.band);
    return limits;
}

std::string limit_words(const Wording& say, const Limit& limit, MeasureKind measure) {
    switch (limit.kind) {
    case LimitKind::range:
        if (!limit.low || !limit.high) break;
        if (limit.low->unit == limit.high->unit) return say(Word::range, figure(*limit.low), figure(*limit.high), unit(say, *limit.high));
        return say(Word::range_two_units, amount(say, *limit.low), amount(say, *limit.high));
    case LimitKind::below: return limit.high ? say(Word::or_less, amount(say, *limit.high)) : "";
    case LimitKind::above: return limit.low ? say(Word::or_more, amount(say, *limit.low)) : "";
    case LimitKind::open: return say(Word::open);
    case LimitKind::yes: return yes_words(say, measure, true);
    case LimitKind::no: return yes_words(say, measure, false);
    case LimitKind::within: return say(Word::that_or_more);
    }
    return {};
}

std::vector<OutcomeLine> outcome_lines(const Wording& say, const Check& check, Figured figured) {
    constexpr OutcomeKind order[] = {OutcomeKind::pass, OutcomeKind::answer, OutcomeKind::band,       OutcomeKind::low,
                                     OutcomeKind::high, OutcomeKind::open,   OutcomeKind::no_current, OutcomeKind::fail};
    std::vector<OutcomeLine> lines;
    for (const OutcomeKind kind : order)
        for (const Outcome& outcome : check.outcomes)
            if (outcome.kind == kind) lines.push_back(line_of(say, check, outcome));
    if (leaves_something(check)) {
        OutcomeLine left;
        left.words = fail_words(say, check, limit_of(check, ""));
        lines.push_back(left);
    }
    if (figured == Figured::no)
        for (OutcomeLine& line : lines)
            line.words = without_figures(say, check, line);
    return lines;
}

std::vector<Sum> sums_of(const Wording& say, const Check& check) {
    std::vector<Sum> sums;
    for (const Limit& limit : check.limits) {
        if (limit.kind != LimitKind::within || !limit.high || limit.reference == none) continue;
        sums.push_back({limit.reference, limit.row, true, figure(*limit.high), unit(say, *limit.high)});
        if (has(check, OutcomeKind::high)) {
            sums.push_back(sums.back());
            sums.back().minus = false;
        }
    }
    return sums;
}

} // namespace loomsheet
