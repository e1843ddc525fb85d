#include "sheet/card/cautions.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/layout/context.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/spot.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

bool always(const Plan&) { return true; }

bool can_move(const Plan& plan) {
    return std::any_of(plan.circuit.parts.begin(), plan.circuit.parts.end(),
                       [](const Part& part) { return part.kind == PartKind::motor || part.kind == PartKind::assembly; });
}

bool has_item(const Check& check, ItemKind kind) {
    return std::any_of(check.with.items.begin(), check.with.items.end(), [&](const SetupItem& item) { return item.kind == kind; });
}

bool some_check_has(const Plan& plan, ItemKind kind) {
    return std::any_of(plan.checks.begin(), plan.checks.end(), [&](const Check& check) { return has_item(check, kind); });
}

bool bridges_or_loads(const Plan& plan) { return some_check_has(plan, ItemKind::bridge) || some_check_has(plan, ItemKind::load); }

bool measures_ohms(const Check& check) { return check.measure == MeasureKind::ohms || check.measure == MeasureKind::continuity; }

bool some_check_measures_ohms(const Plan& plan) { return std::any_of(plan.checks.begin(), plan.checks.end(), measures_ohms); }

bool cranks(const Check& check) {
    return std::any_of(check.with.items.begin(), check.with.items.end(),
                       [](const SetupItem& item) { return item.kind == ItemKind::key && item.word == "crank"; });
}

// Either tip on the metal of a control unit that is not its supply or ground, or on the plug of one.
bool probes_module(const Plan& plan, const Check& check) {
    const Circuit& circuit = plan.circuit;
    const auto on_module = [&](const PointRef& point) {
        PinId pin = point.pin;
        if (pin == none) return false;
        PartId part = circuit.pins[pin].part;
        if (circuit.parts[part].kind == PartKind::connector) {
            pin = circuit.mate(pin);
            if (pin == none) return false;
            part = circuit.pins[pin].part;
        }
        const Part& owner = circuit.parts[part];
        const auto holds = [&](const std::vector<PinId>& pins) { return std::find(pins.begin(), pins.end(), pin) != pins.end(); };
        return owner.kind == PartKind::module && !holds(owner.supply_pins) && !holds(owner.ground_pins);
    };
    return std::any_of(check.rows.begin(), check.rows.end(), [&](const Row& row) { return on_module(row.red) || on_module(row.black); });
}

constexpr std::string_view practice = "common practice, no source";

constexpr CautionRow caution_table[] = {
    {Word::moving_lead, Word::moving_text, practice, can_move},
    {Word::hot_lead, Word::hot_text, practice, always},
    {Word::raised_lead, Word::raised_text, "29 CFR 1910.244(a)(2)(iii), from memory", always},
    {Word::battery_lead, Word::battery_text, "OSHA 1926.441 as summarised; order of the leads: common practice, no source", always},
    {Word::short_lead, Word::short_text, practice, bridges_or_loads},
    {Word::ohms_lead, Word::ohms_text, "meter makers' notes; common practice", some_check_measures_ohms},
    {Word::high_voltage_lead, Word::high_voltage_text,
     "limits of voltage: UN R100, from memory; qualified people: common practice, no source", always},
    {Word::maker_lead, Word::maker_text, practice, always},
};

constexpr CheckCautionRow check_rows[] = {
    {Word::caution_crank, practice, [](const Plan&, const Check& check) { return cranks(check); }},
    {Word::caution_engine, practice,
     [](const Plan&, const Check& check) { return has_item(check, ItemKind::engine_running) || has_item(check, ItemKind::engine_speed); }},
    {Word::caution_bridge, practice, [](const Plan&, const Check& check) { return has_item(check, ItemKind::bridge); }},
    {Word::caution_module, practice, probes_module},
};

} // namespace

std::span<const CautionRow> usual_cautions() { return caution_table; }
std::span<const CheckCautionRow> usual_check_cautions() { return check_rows; }

std::vector<std::string> cautions_of(const Wording& say, const Plan& plan, const Check& check) {
    std::vector<std::string> cautions;
    for (const Words& words : check.cautions)
        cautions.push_back(words.text);
    if (!cautions.empty()) return cautions; // the author's words count for this check
    for (const CheckCautionRow& row : check_rows)
        if (row.applies(plan, check)) cautions.push_back(say(row.text));
    return cautions;
}

} // namespace loomsheet
