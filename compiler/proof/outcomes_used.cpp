#include "proof/arrows.hpp"
#include "proof/verdicts.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

bool is_check(const Target& target) {
    return (target.kind == TargetKind::check || target.kind == TargetKind::next) && target.index != none;
}
bool is_verdict(const Target& target) { return target.kind == TargetKind::verdict && target.index != none; }

// Volts over what the check expects.
bool is_too_high(const Check& check, const Outcome& outcome) {
    if (check.measure != MeasureKind::volts) return false;
    const auto all_below = [&] {
        return !check.limits.empty() &&
               std::all_of(check.limits.begin(), check.limits.end(), [](const Limit& limit) { return limit.kind == LimitKind::below; });
    };
    switch (outcome.kind) {
    case OutcomeKind::high: return true;
    case OutcomeKind::fail: return all_below();
    case OutcomeKind::band: {
        const Limit* limit = limit_of(check, outcome.row);
        return limit && limit->high && outcome.band && outcome.band->low && outcome.band->low->si >= limit->high->si;
    }
    case OutcomeKind::pass:
    case OutcomeKind::low:
    case OutcomeKind::open:
    case OutcomeKind::no_current:
    case OutcomeKind::answer: break;
    }
    return false;
}

bool comes_too_high(const Plan& plan, int verdict) {
    std::vector<StopId> stops;
    for (const Check& check : plan.checks)
        for (const Outcome& outcome : check.outcomes)
            if (is_too_high(check, outcome) && outcome.target.index != none)
                stops.push_back(outcome.target.index + (is_verdict(outcome.target) ? static_cast<int>(plan.checks.size()) : 0));
    return PlanMap(plan).reach(stops)[plan.checks.size() + static_cast<std::size_t>(verdict)] != PlanMap::never;
}

class Used {
public:
    Used(const Plan& plan, const Diagnosis& diagnosis, const Witness& witness, Findings& findings)
        : plan_(plan), diagnosis_(diagnosis), witness_(witness), findings_(findings), had_(plan.checks.size()), comers_(plan.checks.size()),
          proves_(plan.checks.size()), compared_(plan.checks.size()), told_check_(plan.checks.size()), told_verdict_(plan.verdicts.size()),
          ended_(plan.verdicts.size()) {
        come(diagnosis.matrix.sound, nullptr);
        for (std::size_t i = 0; i < diagnosis.matrix.faults.size(); ++i)
            come(diagnosis.matrix.cells[i], &diagnosis.matrix.faults[i]);
        for (const FaultEnds& ends : diagnosis.ends)
            for (const Ending& ending : ends.endings)
                if (ending.kind == EndKind::verdict) ended_[ending.verdict] = true;
        for (const Verdict& verdict : plan.verdicts)
            for (const int check : verdict.after)
                if (check != none) proves_[check] = true;
        for (const Check& check : plan.checks)
            for (const Limit& limit : check.limits)
                if (limit.reference != none) compared_[limit.reference] = true;
    }

    void prove() {
        for (std::size_t c = 0; c < plan_.checks.size(); ++c)
            if (is_judged(c)) prove_check(static_cast<int>(c));
        for (std::size_t v = 0; v < plan_.verdicts.size(); ++v)
            if (is_dead(v) && !told_verdict_[v]) say_dead(static_cast<int>(v));
    }

private:
    void come(const std::vector<OutcomeSet>& cells, const Candidate* fault) {
        std::vector<Taken> steps;
        diagnosis_.walker->endings(cells, fault, &steps);
        for (const Taken& step : steps) {
            if (step.outcome != Taken::jumps) had_[step.check] |= outcome_bit(step.outcome);
            std::vector<const Fault*>& list = comers_[step.check];
            const Fault* car = fault ? &fault->fault : nullptr;
            if (list.empty() || list.back() != car) list.push_back(car);
        }
    }
    // Not what nobody comes to, nor what stands off the path or is not read from the circuit; what proves a repair sees
    // cars with any fault left in.
    bool is_judged(std::size_t c) const {
        const Check& check = plan_.checks[c];
        return had_[c] != 0 && !proves_[c] && !check.exercise && row_of(check.measure).computed;
    }
    // Stands for what is not among the faults: outside the circuit, what the car needs before one goes on, all that is
    // left.
    bool is_beyond(const Target& target) const {
        if (is_check(target)) return false;
        return !is_verdict(target) || is_beyond(target.index);
    }
    bool is_beyond(int index) const {
        const Verdict& verdict = plan_.verdicts[index];
        return verdict.blames_nothing || !verdict.blamed_words.empty() || verdict.then.kind != TargetKind::nowhere ||
               !verdict.then_plan.empty() || std::any_of(verdict.blames.begin(), verdict.blames.end(), [&](const PointRef& point) {
                   return fails_otherwise(plan_, index, point);
               });
    }
    bool is_dead(std::size_t v) const { return !ended_[v] && !is_beyond(static_cast<int>(v)); }
    bool has(int check, std::size_t outcome) const { return (had_[check] & outcome_bit(outcome)) != 0; }

    void prove_check(int c) {
        const Check& check = plan_.checks[c];
        if (is_sure(had_[c])) {
            bool stands_for = compared_[c];
            for (std::size_t o = 0; o < check.outcomes.size(); ++o)
                stands_for |= !has(c, o) && is_verdict(check.outcomes[o].target) && is_beyond(check.outcomes[o].target);
            if (stands_for) return;
            say_sure(c);
            for (std::size_t o = 0; o < check.outcomes.size(); ++o)
                if (!has(c, o)) tell(check.outcomes[o].target);
            return;
        }
        for (std::size_t o = 0; o < check.outcomes.size(); ++o) {
            const Outcome& outcome = check.outcomes[o];
            // `pass` must be written, and `no current` keeps one from trusting 0 V
            if (has(c, o) || outcome.kind == OutcomeKind::pass || outcome.kind == OutcomeKind::no_current || is_beyond(outcome.target))
                continue;
            if (is_verdict(outcome.target) && is_dead(static_cast<std::size_t>(outcome.target.index))) continue; // said there
            say_unused({c, o});
            tell(outcome.target);
        }
    }
    // What lies behind it has its cause here.
    void tell(const Target& target) {
        if (is_verdict(target)) told_verdict_[target.index] = true;
        if (!is_check(target) || had_[target.index] != 0 || told_check_[target.index]) return;
        told_check_[target.index] = true;
        for (const Outcome& outcome : plan_.checks[target.index].outcomes)
            tell(outcome.target);
    }

    std::string range(int c, std::size_t row) const {
        const std::string words = witness_.range(comers_[c], c, row);
        return words.empty() ? words : fmt::format("; all cars that come to it read {} there", words);
    }
    // The row that an outcome is about, behind all of them where it is about all.
    static std::size_t row_number(const Check& check, const Outcome& outcome) {
        if (check.rows.size() == 1) return 0;
        std::size_t row = 0;
        while (row < check.rows.size() && (outcome.row.empty() || check.rows[row].name != outcome.row))
            ++row;
        return row;
    }
    void say_unused(const Taken& step) {
        const Check& check = plan_.checks[step.check];
        const Outcome& outcome = check.outcomes[step.outcome];
        findings_.add(finding::outcome_never_had, outcome.at,
                      fmt::format("{} never {}: no fault that causes the complaint comes to that, and no sound car{}", check.label,
                                  step_words(plan_, step), range(step.check, row_number(check, outcome))),
                      "take it out, or look at the limits");
    }
    void say_sure(int c) {
        const Check& check = plan_.checks[c];
        std::size_t only = 0;
        while (only < check.outcomes.size() && !has(c, only))
            ++only;
        const std::string read = witness_.range(comers_[c], c, check.rows.size() == 1 ? 0 : check.rows.size());
        findings_.add(finding::check_finds_nothing, check.at,
                      fmt::format("{} can find nothing: every car that comes here {}{}, whatever is wrong with it", check.label,
                                  step_words(plan_, {c, only}), read.empty() ? "" : fmt::format(" ({})", read)),
                      "take it out, or put it before the checks that have settled it already");
    }
    void say_dead(int v) {
        std::vector<std::string> ways;
        std::string read;
        for (int c = 0; c < static_cast<int>(plan_.checks.size()); ++c)
            for (std::size_t o = 0; o < plan_.checks[c].outcomes.size(); ++o) {
                const Target& target = plan_.checks[c].outcomes[o].target;
                if (!is_verdict(target) || target.index != v || had_[c] == 0 || has(c, o)) continue;
                ways.push_back(fmt::format("{} never {}", plan_.checks[c].label, step_words(plan_, {c, o})));
                read = range(c, row_number(plan_.checks[c], plan_.checks[c].outcomes[o]));
            }
        findings_.add(finding::verdict_without_cars, plan_.verdicts[v].at,
                      fmt::format("no fault that causes the complaint leads to {}{}{}{}", plan_.verdicts[v].label, ways.empty() ? "" : ": ",
                                  list_words(ways), ways.size() == 1 ? read : ""),
                      "look at the limits on the way to it, or take it out");
    }

    const Plan& plan_;
    const Diagnosis& diagnosis_;
    const Witness& witness_;
    Findings& findings_;
    std::vector<OutcomeSet> had_;                   // by cars that come to the check
    std::vector<std::vector<const Fault*>> comers_; // to the check; null is the sound car
    std::vector<bool> proves_, compared_;           // checks that prove a repair; that another is held against
    std::vector<bool> told_check_, told_verdict_, ended_;
};

} // namespace

bool fails_otherwise(const Plan& plan, int verdict, const PointRef& blamed) {
    if (blamed.part == none) return false;
    const PartKind kind = plan.circuit.parts[blamed.part].kind;
    return kind == PartKind::module || kind == PartKind::sensor || kind == PartKind::plain ||
           (kind == PartKind::battery && blamed.pin == none && comes_too_high(plan, verdict));
}

void prove_outcomes_used(const Plan& plan, const Diagnosis& diagnosis, const Witness& witness, Findings& findings) {
    Used(plan, diagnosis, witness, findings).prove();
}

} // namespace loomsheet
