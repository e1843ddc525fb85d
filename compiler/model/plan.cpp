#include "model/plan.hpp"

namespace loomsheet {

bool shows(StateVerb verb, Doing doing) {
    switch (verb) {
    case StateVerb::still:
    case StateVerb::dark:
    case StateVerb::blown: return doing == Doing::nothing;
    case StateVerb::slow:
    case StateVerb::dim: return doing == Doing::poorly;
    case StateVerb::runs:
    case StateVerb::runs_to: // its direction is seen apart
    case StateVerb::lit:
    case StateVerb::works:
    case StateVerb::whole: return doing == Doing::well;
    case StateVerb::fails: return doing != Doing::well;
    case StateVerb::chatters: break; // that is no rest
    }
    return false;
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
