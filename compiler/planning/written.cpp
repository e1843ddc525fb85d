#include "planning/written.hpp"
#include "circuit/fault.hpp"
#include "model/change.hpp"
#include "proof/reading_table.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

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
        return fmt::format("load {} across {} to {}", item.value ? item.value->written : std::string(), written_point(circuit, item.a),
                           written_point(circuit, item.b));
    case ItemKind::engine_speed: // `can_be_used` in new_checks.cpp takes none of these
    case ItemKind::at_value:
    case ItemKind::as_found:
    case ItemKind::moved:
    case ItemKind::one_of_pulled:
    case ItemKind::words: break;
    }
    return fmt::format("\"{}\"", item.word);
}

// By its label where the plan has one.
std::string with_words(const Plan& plan, const Setup& setup) {
    for (const NamedSetup& named : plan.setups)
        if (std::equal(named.setup.items.begin(), named.setup.items.end(), setup.items.begin(), setup.items.end(),
                       [](const SetupItem& a, const SetupItem& b) { return !a.across_points && same_subject(a, b) && same_state(a, b); }))
            return named.label;
    std::string words;
    for (const SetupItem& item : setup.items)
        words += (words.empty() ? "" : ", ") + item_words(plan.circuit, item);
    return words;
}

} // namespace

std::string written_check(const Plan& plan, const std::string& label, const Check& check, const std::string& pass,
                          const std::string& fail) {
    const std::string red = written_point(plan.circuit, check.rows.front().red),
                      black = written_point(plan.circuit, check.rows.front().black);
    const bool drop = check.measure == MeasureKind::drop;
    std::string text = fmt::format("check {} \"{} from {} to {}\"\n", label, drop ? "Drop" : "Volts", red, black);
    if (const std::string with = with_words(plan, check.with); !with.empty()) text += fmt::format("  with   {}\n", with);
    text += fmt::format("  {}  {} to {}\n  expect {}\n", drop ? "drop " : "volts", red, black, written_limit(plan, check.limits.front()));
    return text + fmt::format("  pass   -> {}\n  fail   -> {}\n", pass, fail);
}

std::string indented(const std::string& lines) {
    std::string text;
    for (std::size_t begin = 0; begin < lines.size();) {
        const std::size_t end = std::min(lines.find('\n', begin), lines.size() - 1);
        text += "    " + lines.substr(begin, end + 1 - begin);
        begin = end + 1;
    }
    return text;
}

std::string target_words(const Plan& plan, const Gap& gap) {
    if (gap.verdict != none) return plan.verdicts[gap.verdict].label;
    const Target* target = target_of(plan.checks[gap.arrows.front().check], gap.arrows.front().outcome);
    if (!target || target->kind == TargetKind::done) return "done";
    std::string words = "suspects";
    for (const PointRef& point : target->run)
        words += fmt::format("{}{}", target->run_is_span && words != "suspects" ? " to " : " ", written_point(plan.circuit, point));
    return words;
}

std::string closing_label(const Plan& plan, const Gap& gap, std::size_t which) {
    const std::string base =
        "before-" + (gap.verdict != none ? plan.verdicts[gap.verdict].label : plan.checks[gap.arrows.front().check].label + "-end");
    return which == 0 ? base : fmt::format("{}-{}", base, which + 1);
}

std::string written_closing(const Plan& plan, const Gap& gap, std::size_t which) {
    const Closing& closing = gap.closings[which];
    std::string suspects = "suspects";
    const Row& row = closing.check.rows.front();
    if (closing.named_by_run)
        suspects += fmt::format(" {} to {}", written_point(plan.circuit, row.red), written_point(plan.circuit, row.black));
    else
        for (const Suspect& each : closing.named)
            suspects += " " + suspect_point(plan.circuit, each);
    return written_check(plan, closing_label(plan, gap, which), closing.check,
                         which + 1 < gap.closings.size() ? closing_label(plan, gap, which + 1) : target_words(plan, gap), suspects);
}

std::string written_split(const Plan& plan, const Split& split) {
    const std::string& verdict = plan.verdicts[split.left.verdict].label;
    std::string suspects = "suspects";
    for (const Suspect& each : split.failing)
        suspects += " " + suspect_point(plan.circuit, each);
    return written_check(plan, "split-" + verdict, *split.check, verdict, suspects);
}

} // namespace loomsheet
