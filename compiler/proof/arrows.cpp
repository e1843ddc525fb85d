#include "proof/arrows.hpp"
#include <algorithm>

namespace loomsheet {

PlanMap::PlanMap(const Plan& plan) : plan_(plan), checks_(static_cast<int>(plan.checks.size())) {
    const auto stop_of = [&](const Target& target) -> StopId {
        if (target.index == none) return none;
        return target.kind == TargetKind::verdict ? checks_ + target.index : target.index;
    };
    const auto lead = [&](StopId from, const Target& target) {
        if (const StopId to = stop_of(target); to != none) arrows_.push_back({from, to, target.at, false});
    };
    for (int check = 0; check < checks_; ++check)
        for (const Outcome& outcome : plan.checks[check].outcomes)
            lead(check, outcome.target);
    for (int i = 0; i < static_cast<int>(plan.verdicts.size()); ++i) {
        const Verdict& verdict = plan.verdicts[i];
        lead(checks_ + i, verdict.then);
        for (const int check : verdict.after)
            if (check != none) arrows_.push_back({checks_ + i, check, verdict.at, true});
    }
    from_.resize(plan.checks.size() + plan.verdicts.size());
    to_.resize(from_.size());
    for (int i = 0; i < static_cast<int>(arrows_.size()); ++i) {
        from_[arrows_[i].from].push_back(i);
        to_[arrows_[i].to].push_back(i);
    }
}

Span PlanMap::at(StopId stop) const { return is_verdict(stop) ? verdict(stop).at : plan_.checks[stop].at; }

const std::string& PlanMap::label(StopId stop) const { return is_verdict(stop) ? verdict(stop).label : plan_.checks[stop].label; }

std::vector<int> PlanMap::reach(const std::vector<StopId>& starts, StopId closed) const {
    std::vector<int> by(from_.size(), never);
    std::vector<StopId> queue;
    for (const StopId stop : starts)
        if (stop != closed && by[stop] == never) by[stop] = start, queue.push_back(stop);
    for (std::size_t next = 0; next < queue.size(); ++next)
        for (const int arrow : from_[queue[next]]) {
            const StopId to = arrows_[arrow].to;
            if (to == closed || by[to] != never) continue;
            by[to] = arrow;
            queue.push_back(to);
        }
    return by;
}

bool has_outcome(const Check& check, OutcomeKind kind) {
    return std::any_of(check.outcomes.begin(), check.outcomes.end(), [&](const Outcome& each) { return each.kind == kind; });
}

bool fail_is_left(const Check& check) {
    if (has_outcome(check, OutcomeKind::fail)) return false;
    if (check.measure == MeasureKind::look) return has_outcome(check, OutcomeKind::pass); // else its answers are all written
    const auto all = [&](LimitKind kind) {
        return !check.limits.empty() &&
               std::all_of(check.limits.begin(), check.limits.end(), [&](const Limit& limit) { return limit.kind == kind; });
    };
    const bool low_named = has_outcome(check, OutcomeKind::low) || all(LimitKind::below);
    const bool high_named = has_outcome(check, OutcomeKind::high) || all(LimitKind::above);
    return !(low_named && high_named);
}

} // namespace loomsheet
