#include "faults/suspects.hpp"
#include <algorithm>

namespace loomsheet {

namespace {

// `comes`: whether a fault that takes these steps is meant.
template <class Comes>
std::vector<RankedSuspect> ranked(const Diagnosis& diagnosis, const Comes& comes) {
    std::vector<RankedSuspect> list;
    double all = 0;
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i) {
        if (!comes(diagnosis.ends[i].steps)) continue;
        const Candidate& fault = diagnosis.matrix.faults[i];
        const auto is_it = [&](const RankedSuspect& each) { return each.suspect == fault.suspect; };
        auto at = std::find_if(list.begin(), list.end(), is_it);
        if (at == list.end()) at = list.insert(at, {fault.suspect, 0});
        at->share += fault.likely, all += fault.likely;
    }
    for (RankedSuspect& each : list)
        each.share /= all;
    std::stable_sort(list.begin(), list.end(), [](const RankedSuspect& a, const RankedSuspect& b) { return a.share > b.share + 1e-9; });
    return list;
}

} // namespace

std::vector<RankedSuspect> suspects_at(const Diagnosis& diagnosis, int check, std::size_t outcome) {
    return ranked(diagnosis, [&](const std::vector<Taken>& steps) {
        return std::find(steps.begin(), steps.end(), Taken{check, outcome}) != steps.end();
    });
}

std::vector<RankedSuspect> suspects_if_failing(const Diagnosis& diagnosis, const Plan& plan, int check) {
    const std::vector<Outcome>& outcomes = plan.checks[check].outcomes;
    const auto is_pass = [](const Outcome& outcome) { return outcome.kind == OutcomeKind::pass; };
    if (std::none_of(outcomes.begin(), outcomes.end(), is_pass)) return {};
    return ranked(diagnosis, [&](const std::vector<Taken>& steps) {
        return std::any_of(steps.begin(), steps.end(), [&](const Taken& step) {
            return step.check == check && step.outcome != Taken::jumps &&
                   (step.outcome >= outcomes.size() || !is_pass(outcomes[step.outcome]));
        });
    });
}

} // namespace loomsheet
