#include "faults/walk.hpp"
#include "faults/between.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

namespace {
bool is_in(const std::vector<Suspect>& run, const Candidate& fault) {
    return std::find(run.begin(), run.end(), fault.suspect) != run.end();
}
} // namespace

Walker::Walker(const Plan& plan) : plan_(plan), stop_runs_(plan.checks.size()) {
    const Graph at_rest = build_graph(plan.circuit);
    for (const Verdict& verdict : plan.verdicts) {
        std::vector<Suspect>& run = runs_.emplace_back();
        for (const auto& [from, to] : verdict.blamed_runs)
            for (const Suspect& each : suspects_between(plan.circuit, at_rest, from, to))
                run.push_back(each);
    }
    for (std::size_t c = 0; c < plan.checks.size(); ++c)
        for (const Outcome& outcome : plan.checks[c].outcomes)
            stop_runs_[c].push_back(outcome.target.run_is_span
                                        ? suspects_between(plan.circuit, at_rest, outcome.target.run[0], outcome.target.run[1])
                                        : std::vector<Suspect>());
}

bool Walker::names_it(const std::vector<PointRef>& points, const Candidate& fault) const {
    return std::any_of(points.begin(), points.end(), [&](const PointRef& point) { return names(plan_.circuit, point, fault); });
}

bool Walker::blames(int verdict, const Candidate& fault) const {
    return names_it(plan_.verdicts[verdict].blames, fault) || is_in(runs_[verdict], fault);
}

Judgement Walker::judge(const Ending& ending, const Candidate& fault) const {
    switch (ending.kind) {
    case EndKind::done: return Judgement::missed;
    case EndKind::verdict:
        if (blames(ending.verdict, fault)) return Judgement::found;
        return plan_.verdicts[ending.verdict].blames_nothing ? Judgement::missed : Judgement::wrong;
    case EndKind::suspects: break;
    }
    const Target* target = target_of(plan_.checks[ending.last.check], ending.last.outcome);
    if (!target || target->run.empty()) return Judgement::open;
    const bool named =
        target->run_is_span ? is_in(stop_runs_[ending.last.check][ending.last.outcome], fault) : names_it(target->run, fault);
    return named ? Judgement::found : Judgement::wrong;
}

std::vector<Ending> Walker::endings(const std::vector<OutcomeSet>& sets, const Candidate* fault, std::vector<Taken>* taken) const {
    std::vector<Ending> list;
    if (plan_.checks.empty()) return list;
    std::vector<int> came(plan_.checks.size(), -2); // index into `steps` of the step before; -1 the start, -2 not reached
    std::vector<std::pair<Taken, int>> steps;       // and the one before it
    std::vector<int> line{0};
    came[0] = -1;
    std::vector<bool> at_verdict(plan_.verdicts.size());
    const auto way_to = [&](int last) {
        std::vector<Taken> way;
        for (int at = last; at >= 0; at = steps[at].second)
            way.push_back(steps[at].first);
        std::reverse(way.begin(), way.end());
        return way;
    };
    const auto go = [&](const Target* target, int step, const auto& self) -> void {
        if (target && (target->kind == TargetKind::check || target->kind == TargetKind::next) && target->index != none) {
            if (came[target->index] == -2) came[target->index] = step, line.push_back(target->index);
            return;
        }
        if (target && target->kind == TargetKind::verdict && target->index != none) {
            const Verdict& verdict = plan_.verdicts[target->index];
            const bool goes_on = verdict.then.kind == TargetKind::check || verdict.then.kind == TargetKind::next;
            const bool ends = !goes_on || (fault && blames(target->index, *fault));
            if (!at_verdict[target->index] && ends) list.push_back({EndKind::verdict, target->index, steps[step].first, way_to(step)});
            at_verdict[target->index] = true;
            if (!ends) self(&verdict.then, step, self);
            return;
        }
        const bool done = target && target->kind == TargetKind::done;
        list.push_back({done ? EndKind::done : EndKind::suspects, none, steps[step].first, way_to(step)});
    };
    for (std::size_t i = 0; i < line.size(); ++i) {
        const int here = line[i];
        if (sets[here] & stop_bit) {
            steps.push_back({{here, Taken::jumps}, came[here]});
            go(nullptr, static_cast<int>(steps.size()) - 1, go);
        }
        for (std::size_t o = 0; o <= plan_.checks[here].outcomes.size(); ++o) {
            if ((sets[here] & outcome_bit(o)) == 0) continue;
            steps.push_back({{here, o}, came[here]});
            go(target_of(plan_.checks[here], o), static_cast<int>(steps.size()) - 1, go);
        }
    }
    if (taken)
        for (const auto& [step, before] : steps)
            taken->push_back(step);
    return list;
}

std::string step_words(const Plan& plan, const Taken& step, Mood mood) {
    const Check& check = plan.checks[step.check];
    const auto of = [&](std::string_view does, std::string_view base, const std::string& rest = "") {
        return (mood == Mood::does ? std::string(does) : fmt::format("may {}", base)) + rest;
    };
    const bool look = check.measure == MeasureKind::look;
    if (step.outcome == Taken::jumps) return of("jumps", "jump");
    if (step.outcome >= check.outcomes.size()) return look ? of("says", "say", " NO") : of("fails", "fail");
    const Outcome& outcome = check.outcomes[step.outcome];
    const std::string row = outcome.row.empty() ? "" : fmt::format(" at \"{}\"", outcome.row);
    switch (outcome.kind) {
    case OutcomeKind::pass: return look ? of("says", "say", " YES") : of("passes", "pass");
    case OutcomeKind::fail: return look ? of("says", "say", " NO") : of("fails", "fail", row);
    case OutcomeKind::low: return of("reads", "read", " low" + row);
    case OutcomeKind::high: return of("reads", "read", " high" + row);
    case OutcomeKind::open: return of("reads", "read", " open" + row);
    case OutcomeKind::no_current: return of("carries", "carry", " no current" + row);
    case OutcomeKind::band: return of("reads", "read", " in its band" + row);
    case OutcomeKind::answer: return of("says", "say", fmt::format(" \"{}\"", outcome.answer));
    }
    return {};
}

std::string way_words(const Plan& plan, const std::vector<Taken>& way) {
    std::string words;
    for (const Taken& step : way)
        words += fmt::format("{}{} {}", words.empty() ? "" : ", ", plan.checks[step.check].label, step_words(plan, step));
    return words;
}

} // namespace loomsheet
