#include "circuit/fault.hpp"
#include "model/change.hpp"
#include "proof/coverage.hpp"
#include "proof/gaps.hpp"
#include "proof/reading_table.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

constexpr std::size_t most_gaps = 4;

std::string item_words(const Circuit& circuit, const SetupItem& item) {
    const auto part = [&] { return circuit.parts[item.part].id; };
    switch (item.kind) {
    case ItemKind::key: return "key " + item.word;
    case ItemKind::asleep: return "asleep";
    case ItemKind::engine_running: return "engine running";
    case ItemKind::unplugged: return part() + " unplugged";
    case ItemKind::pulled: return part() + " pulled";
    case ItemKind::disconnected: return circuit.pin_name(item.pin) + " disconnected";
    case ItemKind::position: return fmt::format("{} at {}", part(), item.word);
    case ItemKind::pressed: return part() + " pressed";
    case ItemKind::output_on: return circuit.pin_name(item.pin) + " on";
    case ItemKind::bridge:
        return fmt::format("bridge {} to {}{}", written_point(circuit, item.a), written_point(circuit, item.b),
                           item.value ? " fused " + item.value->written : std::string());
    case ItemKind::load:
        return fmt::format("load {} across {} to {}", item.value ? item.value->written : std::string(),
                           written_point(circuit, item.a), written_point(circuit, item.b));
    default: return fmt::format("\"{}\"", item.word);
    }
}

// By its label where the plan has one.
std::string with_words(const Plan& plan, const Setup& setup) {
    for (const NamedSetup& named : plan.setups)
        if (std::equal(named.setup.items.begin(), named.setup.items.end(), setup.items.begin(), setup.items.end(),
                       [](const SetupItem& a, const SetupItem& b) {
                           return !a.across_points && same_subject(a, b) && same_state(a, b);
                       }))
            return named.label;
    std::string words;
    for (const SetupItem& item : setup.items)
        words += (words.empty() ? "" : ", ") + item_words(plan.circuit, item);
    return words;
}

std::string target_words(const Plan& plan, const Gap& gap) {
    if (gap.verdict != none) return plan.verdicts[gap.verdict].label;
    const Target* target = target_of(plan.checks[gap.arrows.front().check], gap.arrows.front().outcome);
    if (!target || target->kind == TargetKind::done) return "done";
    std::string words = "suspects";
    for (const PointRef& point : target->run)
        words += fmt::format("{}{}", target->run_is_span && words != "suspects" ? " to " : " ",
                             written_point(plan.circuit, point));
    return words;
}

std::string label_of(const Plan& plan, const Gap& gap, std::size_t which) {
    const std::string base = "before-" + (gap.verdict != none ? plan.verdicts[gap.verdict].label
                                                              : plan.checks[gap.arrows.front().check].label + "-end");
    return which == 0 ? base : fmt::format("{}-{}", base, which + 1);
}

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

} // namespace

std::string written_closing(const Plan& plan, const Gap& gap, std::size_t which) {
    const Closing& closing = gap.closings[which];
    const Check& check = closing.check;
    const std::string red = written_point(plan.circuit, check.rows.front().red),
                      black = written_point(plan.circuit, check.rows.front().black);
    const bool drop = check.measure == MeasureKind::drop;
    std::string text =
        fmt::format("check {} \"{} from {} to {}\"\n", label_of(plan, gap, which), drop ? "Drop" : "Volts", red, black);
    if (const std::string with = with_words(plan, check.with); !with.empty())
        text += fmt::format("  with   {}\n", with);
    text += fmt::format("  {}  {} to {}\n  expect {}\n", drop ? "drop " : "volts", red, black,
                        written_limit(plan, check.limits.front()));
    text += fmt::format("  pass   -> {}\n",
                        which + 1 < gap.closings.size() ? label_of(plan, gap, which + 1) : target_words(plan, gap));
    std::string suspects;
    if (closing.named_by_run)
        suspects = fmt::format("{} to {}", red, black);
    else
        for (const Suspect& each : closing.named)
            suspects += (suspects.empty() ? "" : " ") + suspect_point(plan.circuit, each);
    return text + fmt::format("  fail   -> suspects {}\n", suspects);
}

std::string gaps_table(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis) {
    const std::vector<Gap> list = gaps(plan, sound, diagnosis, most_gaps);
    std::string text;
    for (std::size_t g = 0; g < std::min(list.size(), most_gaps); ++g) {
        const Gap& gap = list[g];
        text += fmt::format("{} of 100 cars may end at `-> {}` with something else: {}.\n", of_hundred(gap.likely),
                            target_words(plan, gap), names_of(plan, diagnosis, gap.faults));
        for (std::size_t c = 0; c < gap.closings.size(); ++c) {
            const Closing& closing = gap.closings[c];
            text += fmt::format("  This check tells {} ({:.0f} min more):\n\n",
                                names_of(plan, diagnosis, closing.closes), closing.minutes);
            const std::string check = written_closing(plan, gap, c);
            for (std::size_t begin = 0; begin < check.size();) {
                const std::size_t end = check.find('\n', begin);
                text += "    " + check.substr(begin, end + 1 - begin);
                begin = end + 1;
            }
            text += "\n";
        }
        if (!gap.closings.empty()) {
            std::vector<std::string> arrows;
            for (const Taken& arrow : gap.arrows)
                arrows.push_back(fmt::format("`{}` of {}", arrow_words(plan, arrow), plan.checks[arrow.check].label));
            text += fmt::format("  and let {} lead to {}.\n", list_words(arrows), label_of(plan, gap, 0));
        }
        if (!gap.unseen.empty())
            text += fmt::format(
                "  Not surely told by a drop or volts that was tried, in the set-ups of this plan: faults of {}.\n",
                names_of(plan, diagnosis, gap.unseen));
        text += "\n";
    }
    if (list.size() > most_gaps)
        text += fmt::format("and {} more places where a fault may end wrong\n", list.size() - most_gaps);
    return text;
}

} // namespace loomsheet
