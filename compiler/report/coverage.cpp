#include "report/coverage.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

constexpr std::size_t most_lines = 12, most_verdicts = 3;

} // namespace

std::string coverage_words(const Plan& plan, const Diagnosis& diagnosis) {
    const std::vector<Covered> list = covered(diagnosis);
    const auto sure =
        static_cast<std::size_t>(std::count_if(list.begin(), list.end(), [](const Covered& each) { return each.lost() < no_share; }));
    const std::size_t unsure = list.size() - sure, shown = std::min(unsure, most_lines);
    if (unsure == 0) return fmt::format("All {} parts, wires and joints that can cause it are surely found.\n", list.size());
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

} // namespace loomsheet
