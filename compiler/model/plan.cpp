#include "model/plan.hpp"

namespace loomsheet {

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

} // namespace loomsheet
