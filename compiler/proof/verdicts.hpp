// LS7xx: what the faults say against the plan's verdicts. What `allow` accepts is left out, and an allowance that
// nothing needs is told (LS312).
#pragma once
#include "faults/diagnosis.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

void prove_verdicts(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, Findings& findings);

} // namespace loomsheet
