#include "proof/rules.hpp"
#include "proof/allow.hpp"
#include "proof/computed.hpp"
#include "proof/readings.hpp"

namespace loomsheet {

Findings prove(Plan& plan, Findings found, Prediction* predicted) {
    const Doubt doubt = doubt_of(plan, found);
    prove_flow(plan, doubt, found);
    prove_wiring(plan, doubt, found);
    prove_setup(plan, doubt, found);
    if (!found.has_errors() && !plan.broken) {
        const Predictor sound(plan.circuit, system_volts(plan));
        Prediction prediction = predict(plan, sound);
        prove_readings(plan, sound, prediction, found);
        prove_put_in(plan, sound, found);
        fill_limits(plan, prediction);
        if (predicted) *predicted = std::move(prediction);
    }
    apply_allowances(plan, found, Family::compiled);
    found.sort();
    return found;
}

} // namespace loomsheet
