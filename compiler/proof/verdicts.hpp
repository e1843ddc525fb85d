// LS7xx: what the faults say against the plan's verdicts. What `allow` accepts is left out, and an allowance that
// nothing needs is told (LS312).
#pragma once
#include "proof/witness.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

void prove_verdicts(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, Findings& findings);

// outcomes_used.cpp: LS703, LS704, LS705, of outcomes, checks and verdicts that no car comes to. One cause is said once, where it begins.
void prove_outcomes_used(const Plan& plan, const Diagnosis& diagnosis, const Witness& witness, Findings& findings);
// What fails in more ways than are tried, so that no reading clears it: a control unit, a sensor that drifts, what is not electrical; and
// where a reading that is too high may lead, a battery or an alternator: what it gives too much is not tried.
bool fails_otherwise(const Plan& plan, int verdict, const PointRef& blamed);

} // namespace loomsheet
