#include "faults/suspects.hpp"
#include <algorithm>

namespace loomsheet {

std::vector<RankedSuspect> suspects_at(const Diagnosis& diagnosis, int check, std::size_t outcome) {
    std::vector<RankedSuspect> list;
    double all = 0;
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i) {
        const std::vector<Step>& steps = diagnosis.ends[i].steps;
        if (std::find(steps.begin(), steps.end(), Step{check, outcome}) == steps.end()) continue;
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

} // namespace loomsheet
