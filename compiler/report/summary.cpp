#include "report/summary.hpp"
#include "proof/words.hpp"
#include "report/coverage.hpp"
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace loomsheet {
namespace {

std::string answer(const Plan& plan, const Diagnosis& diagnosis) {
    const Figures& f = diagnosis.figures;
    std::string text = fmt::format("Of 100 cars with this complaint, this plan surely names the fault on {}", of_hundred(f.found));
    std::vector<std::string> rest;
    if (f.wrong > no_share) rest.push_back(fmt::format("on {} it may blame something else", of_hundred(f.wrong)));
    if (f.missed > no_share) rest.push_back(fmt::format("{} it may call sound", of_hundred(f.missed)));
    if (f.jumps > no_share) rest.push_back(fmt::format("on {} a reading may jump, and it stops there", of_hundred(f.jumps)));
    if (f.open - f.jumps > no_share) rest.push_back(fmt::format("on {} it may stop with nothing named", of_hundred(f.open - f.jumps)));
    text += (rest.empty() ? "" : "; ") + list_words(rest) + ".\n";
    const Doubtful doubt = doubtful_ends(diagnosis);
    std::vector<std::string> doubtful;
    for (const int verdict : doubt.verdicts)
        doubtful.push_back(plan.verdicts[verdict].label);
    for (const int check : doubt.stops)
        doubtful.push_back("the suspects at " + plan.checks[check].label);
    if (doubtful.empty()) return text + "Every verdict holds: none is reached by a fault that it does not name.\n";
    const bool one = doubtful.size() == 1 && doubt.stops.empty();
    return text + fmt::format("{} not hold: {} may be reached by a fault that {} not name.\n",
                              one                      ? "One verdict does"
                              : doubt.verdicts.empty() ? "A stop does"
                                                       : "Some verdicts do",
                              list_words(doubtful, "and", 8), one ? "it does" : "they do");
}

std::string figures(const Plan& plan, const Diagnosis& diagnosis) {
    const Figures& f = diagnosis.figures;
    const Isolation& told = f.isolation;
    std::vector<std::vector<std::string>> lines;
    const auto add = [&](std::string what, std::string words) { lines.push_back({std::move(what), std::move(words)}); };
    add("tried", fmt::format("{} faults of {} parts, wires and joints can cause it; {} other faults cannot", diagnosis.matrix.faults.size(),
                             told.units, diagnosis.matrix.harmless.size()));
    if (f.found > no_share) {
        add("told apart",
            fmt::format("of 100 that it finds, {} down to one thing, {} to two at most, {} to three at most; {:.1f} things on average",
                        of_hundred(told.to_one), of_hundred(told.to_two), of_hundred(told.to_three), told.group));
        add("first try", fmt::format("the likeliest thing of the verdict is the right one on {} of 100; {:.1f} are tried on average",
                                     of_hundred(told.first_right), told.tries));
    }
    add("checks", fmt::format("{:.1f} on average to the end, {} at most", f.checks, f.most_checks));
    if (f.most_minutes > 0) add("time", fmt::format("{:.0f} min on average, {:.0f} min at most", f.minutes, f.most_minutes));
    if (!f.longest.empty()) {
        std::vector<std::string> way;
        for (const Taken& step : f.longest)
            way.push_back(plan.checks[step.check].label);
        add("longest way", fmt::format("{}", fmt::join(way, ", ")));
    }
    add("sound car", f.false_alarm ? "something may be blamed on it" : "nothing is blamed on it");
    return laid_out(lines);
}

} // namespace

std::string diagnosis_summary(const Plan& plan, const Diagnosis& diagnosis) {
    if (diagnosis.matrix.faults.empty())
        return "Nothing is proved of this plan: of all faults that are tried, none causes the complaint. See what the "
               "complaint says "
               "behind its colon: a state such as `M3 still`, or a measurement with its limit.\n";
    std::string text = answer(plan, diagnosis) + "\n" + figures(plan, diagnosis) + "\n" + coverage_words(plan, diagnosis);
    const std::string left = groups_words(plan, diagnosis);
    return left.empty() ? text : text + "\n" + left;
}

} // namespace loomsheet
