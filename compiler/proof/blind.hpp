// LS709: a check that passes what harms. And the table of how small a fault is seen.
#pragma once
#include "faults/smallest.hpp"
#include "source/diagnostic.hpp"
#include <string>

namespace loomsheet {

void prove_blind(const Plan& plan, const Diagnosis& diagnosis, Findings& findings);
// "joint | harmful from | seen from": what is seen later than it harms, worst first; the rest is counted.
std::string smallest_table(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis);
// "0.4 ohm", "80 mohm"
std::string added_words(double ohms);

} // namespace loomsheet
