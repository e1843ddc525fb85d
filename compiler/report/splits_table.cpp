#include "report/splits_table.hpp"
#include "planning/splits.hpp"
#include "planning/written.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

std::string ways(std::size_t count) { return count == 1 ? "one way" : fmt::format("{} ways", count); }

std::string points_of_suspects(const Circuit& circuit, const std::vector<Suspect>& suspects) {
    std::vector<std::string> names;
    for (const Suspect& each : suspects)
        names.push_back(suspect_point(circuit, each));
    return list_words(names, "and", 6);
}

} // namespace

std::string splits_table(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis) {
    const std::vector<Split> list = splits(plan, sound, diagnosis, most_splits);
    std::string text;
    for (std::size_t i = 0; i < std::min(list.size(), most_splits); ++i) {
        const Split& split = list[i];
        text += fmt::format("`{}` leaves {} things: {}.\n", plan.verdicts[split.left.verdict].label, split.left.suspects.size(),
                            points_of_suspects(plan.circuit, split.left.suspects));
        if (split.is_worth_it()) {
            text += fmt::format("  This check before it parts them ({:.0f} min more): a pass leaves {}; a fail leaves {}.\n\n{}\n",
                                split.minutes, points_of_suspects(plan.circuit, split.passing),
                                points_of_suspects(plan.circuit, split.failing), indented(written_split(plan, split)));
        } else if (split.check) {
            const Row& row = split.check->rows.front();
            text += fmt::format("  Drops and volts were tried in {}: none parts them well. The best, {} to {}, leaves "
                                "{} on a pass and {} on a fail.\n\n",
                                ways(split.tried), written_point(plan.circuit, row.red), written_point(plan.circuit, row.black),
                                split.passing.size(), split.failing.size());
        } else if (split.alike)
            text += "  At their worst they change the same volts at every point that a tip can be laid on, in every "
                    "set-up of this plan: no reading of volts parts them.\n\n";
        else
            text += fmt::format("  Drops and volts were tried in {}: none is certain to part them.\n\n", ways(split.tried));
    }
    if (list.size() > most_splits)
        text += fmt::format("and {} more verdicts that leave more than three things\n", list.size() - most_splits);
    return text;
}

} // namespace loomsheet
