#include "proof/summary.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace loomsheet {
namespace {

constexpr std::size_t most_lines = 12, most_group = 3, most_verdicts = 3;
constexpr double nothing = 1e-9;

// Of 100 cars; what is not quite all or nothing is not rounded to it.
std::string of_hundred(double share) {
    if (share > nothing && share < 0.005) return "less than 1";
    if (share < 1 - nothing && share > 0.995) return "99";
    return fmt::format("{:.0f}", share * 100);
}

std::string answer(const Figures& f) {
    std::string text =
        fmt::format("Of 100 cars with this complaint, this plan surely names the fault on {}", of_hundred(f.found));
    std::vector<std::string> rest;
    if (f.wrong > nothing) rest.push_back(fmt::format("on {} it may blame something else", of_hundred(f.wrong)));
    if (f.missed > nothing) rest.push_back(fmt::format("{} it may call sound", of_hundred(f.missed)));
    if (f.open > nothing) rest.push_back(fmt::format("on {} it may stop with nothing named", of_hundred(f.open)));
    return text + (rest.empty() ? "" : "; ") + list_words(rest) + ".\n";
}

std::string figures(const Diagnosis& diagnosis) {
    const Figures& f = diagnosis.figures;
    std::string text = fmt::format("{} faults that cause it were tried, {} others do not.\n",
                                   diagnosis.matrix.faults.size(), diagnosis.matrix.harmless.size());
    if (f.found > nothing)
        text += fmt::format(
            "Of what it finds, {} % is told down to one part, {} % to two at most, {} % to three at most.\n",
            of_hundred(f.to_one), of_hundred(f.to_two), of_hundred(f.to_three));
    text += fmt::format("To the end it takes {:.1f} checks on average and {} at most", f.checks, f.most_checks);
    if (f.most_minutes > 0)
        text += fmt::format("; {:.0f} min on average, {:.0f} min at most", f.minutes, f.most_minutes);
    return text + ".\n";
}

// One suspect: how much of what befalls it is surely found, and what becomes of the rest.
struct Covered {
    Suspect suspect;
    double all = 0, found = 0;
    bool sound = false, open = false;
    std::vector<int> verdicts; // that may be wrong for it
    double lost() const { return all - found; }
};

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
                     [](const Covered& a, const Covered& b) { return a.lost() > b.lost() + nothing; });
    return list;
}

// "W3, S1.2 to X1.1", "joint X1.1", "K5 (Fan relay)"
std::string suspect_words(const Circuit& circuit, const Suspect& suspect) {
    std::string name = suspect_name(circuit, suspect);
    if (suspect.wire == none) return name;
    const Wire& wire = circuit.wires[suspect.wire];
    return fmt::format("{}, {} to {}", name, circuit.pin_name(wire.from), circuit.pin_name(wire.to));
}

std::string coverage(const Plan& plan, const Diagnosis& diagnosis) {
    const std::vector<Covered> list = covered(diagnosis);
    const auto sure = static_cast<std::size_t>(
        std::count_if(list.begin(), list.end(), [](const Covered& each) { return each.lost() < nothing; }));
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

// What a verdict leaves to be looked at, where that is much.
std::string groups(const Plan& plan, const Diagnosis& diagnosis) {
    struct Group {
        std::size_t verdict;
        std::vector<std::string> names;
    };
    std::vector<Group> groups;
    for (std::size_t v = 0; v < plan.verdicts.size(); ++v) {
        std::vector<std::string> names;
        for (std::size_t i = 0; i < diagnosis.ends.size(); ++i)
            for (const Ending& ending : diagnosis.ends[i].endings) {
                if (ending.kind != EndKind::verdict || ending.verdict != static_cast<int>(v)) continue;
                std::string name = suspect_point(plan.circuit, diagnosis.matrix.faults[i].suspect);
                if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
            }
        if (names.size() > most_group) groups.push_back({v, std::move(names)});
    }
    if (groups.empty()) return {};
    std::stable_sort(groups.begin(), groups.end(),
                     [](const Group& a, const Group& b) { return a.names.size() > b.names.size(); });
    std::vector<std::vector<std::string>> lines{{"verdict", "leaves", ""}};
    for (const Group& each : groups)
        lines.push_back({plan.verdicts[each.verdict].label, fmt::format("{}", each.names.size()),
                         list_words(each.names, "and", 6)});
    return laid_out(lines);
}

} // namespace

std::string diagnosis_summary(const Plan& plan, const Diagnosis& diagnosis) {
    if (diagnosis.matrix.faults.empty())
        return "Nothing is proved of this plan: of all faults that are tried, none causes the complaint. See what the "
               "complaint says "
               "behind its colon: a state such as `M3 still`, or a measurement with its limit.\n";
    std::string text = answer(diagnosis.figures) + figures(diagnosis) + "\n" + coverage(plan, diagnosis);
    const std::string left = groups(plan, diagnosis);
    return left.empty() ? text : text + "\n" + left;
}

} // namespace loomsheet
