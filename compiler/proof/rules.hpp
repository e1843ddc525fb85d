// The rules: each one function that takes the plan and adds what it finds. One family a file.
#pragma once
#include "faults/prediction.hpp"
#include "model/plan.hpp"
#include "proof/doubt.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

// What form and names have not found: LS3xx to LS5xx. `findings` has what was found before; a rule that looks for what is missing
// keeps silent where something was left out because of it.
void prove_form(const Plan& plan, Findings& findings);
// flow.cpp (LS3xx), wiring.cpp (LS4xx), setup.cpp (LS5xx) add their families; LS6xx stand in readings.hpp.
void prove_flow(const Plan& plan, const Doubt& doubt, Findings& findings);
void prove_wiring(const Plan& plan, const Doubt& doubt, Findings& findings);
void prove_setup(const Plan& plan, const Doubt& doubt, Findings& findings);
// put_in.cpp: LS310 of states that are not computed, LS710 and LS711, of a plan without errors.
void prove_put_in(const Plan& plan, const Predictor& sound, Findings& findings);

} // namespace loomsheet
