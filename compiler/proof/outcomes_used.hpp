// LS703, LS704, LS705: outcomes, checks and verdicts that no car comes to. One cause is said once, where it begins.
#pragma once
#include "proof/witness.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

// What fails in more ways than are tried: a control unit, a sensor that drifts, what is not electrical.
bool fails_otherwise(PartKind kind);
void prove_outcomes_used(const Plan& plan, const Diagnosis& diagnosis, const Witness& witness, Findings& findings);

} // namespace loomsheet
