// The rules: each one function that takes the plan and adds what it finds. One family a file.
#pragma once
#include "model/plan.hpp"
#include "proof/doubt.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

// Runs every rule, then takes out what `allow` accepts and reports allowances that nothing needed. `found` is what the
// stages before have found: it is handed back with the rest, allowances count for it too, and a rule that looks for
// what is missing keeps silent where something was left out because of it.
Findings prove(Plan& plan, Findings found = {});

// flow.cpp (LS3xx), wiring.cpp (LS4xx), setup.cpp (LS5xx) add their families.
void prove_flow(const Plan& plan, const Doubt& doubt, Findings& findings);
void prove_wiring(const Plan& plan, const Doubt& doubt, Findings& findings);
void prove_setup(const Plan& plan, const Doubt& doubt, Findings& findings);

} // namespace loomsheet
