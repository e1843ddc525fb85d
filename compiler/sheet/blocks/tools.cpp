// Tools and leads, worked out from the checks: a function for each tool.
#include "sheet/blocks/blocks.hpp"
#include "sheet/card/card.hpp"
#include "sheet/card/dial.hpp"
#include "sheet/card/tick_list.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/spot.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

using Tools = std::vector<std::string>;

void once(Tools& tools, std::string words) {
    if (std::find(tools.begin(), tools.end(), words) == tools.end()) tools.push_back(std::move(words));
}

template <class Test>
bool any_check(const Plan& plan, Test test) {
    return std::any_of(plan.checks.begin(), plan.checks.end(), test);
}

template <class Test>
bool any_item(const Plan& plan, Test test) {
    return any_check(plan, [&](const Check& check) { return std::any_of(check.with.items.begin(), check.with.items.end(), test); });
}

template <class Use>
void each_item(const Plan& plan, Use use) {
    for (const Check& check : plan.checks)
        for (const SetupItem& item : check.with.items)
            use(item);
}

// Each point that a tip goes to, with its set-up.
template <class Use>
void each_spot(const Plan& plan, Use use) {
    for (const Check& check : plan.checks) {
        if (check.measure == MeasureKind::clamp || check.measure == MeasureKind::amps) continue;
        for (const Row& row : check.rows)
            for (const PointRef* point : {&row.red, &row.black})
                use(check, row, *point);
    }
}

std::string own_row(const Wording& say, const Plan& plan, std::string_view function) {
    for (const MeterRow& row : plan.circuit.meters)
        if (row.function == function) return say(Word::within_figure, amount(say, row.within));
    return {};
}

void meter(const Wording& say, const Plan& plan, Tools& tools) {
    bool set = false, fine = false, ohms = false;
    for (const Check& check : plan.checks) {
        const Dial dial = dial_of(say, plan, check);
        const bool is_clamp = check.measure == MeasureKind::clamp;
        set = set || (dial.knob && !is_clamp);
        fine = fine || dial.fine;
        ohms = ohms || dial.function == "Ω";
    }
    if (!set) return;
    std::string words = say(fine ? Word::multimeter_fine : Word::multimeter);
    for (const char* function : {"volts", "ohms", "amps"})
        words += own_row(say, plan, function);
    tools.push_back(words);
    if (ohms) tools.push_back(say(Word::meter_battery));
}

void clamp(const Wording& say, const Plan& plan, Tools& tools) {
    if (any_check(plan, [](const Check& check) { return check.measure == MeasureKind::clamp || check.measure == MeasureKind::drop; }))
        tools.push_back(say(Word::clamp_tool) + own_row(say, plan, "clamp"));
}

void test_lamp(const Wording& say, const Plan& plan, Tools& tools) {
    if (any_check(plan, [](const Check& check) { return check.measure == MeasureKind::testlamp; }))
        tools.push_back(say(Word::test_lamp_tool));
}

void loads(const Wording& say, const Plan& plan, Tools& tools) {
    each_item(plan, [&](const SetupItem& item) {
        if (item.kind != ItemKind::load || !item.value) return;
        const bool lamp = item.value->unit && item.value->unit->dimension == Dimension::watt;
        once(tools, say(lamp ? Word::lamp_tool : Word::load_tool, amount(say, *item.value)));
    });
}

void bridges(const Wording& say, const Plan& plan, Tools& tools) {
    each_item(plan, [&](const SetupItem& item) {
        if (item.kind != ItemKind::bridge) return;
        once(tools, item.value ? say(Word::bridge_tool, amount(say, *item.value)) : say(Word::bridge_tool_plain));
    });
}

// Back-probe pins for what stays plugged in, test pins for what is probed from the front.
void pins(const Wording& say, const Plan& plan, Tools& tools) {
    bool behind = false, front = false;
    each_spot(plan, [&](const Check& check, const Row&, const PointRef& point) {
        const Spot spot = spot_of(say, plan.circuit, check.with, point, none);
        behind = behind || spot.metal == Word::wire_side;
        front = front || spot.metal == Word::from_front || spot.metal == Word::empty_socket;
    });
    if (behind) tools.push_back(say(Word::back_probe_tool));
    if (front) tools.push_back(say(Word::test_pin_tool));
}

void long_lead(const Wording& say, const Plan& plan, Tools& tools) {
    bool needed = false;
    each_spot(plan, [&](const Check&, const Row& row, const PointRef& point) {
        const PartId black = part_of(plan.circuit, row.black), red = part_of(plan.circuit, row.red);
        needed = needed || (&point == &row.black && black != none && black != red && plan.circuit.parts[black].kind == PartKind::battery);
    });
    if (needed) tools.push_back(say(Word::long_lead_tool));
}

void tester(const Wording& say, const Plan& plan, Tools& tools) {
    if (any_item(plan, [](const SetupItem& item) { return item.kind == ItemKind::output_on; })) tools.push_back(say(Word::tester_tool));
}

void gauges(const Wording& say, const Plan& plan, Tools& tools) {
    for (const Check& check : plan.checks)
        if (check.measure == MeasureKind::read) once(tools, check.look);
    if (any_item(plan, [](const SetupItem& item) {
            return item.kind == ItemKind::as_found || (item.kind == ItemKind::at_value && item.value && item.value->unit &&
                                                       item.value->unit->dimension == Dimension::temperature);
        }))
        tools.push_back(say(Word::thermometer_tool));
}

void panels(const Wording& say, const Plan& plan, Tools& tools) {
    std::vector<std::string> names;
    for (const Check& check : plan.checks)
        for (const PanelId id : panels_for(plan.circuit, check)) {
            const Panel& panel = plan.circuit.panels[id];
            once(names, panel.name.empty() ? panel.label : panel.name);
        }
    if (names.empty()) return;
    tools.push_back(say(Word::panel_tool, join(names)));
    tools.push_back(say(Word::stands_tool));
}

// Somebody holds what is pressed, moved or cranked while somebody reads.
void helper(const Wording& say, const Plan& plan, Tools& tools) {
    if (any_check(plan, needs_helper)) tools.push_back(say(Word::helper_tool));
}

constexpr void (*tool_table[])(const Wording&, const Plan&, Tools&) = {meter,     clamp,  test_lamp, loads,  bridges, pins,
                                                                       long_lead, tester, gauges,    panels, helper};

} // namespace

Block tools_block(LayoutContext& context) {
    Tools tools;
    for (const auto row : tool_table)
        row(context.say, context.plan, tools);
    Block block;
    block.title = block_title(context, context.say(Word::tools), context.say(Word::tools_note));
    block.rows = tick_list(context, tools, "tool");
    return block;
}

} // namespace loomsheet
