#include "model/plan.hpp"
#include "grammar/rows.hpp"
#include <algorithm>

namespace loomsheet {

namespace {
struct StateRow {
    std::string_view word = {};
    bool when_nothing = false, when_poorly = false, when_well = false; // whether it shows that; chattering is no rest
};
constexpr StateRow state_row(StateVerb verb) {
    switch (verb) {
    case StateVerb::still: return {.word = "still", .when_nothing = true};
    case StateVerb::runs: return {.word = "runs", .when_well = true};
    case StateVerb::slow: return {.word = "slow", .when_poorly = true};
    case StateVerb::runs_to: return {.word = "runs", .when_well = true}; // its direction is seen apart
    case StateVerb::dark: return {.word = "dark", .when_nothing = true};
    case StateVerb::dim: return {.word = "dim", .when_poorly = true};
    case StateVerb::lit: return {.word = "lit", .when_well = true};
    case StateVerb::works: return {.word = "works", .when_well = true};
    case StateVerb::chatters: return {.word = "chatters"};
    case StateVerb::whole: return {.word = "whole", .when_well = true};
    case StateVerb::blown: return {.word = "blown", .when_nothing = true};
    case StateVerb::fails: return {.word = "fails", .when_nothing = true, .when_poorly = true};
    }
    return {};
}
constexpr auto state_rows = all_rows<StateVerb, state_row>();
} // namespace

std::string_view state_word(StateVerb verb) { return state_rows[static_cast<std::size_t>(verb)].word; }

StateVerb state_verb(std::string_view word) {
    const auto found = std::find_if(state_rows.begin(), state_rows.end(), [word](const StateRow& row) { return row.word == word; });
    return static_cast<StateVerb>(found - state_rows.begin());
}

bool shows(StateVerb verb, Doing doing) {
    const StateRow& row = state_rows[static_cast<std::size_t>(verb)];
    return doing == Doing::nothing ? row.when_nothing : doing == Doing::poorly ? row.when_poorly : row.when_well;
}

double system_volts(const Plan& plan) {
    if (plan.system) return plan.system->si;
    for (const Part& part : plan.circuit.parts)
        if (part.kind == PartKind::battery && !part.gives.empty()) return part.gives.front().value.si > 18 ? 24 : 12;
    return 12;
}

const Limit* limit_of(const Check& check, const std::string& row) {
    const Limit* for_all = nullptr;
    for (const Limit& limit : check.limits) {
        if (!row.empty() && limit.row == row) return &limit;
        if (limit.row.empty()) for_all = &limit;
    }
    return for_all;
}

Quantity ohms_between(double low, double high) {
    Quantity made;
    made.si = (low + high) / 2, made.plus_minus = (high - low) / 2;
    made.unit = find_unit("ohm");
    return made;
}

std::string written_point(const Circuit& circuit, const PointRef& point) {
    if (point.metal == Metal::body) return "ground";
    if (point.wire != none) return circuit.wires[point.wire].id;
    if (!point.pins.empty()) {
        std::string words = circuit.parts[point.part].id + ".";
        for (std::size_t i = 0; i < point.pins.size(); ++i)
            words += (i ? "/" : "") + circuit.pins[point.pins[i]].name;
        return words;
    }
    if (point.pin == none) return point.part == none ? std::string() : circuit.parts[point.part].id;
    const std::string pin = circuit.pin_name(point.pin);
    return point.metal == Metal::part ? "part " + pin : point.metal == Metal::joint ? "joint " + pin : pin;
}

} // namespace loomsheet
