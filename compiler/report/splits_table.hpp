// Verdicts that leave several things to repair, and the checks to paste that part them, as text.
#pragma once
#include "faults/diagnosis.hpp"
#include <string>

namespace loomsheet {

std::string splits_table(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis); // the worst `most_splits`; empty: none

} // namespace loomsheet
