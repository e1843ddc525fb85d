// LS7xx: what the faults say against the plan's verdicts, and the summary that stands first.
#pragma once
#include "faults/diagnosis.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

void prove_verdicts(const Plan& plan, const Diagnosis& diagnosis, Findings& findings);
// The answer first: how much is found, what is missed, what does not hold; then figures, and parts.
std::string diagnosis_summary(const Diagnosis& diagnosis);

} // namespace loomsheet
