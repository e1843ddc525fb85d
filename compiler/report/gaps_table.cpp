#include "report/gaps_table.hpp"
#include "planning/gaps.hpp"
#include "planning/written.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

namespace {

std::string arrow_words(const Plan& plan, const Taken& arrow) {
    const Outcome& outcome = plan.checks[arrow.check].outcomes[arrow.outcome];
    const std::string row = outcome.row.empty() ? std::string() : fmt::format(" \"{}\"", outcome.row);
    if (outcome.kind == OutcomeKind::answer) return fmt::format("\"{}\"", outcome.answer);
    return (outcome.kind == OutcomeKind::pass   ? "pass"
            : outcome.kind == OutcomeKind::low  ? "low"
            : outcome.kind == OutcomeKind::high ? "high"
            : outcome.kind == OutcomeKind::open ? "open"
                                                : "fail") +
           row;
}

std::string names_of(const Plan& plan, const Diagnosis& diagnosis, const std::vector<std::size_t>& faults) {
    std::vector<std::string> names;
    for (const std::size_t fault : faults) {
        const std::string name = suspect_point(plan.circuit, diagnosis.matrix.faults[fault].suspect);
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    }
    return list_words(names, "and", 6);
}

// What becomes of all that ends wrong, each fault by the worst of its ways.
std::string shares_words(const Diagnosis& diagnosis, const std::vector<Gap>& list) {
    enum class Hope : std::uint8_t { none, told, not_told, not_searched, invisible };
    std::vector<Hope> hopes(diagnosis.ends.size(), Hope::none);
    const auto mark = [&](const std::vector<std::size_t>& faults, Hope hope) {
        for (const std::size_t fault : faults)
            hopes[fault] = std::max(hopes[fault], hope);
    };
    for (std::size_t g = 0; g < list.size(); ++g) {
        mark(list[g].faults, g < most_gaps ? Hope::told : Hope::not_searched);
        mark(list[g].unseen, g < most_gaps ? Hope::not_told : Hope::not_searched);
        mark(list[g].invisible, Hope::invisible);
    }
    double all = 0, share[5] = {};
    for (std::size_t i = 0; i < hopes.size(); ++i) {
        const double likely = diagnosis.matrix.faults[i].likely;
        all += likely, share[static_cast<std::size_t>(hopes[i])] += likely;
    }
    const auto of = [&](Hope hope) { return of_hundred(share[static_cast<std::size_t>(hope)] / all); };
    return fmt::format("Of 100 cars, {} may end wrong at one of {} places. The checks below tell {}; {} are not surely "
                       "told by what was tried; {} change no volts at any "
                       "point, so that no voltmeter tells them; {} end at places that were not looked into.\n\n",
                       of_hundred(1 - share[0] / all), list.size(), of(Hope::told), of(Hope::not_told), of(Hope::invisible),
                       of(Hope::not_searched));
}

} // namespace

std::string gaps_table(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis) {
    const std::vector<Gap> list = gaps(plan, sound, diagnosis, most_gaps);
    std::string text = list.empty() ? std::string() : shares_words(diagnosis, list);
    for (std::size_t g = 0; g < std::min(list.size(), most_gaps); ++g) {
        const Gap& gap = list[g];
        text += fmt::format("{} of 100 cars may end at `-> {}` with something else: {}.\n", of_hundred(gap.likely), target_words(plan, gap),
                            names_of(plan, diagnosis, gap.faults));
        for (std::size_t c = 0; c < gap.closings.size(); ++c) {
            const Closing& closing = gap.closings[c];
            text += fmt::format("  This check tells {} ({:.0f} min more):\n\n", names_of(plan, diagnosis, closing.closes), closing.minutes);
            text += indented(written_closing(plan, gap, c)) + "\n";
        }
        if (!gap.closings.empty()) {
            std::vector<std::string> arrows;
            for (const Taken& arrow : gap.arrows)
                arrows.push_back(fmt::format("`{}` of {}", arrow_words(plan, arrow), plan.checks[arrow.check].label));
            text += fmt::format("  and let {} lead to {}.\n", list_words(arrows), closing_label(plan, gap, 0));
        }
        if (!gap.unseen.empty())
            text += fmt::format("  Not surely told by a drop or volts that was tried, in the set-ups of this plan: faults of {}.\n",
                                names_of(plan, diagnosis, gap.unseen));
        if (!gap.invisible.empty())
            text += fmt::format("  No volts at any point that a tip can be laid on change by 1 mV, in the set-ups of "
                                "this plan, with faults of {}: not to be seen by them.\n",
                                names_of(plan, diagnosis, gap.invisible));
        text += "\n";
    }
    if (list.size() > most_gaps) text += fmt::format("and {} more places where a fault may end wrong\n", list.size() - most_gaps);
    return text;
}

} // namespace loomsheet
