#include "faults/coverage.hpp"
#include <algorithm>

namespace loomsheet {

std::vector<Covered> covered(const Diagnosis& diagnosis) {
    std::vector<Covered> list;
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i) {
        const Candidate& fault = diagnosis.matrix.faults[i];
        const FaultEnds& ends = diagnosis.ends[i];
        auto at = std::find_if(list.begin(), list.end(), [&](const Covered& each) { return each.suspect == fault.suspect; });
        if (at == list.end()) at = list.insert(at, Covered{fault.suspect, 0, 0, false, false, {}});
        at->all += fault.likely;
        if (ends.fate == Fate::found) at->found += fault.likely;
        for (std::size_t e = 0; e < ends.endings.size(); ++e) {
            const int verdict = ends.endings[e].verdict;
            at->sound |= ends.judged[e] == Judgement::missed;
            at->open |= ends.judged[e] == Judgement::open || (ends.judged[e] == Judgement::wrong && verdict == none);
            if (ends.judged[e] == Judgement::wrong && verdict != none &&
                std::find(at->verdicts.begin(), at->verdicts.end(), verdict) == at->verdicts.end())
                at->verdicts.push_back(verdict);
        }
    }
    std::stable_sort(list.begin(), list.end(), [](const Covered& a, const Covered& b) { return a.lost() > b.lost() + no_share; });
    return list;
}

std::vector<Left> groups(const Diagnosis& diagnosis) {
    std::vector<Left> list;
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i)
        for (const Ending& ending : diagnosis.ends[i].endings) {
            if (ending.kind != EndKind::verdict) continue;
            auto at = std::find_if(list.begin(), list.end(), [&](const Left& each) { return each.verdict == ending.verdict; });
            if (at == list.end()) at = list.insert(at, {ending.verdict, {}});
            const Suspect& suspect = diagnosis.matrix.faults[i].suspect;
            if (std::find(at->suspects.begin(), at->suspects.end(), suspect) == at->suspects.end()) at->suspects.push_back(suspect);
        }
    std::stable_sort(list.begin(), list.end(), [](const Left& a, const Left& b) {
        return std::pair(b.suspects.size(), a.verdict) < std::pair(a.suspects.size(), b.verdict);
    });
    return list;
}

Doubtful doubtful_ends(const Diagnosis& diagnosis) {
    Doubtful made;
    for (const FaultEnds& ends : diagnosis.ends)
        for (std::size_t e = 0; e < ends.endings.size(); ++e) {
            const Ending& ending = ends.endings[e];
            if (ending.kind == EndKind::verdict && ends.judged[e] != Judgement::found) made.verdicts.push_back(ending.verdict);
            if (ending.kind == EndKind::suspects && ends.judged[e] == Judgement::wrong) made.stops.push_back(ending.last.check);
        }
    for (std::vector<int>* list : {&made.verdicts, &made.stops}) {
        std::sort(list->begin(), list->end());
        list->erase(std::unique(list->begin(), list->end()), list->end());
    }
    return made;
}

} // namespace loomsheet
