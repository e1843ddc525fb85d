#include "proof/reading_table.hpp"
#include "circuit/fault.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace loomsheet {
namespace {

std::string figure_words(double value, double step) {
    const int places = step < 1 ? static_cast<int>(std::ceil(-std::log10(step) - 1e-9)) : 0;
    const double shown = std::round(value / step) * step;
    std::string text = fmt::format("{:.{}f}", shown == 0 ? 0.0 : shown, places);
    if (places > 1 && text.back() == '0') text.pop_back(); // 12.50 is 12.5, and 12.00 is 12.0
    return text;
}

std::string points_words(const Plan& plan, const Check& check, const Row& row) {
    const std::string red = written_point(plan.circuit, row.red);
    const std::string points =
        row_of(check.measure).two_points ? fmt::format("{} to {}", red, written_point(plan.circuit, row.black)) : red;
    return row.name.empty() ? points : fmt::format("{}: {}", row.name, points);
}

} // namespace

double shown_step(const Circuit& circuit, double value, MeasureKind measure, double finest) {
    return std::max(meter_for(circuit, shown_as(measure)).step(value), finest);
}

double finest_step(const std::optional<Limit>& limit) {
    constexpr double small = 0.1; // V, A: a limit below it is held to by thousandths
    const double low = limit && limit->low ? std::abs(limit->low->si) : 0, high = limit && limit->high ? std::abs(limit->high->si) : 0;
    const double size = std::max(low, high);
    return size > 0 && size < small ? 0.001 : usual_finest;
}

std::string value_words(double value, double step, MeasureKind measure) {
    return fmt::format("{} {}", figure_words(value, step), shown_unit(measure));
}

std::string range_words(const Circuit& circuit, const Reading& reading, MeasureKind measure, double finest) {
    switch (reading.kind) {
    case ReadingKind::number: break;
    case ReadingKind::open: return "open";
    case ReadingKind::floating: return "floats";
    case ReadingKind::yes: return measure == MeasureKind::testlamp ? "lit" : "beeps";
    case ReadingKind::no: return measure == MeasureKind::testlamp ? "dark" : "silent";
    case ReadingKind::unsure: return "may be either";
    case ReadingKind::chatters: return "chatters";
    case ReadingKind::history: return "hangs on what was before";
    case ReadingKind::beyond: return "not computed";
    }
    const double size = std::max(std::abs(reading.low), std::abs(reading.high));
    const double step = shown_step(circuit, size, measure, finest);
    const bool to_the_end = reading.may_be_open && reading.high >= display_end_ohms;
    if (to_the_end)
        return fmt::format("{} or more, or open", value_words(rounded_down(reading.low, shown_step(circuit, reading.low, measure, finest)),
                                                              shown_step(circuit, reading.low, measure, finest), measure));
    return fmt::format("{} .. {}{}", figure_words(rounded_down(reading.low, step), step),
                       value_words(rounded_up(reading.high, step), step, measure), reading.may_be_open ? " or open" : "");
}

std::string reading_words(const Circuit& circuit, const Reading& reading, MeasureKind measure, double finest) {
    if (reading.kind != ReadingKind::number) return range_words(circuit, reading, measure, finest);
    return fmt::format("{} ({})", value_words(reading.value, shown_step(circuit, reading.value, measure, finest), measure),
                       range_words(circuit, reading, measure, finest));
}

std::string written_limit(const Plan& plan, const Limit& limit) {
    const auto amount = [](const MaybeQuantity& quantity) { // Ω as one types it
        std::string text = quantity ? quantity->written : std::string();
        if (const auto at = text.find("Ω"); at != std::string::npos) text.replace(at, std::string_view("Ω").size(), "ohm");
        return text;
    };
    switch (limit.kind) {
    case LimitKind::range: {
        const std::string low = amount(limit.low), high = amount(limit.high); // the unit once, where it is one
        const auto unit = low.find(' ');
        const bool same = unit != std::string::npos && high.find(low.substr(unit)) != std::string::npos;
        return fmt::format("{} .. {}", same ? low.substr(0, unit) : low, high);
    }
    case LimitKind::below: return "below " + amount(limit.high);
    case LimitKind::above: return "above " + amount(limit.low);
    case LimitKind::open: return "open";
    case LimitKind::yes: return "yes";
    case LimitKind::no: return "no";
    case LimitKind::within:
        return fmt::format("within {} of {}", amount(limit.high),
                           limit.reference == none ? std::string("?") : plan.checks[limit.reference].label);
    }
    return {};
}

std::string seen_words(const Check& check, const CheckPrediction& made, const SeenWords& say) {
    if (made.look == Truth::unknown && made.seen == every_outcome(check)) return say.not_computed;
    std::vector<std::string> words;
    for (std::size_t i = 0; i <= check.outcomes.size(); ++i) {
        if ((made.seen & outcome_bit(i)) == 0) continue;
        const OutcomeKind kind = i < check.outcomes.size() ? check.outcomes[i].kind : OutcomeKind::fail;
        words.push_back(kind == OutcomeKind::pass   ? say.yes
                        : kind == OutcomeKind::fail ? say.no
                                                    : say.quote + check.outcomes[i].answer + say.quote);
    }
    return fmt::format("{}", fmt::join(words, say.between));
}

std::string fit_words(Fit fit) {
    switch (fit) {
    case Fit::passes: return "passes";
    case Fit::may_miss: return "may miss";
    case Fit::fails: return "fails";
    case Fit::unknown: break;
    }
    return "";
}

std::string reading_table(const Plan& plan, const Prediction& prediction) {
    std::vector<std::vector<std::string>> lines{{"check", "points", "must read", "limits", ""}};
    for (std::size_t i = 0; i < plan.checks.size(); ++i) {
        const Check& check = plan.checks[i];
        const CheckPrediction& made = prediction[i];
        if (check.measure == MeasureKind::look) {
            lines.push_back({check.label, "look", seen_words(check, made), "", ""});
            continue;
        }
        for (std::size_t r = 0; r < check.rows.size(); ++r) {
            const RowPrediction& row = made.rows[r];
            std::string limit = row.limit ? written_limit(plan, *row.limit) : "";
            std::string reads = reading_words(plan.circuit, row.reading, check.measure, finest_step(row.limit));
            if (check.measure == MeasureKind::drop && row.reading.kind == ReadingKind::number)
                reads += fmt::format(" at {}",
                                     value_words(row.reading.carried, shown_step(plan.circuit, row.reading.carried, MeasureKind::clamp),
                                                 MeasureKind::clamp));
            if (row.difference)
                limit += fmt::format(" (differs by {})", range_words(plan.circuit, *row.difference, check.measure, finest_step(row.limit)));
            lines.push_back({r == 0 ? check.label : "", points_words(plan, check, check.rows[r]), reads, limit, fit_words(row.fit)});
        }
    }
    return laid_out(lines);
}

} // namespace loomsheet
