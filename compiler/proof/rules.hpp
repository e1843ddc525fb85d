// The rules: each one function that takes the plan and adds what it finds. One family a file.
#pragma once
#include "model/plan.hpp"
#include "proof/doubt.hpp"
#include "faults/prediction.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

// Runs every rule, then takes out what `allow` accepts and reports allowances that nothing needed. `found` is what the
// stages before have found: it is handed back with the rest, allowances count for it too, and a rule that looks for
// what is missing keeps silent where something was left out because of it.
// The readings of a plan without errors are predicted, into `predicted` where it is asked for, and the limits that it left out are filled in.
Findings prove(Plan& plan, Findings found = {}, Prediction* predicted = nullptr);

// flow.cpp (LS3xx), wiring.cpp (LS4xx), setup.cpp (LS5xx) add their families; LS6xx stand in readings.hpp.
void prove_flow(const Plan& plan, const Doubt& doubt, Findings& findings);
void prove_wiring(const Plan& plan, const Doubt& doubt, Findings& findings);
void prove_setup(const Plan& plan, const Doubt& doubt, Findings& findings);
// put_in.cpp: LS310 of states that are not computed, LS710 and LS711, of a plan without errors.
void prove_put_in(const Plan& plan, const Predictor& sound, Findings& findings);

} // namespace loomsheet
