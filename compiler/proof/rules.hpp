// The rules: each one function that takes the plan and adds what it finds. One family a file.
#pragma once
#include "model/plan.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

// Runs every rule, then takes out what `allow` accepts and reports allowances that nothing needed.
Findings prove(Plan& plan);

// flow.cpp (LS3xx), wiring.cpp (LS4xx), setup.cpp (LS5xx) add their families.
void prove_flow(const Plan& plan, Findings& findings);
void prove_wiring(const Plan& plan, Findings& findings);
void prove_setup(const Plan& plan, Findings& findings);

} // namespace loomsheet
