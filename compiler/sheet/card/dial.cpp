#include "sheet/card/dial.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/limit.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

struct Range {
    double up_to;
    std::string_view words;
};
// 3 1/2 digits: up to 1.999 of a range. The 2 V range reads 0.001 V and is asked for below 1 V, because 0.1 V on the 20
// V range is a fifth uncertain (computed in trade data, section 7).
constexpr Range volt_ranges[] = {{1, "2 V"}, {20, "20 V"}, {200, "200 V"}, {1000, "1000 V"}};
constexpr Range ohm_ranges[] = {{200, "200 Ω"}, {2e3, "2 kΩ"}, {2e4, "20 kΩ"}, {2e5, "200 kΩ"}, {2e6, "2 MΩ"}, {2e7, "20 MΩ"}};
constexpr Range ampere_ranges[] = {{0.2, "200 mA"}, {10, "10 A"}};

// Leads have 0.2 to 0.5 ohm of their own (trade data, section 7): they matter below this.
constexpr double lead_matters_below = 10;

template <std::size_t count>
std::string_view range_for(const Range (&ranges)[count], double value) {
    for (const Range& range : ranges)
        if (value < range.up_to) return range.words;
    return ranges[count - 1].words;
}

// The greatest figure of the limits, in SI; nothing when none is written.
std::optional<double> greatest(const Plan& plan, const Check& check) {
    std::optional<double> most;
    const auto take = [&](const MaybeQuantity& value) {
        if (value) most = std::max(most.value_or(0), std::abs(value->si));
    };
    for (const Limit* limit : limits_of(check)) {
        if (limit->kind == LimitKind::within) {
            if (limit->reference == none) continue;
            for (const Limit* other : limits_of(plan.checks[limit->reference]))
                take(other->low), take(other->high);
            continue;
        }
        take(limit->low);
        take(limit->high);
    }
    return most;
}

// Ohms that the circuit states between the two points, for a check that leaves its limit out.
std::optional<double> stated_ohms(const Circuit& circuit, const Check& check) {
    for (const Row& row : check.rows)
        for (const Part& part : circuit.parts)
            for (const Element& element : part.elements) {
                const bool there =
                    (element.a == row.red.pin && element.b == row.black.pin) || (element.a == row.black.pin && element.b == row.red.pin);
                if (there && row.red.pin != none && element.value && element.value->unit &&
                    element.value->unit->dimension == Dimension::ohm)
                    return element.value->high();
            }
    return std::nullopt;
}

std::string unit_of(const Wording& say, const Check& check, std::string usual) {
    for (const Limit* limit : limits_of(check)) {
        if (limit->high) return unit(say, *limit->high);
        if (limit->low) return unit(say, *limit->low);
    }
    return usual;
}

Dial meter(const Wording& say, std::string function, Symbol symbol, std::string words, std::string unit) {
    Dial dial;
    dial.function = std::move(function);
    dial.symbol = symbol;
    dial.words = std::move(words);
    dial.unit = std::move(unit);
    dial.caption = say(Word::reading);
    return dial;
}

Dial no_meter(const Wording& say, Word words, Word caption) {
    Dial dial;
    dial.knob = false;
    dial.words = say(words);
    dial.caption = say(caption);
    return dial;
}

Dial volts(const Wording& say, const Plan& plan, const Check& check) {
    const double usual = check.measure == MeasureKind::drop ? 0.5 : system_volts(plan);
    const double most = greatest(plan, check).value_or(usual);
    const bool alternating = check.measure == MeasureKind::volts_ac;
    Dial dial = meter(say, "V", alternating ? Symbol::alternating : Symbol::direct, say(Word::on_range, range_for(volt_ranges, most)),
                      unit_of(say, check, "V"));
    dial.fine = most < volt_ranges[0].up_to;
    dial.current_blank = check.measure == MeasureKind::drop;
    return dial;
}

Dial ohms(const Wording& say, const Plan& plan, const Check& check) {
    std::optional<double> most = greatest(plan, check);
    if (!most) most = stated_ohms(plan.circuit, check);
    Dial dial = meter(say, "Ω", Symbol::bare, most ? say(Word::on_range, range_for(ohm_ranges, *most)) : say(Word::range_down),
                      unit_of(say, check, "Ω"));
    dial.lead_blank = most && *most < lead_matters_below;
    return dial;
}

Dial amperes(const Wording& say, const Plan& plan, const Check& check) {
    const std::optional<double> most = greatest(plan, check);
    return meter(say, "A", Symbol::direct, most ? say(Word::on_range, range_for(ampere_ranges, *most)) : say(Word::on_range, "10 A"),
                 unit_of(say, check, "A"));
}

Dial clamp(const Wording& say, const Check& check) {
    Dial dial = meter(say, "A", Symbol::direct, say(Word::clamp_meter), unit_of(say, check, "A"));
    dial.remark = say(Word::clamp_zero);
    return dial;
}

} // namespace

Dial dial_of(const Wording& say, const Plan& plan, const Check& check) {
    switch (check.measure) {
    case MeasureKind::volts:
    case MeasureKind::volts_ac:
    case MeasureKind::drop: return volts(say, plan, check);
    case MeasureKind::ohms: return ohms(say, plan, check);
    case MeasureKind::continuity: {
        Dial dial = meter(say, "Ω", Symbol::bare, say(Word::beeper), "");
        dial.caption = say(Word::heard);
        return dial;
    }
    case MeasureKind::amps: return amperes(say, plan, check);
    case MeasureKind::clamp: return clamp(say, check);
    case MeasureKind::testlamp: return no_meter(say, Word::test_lamp, Word::seen);
    case MeasureKind::read: {
        Dial dial = no_meter(say, Word::own_gauge, Word::reading);
        dial.unit = unit_of(say, check, "");
        return dial;
    }
    case MeasureKind::look:
    case MeasureKind::nothing: break;
    }
    return no_meter(say, Word::no_meter, Word::seen);
}

} // namespace loomsheet
