#include "faults/outcome.hpp"
#include <limits>

namespace loomsheet {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

struct Wanted {
    OutcomeKind kind;
    bool own; // of the row, else of all rows
};

// The first of these that the check has; behind the last outcome where it has none of them.
std::size_t first_of(const Check& check, const std::string& name, std::initializer_list<Wanted> list) {
    for (const Wanted& wanted : list) {
        if (wanted.own && name.empty()) continue;
        for (std::size_t i = 0; i < check.outcomes.size(); ++i)
            if (check.outcomes[i].kind == wanted.kind && check.outcomes[i].row == (wanted.own ? name : std::string())) return i;
    }
    return check.outcomes.size();
}
std::size_t find(const Check& check, OutcomeKind kind, const std::string& name) {
    return first_of(check, name, {{kind, true}, {OutcomeKind::fail, true}, {kind, false}, {OutcomeKind::fail, false}});
}

bool has(const Check& check, OutcomeKind kind, const std::string& name) {
    return std::any_of(check.outcomes.begin(), check.outcomes.end(),
                       [&](const Outcome& outcome) { return outcome.kind == kind && (outcome.row.empty() || outcome.row == name); });
}

class Cases {
public:
    Cases(const Check& check, const std::string& name, const Limit& limit)
        : check_(check), name_(name), limit_(limit), good_(good_of(limit, check.measure)) {
        if (limit.kind == LimitKind::within && !has(check, OutcomeKind::high, name)) good_.high = infinity; // "that or more"
    }

    std::vector<ReadCase> list() {
        if (limit_.kind == LimitKind::yes || limit_.kind == LimitKind::no || check_.measure == MeasureKind::continuity)
            yes_and_no();
        else
            numbers();
        if (check_.measure == MeasureKind::ohms) open();
        return std::move(list_);
    }

private:
    void add(ReadCase::Shown shown, double low, double high, Answer answer, std::size_t outcome) {
        list_.push_back({shown, low, high, answer, outcome});
    }

    // A beeper that is silent has found an open circuit.
    void yes_and_no() {
        const bool yes_is_good = limit_.kind == LimitKind::yes;
        const std::size_t pass = pass_of(check_, name_);
        std::size_t fail = find(check_, OutcomeKind::low, name_);
        if (check_.measure == MeasureKind::continuity && yes_is_good && has(check_, OutcomeKind::open, name_))
            fail = find(check_, OutcomeKind::open, name_);
        add(ReadCase::Shown::yes, 0, 0, yes_is_good ? Answer::pass : Answer::low, yes_is_good ? pass : fail);
        add(ReadCase::Shown::no, 0, 0, yes_is_good ? Answer::low : Answer::pass, yes_is_good ? fail : pass);
    }

    // The line of numbers, cut where a limit or a band ends.
    void numbers() {
        if (limit_.kind == LimitKind::open) // joined, though it should not be
            return add(ReadCase::Shown::number, -infinity, infinity, Answer::low, find(check_, OutcomeKind::low, name_));
        std::vector<double> cuts{-infinity, infinity};
        const auto cut = [&](const Good& good) { cuts.push_back(good.low), cuts.push_back(good.high); };
        cut(good_);
        for (const Outcome& outcome : check_.outcomes)
            if (outcome.band) cut(good_of(*outcome.band, MeasureKind::nothing));
        std::sort(cuts.begin(), cuts.end());
        cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
        for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
            const double low = cuts[i], high = cuts[i + 1];
            if (low != -infinity) number(low, low, low);
            number(low, high, low == -infinity ? high - 1 : high == infinity ? low + 1 : (low + high) / 2);
        }
    }
    // `like`: a number that stands for all of the piece.
    void number(double low, double high, double like) {
        if (like >= good_.low && like <= good_.high) return add(ReadCase::Shown::number, low, high, Answer::pass, pass_of(check_, name_));
        for (std::size_t i = 0; i < check_.outcomes.size(); ++i) {
            if (!check_.outcomes[i].band) continue;
            const Good band = good_of(*check_.outcomes[i].band, MeasureKind::nothing);
            if (like >= band.low && like <= band.high) return add(ReadCase::Shown::number, low, high, Answer::other, i);
        }
        const bool below = like < good_.low;
        const bool as_above = below && limit_.kind == LimitKind::below; // the leads are swapped, and it is too much
        add(ReadCase::Shown::number, low, high, below ? Answer::low : Answer::high,
            find(check_, below && !as_above ? OutcomeKind::low : OutcomeKind::high, name_));
    }

    // Open is more than any number of ohms.
    void open() {
        const bool passes = limit_.kind == LimitKind::open || good_.high == infinity;
        const bool named = limit_.kind != LimitKind::open && has(check_, OutcomeKind::open, name_);
        if (passes && !named) return add(ReadCase::Shown::open, 0, 0, Answer::pass, pass_of(check_, name_));
        add(ReadCase::Shown::open, 0, 0, Answer::other, find(check_, named ? OutcomeKind::open : OutcomeKind::high, name_));
    }

    const Check& check_;
    const std::string& name_;
    const Limit& limit_;
    Good good_;
    std::vector<ReadCase> list_;
};

// --- looks: the states that parts may be in, whatever the car
// All that may be seen is written out, and none of it means anything for the circuit.
bool is_in_words(const Check& check) {
    return !has(check, OutcomeKind::pass, "") &&
           std::all_of(check.outcomes.begin(), check.outcomes.end(), [](const Outcome& outcome) { return outcome.states.empty(); });
}

std::uint64_t sight_of(const std::vector<State>& states, const std::vector<PointRef>& parts, const std::vector<int>& doing) {
    std::uint64_t holds = 0;
    for (std::size_t i = 0; i < states.size(); ++i)
        for (std::size_t p = 0; p < parts.size(); ++p)
            if (parts[p].part == states[i].of.part && parts[p].pins == states[i].of.pins && shows(states[i].verb, Doing(doing[p])))
                holds |= std::uint64_t{1} << i;
    return holds;
}

bool look_leaves_something(const Check& check) {
    constexpr std::size_t most_parts = 6;
    const std::vector<State> states = states_of(check);
    std::vector<PointRef> parts;
    for (const State& state : states)
        if (std::none_of(parts.begin(), parts.end(),
                         [&](const PointRef& each) { return each.part == state.of.part && each.pins == state.of.pins; }))
            parts.push_back(state.of);
    if (parts.empty()) return !is_in_words(check);
    if (parts.size() > most_parts) return true;
    std::vector<int> doing(parts.size(), 0);
    for (;;) {
        if (outcomes_of(check, {sight_of(states, parts, doing), 0}) & outcome_bit(check.outcomes.size())) return true;
        std::size_t p = 0;
        while (p < parts.size() && ++doing[p] == 3)
            doing[p++] = 0;
        if (p == parts.size()) return false;
    }
}

} // namespace

Good good_of(const Limit& limit, MeasureKind measure) {
    if (limit.kind == LimitKind::within) return {-limit.high->si, limit.high->si};
    const double low = limit.low                                                                    ? limit.low->si
                       : limit.kind == LimitKind::below && dimension_of(measure) == Dimension::volt ? -std::abs(limit.high->si)
                                                                                                    : -infinity;
    return {low, limit.high ? limit.high->si : infinity};
}

std::size_t pass_of(const Check& check, const std::string& name) {
    const std::size_t found = first_of(check, name, {{OutcomeKind::pass, true}, {OutcomeKind::pass, false}});
    if (found < check.outcomes.size() || !name.empty()) return found;
    for (std::size_t i = 0; i < check.outcomes.size(); ++i) // of a row that it names, and no other has one
        if (check.outcomes[i].kind == OutcomeKind::pass) return i;
    return found;
}

std::size_t fail_of(const Check& check, const std::string& name) {
    return first_of(check, name, {{OutcomeKind::fail, true}, {OutcomeKind::fail, false}});
}

std::optional<std::size_t> no_current_of(const Check& check) {
    const std::size_t found = first_of(check, "", {{OutcomeKind::no_current, false}});
    return found < check.outcomes.size() ? std::optional(found) : std::nullopt;
}

OutcomeSet every_outcome(const Check& check) {
    OutcomeSet set = 0;
    for (std::size_t i = 0; i <= check.outcomes.size(); ++i)
        set |= outcome_bit(i);
    return set;
}

const Target* target_of(const Check& check, std::size_t outcome) {
    return outcome < check.outcomes.size() ? &check.outcomes[outcome].target : nullptr;
}

std::vector<ReadCase> cases_of(const Check& check, const std::string& name) {
    const Limit* limit = limit_of(check, name);
    return limit ? Cases(check, name, *limit).list() : std::vector<ReadCase>();
}

std::vector<State> states_of(const Check& check) {
    std::vector<State> list = check.look_states.list;
    for (const Outcome& outcome : check.outcomes)
        list.insert(list.end(), outcome.states.list.begin(), outcome.states.list.end());
    return list;
}

OutcomeSet outcomes_of(const Check& check, const Sight& sight) {
    OutcomeSet set = 0;
    bool named = false; // surely
    std::size_t first = check.look_states.list.size();
    for (std::size_t i = 0; i < check.outcomes.size(); ++i) {
        const Outcome& outcome = check.outcomes[i];
        const bool pass = outcome.kind == OutcomeKind::pass;
        if (outcome.kind == OutcomeKind::fail) continue;
        const States& states = pass ? check.look_states : outcome.states;
        const Truth truth = states.empty() ? Truth::unknown : holds(states, pass ? 0 : first, sight);
        first += outcome.states.list.size();
        if (truth != Truth::no) set |= outcome_bit(i);
        named |= truth == Truth::yes;
    }
    const bool is_else = !named && !(is_in_words(check) && set != 0);
    return is_else ? set | outcome_bit(fail_of(check, "")) : set;
}

OutcomeSet outcome_of_rattling(const Check& check) {
    if (check.measure != MeasureKind::look) return stop_bit;
    for (std::size_t i = 0; i < check.outcomes.size(); ++i) // `K5 chatters` is an answer
        for (const State& state : check.outcomes[i].states.list)
            if (state.verb == StateVerb::chatters) return outcome_bit(i);
    return outcome_bit(fail_of(check, ""));
}

bool leaves_something(const Check& check) {
    const OutcomeSet left = outcome_bit(check.outcomes.size());
    if (check.measure == MeasureKind::look) return look_leaves_something(check);
    const auto leaves = [&](const std::string& name) {
        const std::vector<ReadCase> cases = cases_of(check, name);
        return cases.empty()
                   ? fail_of(check, name) == check.outcomes.size()
                   : std::any_of(cases.begin(), cases.end(), [&](const ReadCase& each) { return outcome_bit(each.outcome) == left; });
    };
    if (check.rows.size() < 2) return leaves("");
    return std::any_of(check.rows.begin(), check.rows.end(), [&](const Row& row) { return leaves(row.name); });
}

} // namespace loomsheet
