#include "proof/coverage.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

constexpr std::size_t most_lines = 12, most_verdicts = 3;
} // namespace

std::vector<Covered> covered(const Diagnosis& diagnosis) {
    std::vector<Covered> list;
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i) {
        const Candidate& fault = diagnosis.matrix.faults[i];
        const FaultEnds& ends = diagnosis.ends[i];
        auto at =
            std::find_if(list.begin(), list.end(), [&](const Covered& each) { return each.suspect == fault.suspect; });
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
    std::stable_sort(list.begin(), list.end(),
                     [](const Covered& a, const Covered& b) { return a.lost() > b.lost() + no_share; });
    return list;
}

// "W3, S1.2 to X1.1", "joint X1.1", "K5 (Fan relay)"
std::string suspect_words(const Circuit& circuit, const Suspect& suspect) {
    std::string name = suspect_name(circuit, suspect);
    if (suspect.wire == none) return name;
    const Wire& wire = circuit.wires[suspect.wire];
    return fmt::format("{}, {} to {}", name, circuit.pin_name(wire.from), circuit.pin_name(wire.to));
}

std::string coverage_words(const Plan& plan, const Diagnosis& diagnosis) {
    const std::vector<Covered> list = covered(diagnosis);
    const auto sure = static_cast<std::size_t>(
        std::count_if(list.begin(), list.end(), [](const Covered& each) { return each.lost() < no_share; }));
    const std::size_t unsure = list.size() - sure, shown = std::min(unsure, most_lines);
    if (unsure == 0)
        return fmt::format("All {} parts, wires and joints that can cause it are surely found.\n", list.size());
    std::vector<std::vector<std::string>> lines{{"not surely found", "found", "else"}};
    for (std::size_t i = 0; i < shown; ++i) {
        const Covered& each = list[i];
        std::vector<std::string> names;
        std::string rest;
        const auto add = [&](const std::string& words) { rest += (rest.empty() ? "" : "; ") + words; };
        for (const int verdict : each.verdicts)
            names.push_back(plan.verdicts[verdict].label);
        if (!names.empty()) add("may end at " + list_words(names, "or", most_verdicts));
        if (each.sound) add("may be called sound");
        if (each.open) add("may end at a stop");
        lines.push_back({suspect_words(plan.circuit, each.suspect), of_hundred(each.found / each.all) + " %", rest});
    }
    std::string text = laid_out(lines);
    if (unsure > shown) text += fmt::format("and {} more\n", unsure - shown);
    return text + fmt::format("Surely found: {} of {} parts, wires and joints.\n", sure, list.size());
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

std::string groups_words(const Plan& plan, const Diagnosis& diagnosis) {
    std::vector<std::vector<std::string>> lines{{"verdict", "leaves", "told no further apart"}};
    for (const Left& each : groups(diagnosis)) {
        if (each.suspects.size() <= most_left) break;
        std::vector<std::string> names;
        for (const Suspect& suspect : each.suspects)
            names.push_back(suspect_point(plan.circuit, suspect));
        lines.push_back({plan.verdicts[each.verdict].label, fmt::format("{}", names.size()), list_words(names, "and", 6)});
    }
    return lines.size() == 1 ? std::string() : laid_out(lines);
}

std::string of_hundred(double share) {
    if (share > no_share && share < 0.005) return "less than 1";
    if (share < 1 - no_share && share > 0.995) return "99";
    return fmt::format("{:.0f}", share * 100);
}

} // namespace loomsheet
