// Where a plan ends wrong, and the checks to paste that would close it, as text.
#pragma once
#include "faults/diagnosis.hpp"
#include <string>

namespace loomsheet {

std::string gaps_table(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis); // the worst `most_gaps`; empty: none

} // namespace loomsheet
