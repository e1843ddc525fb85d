// How much of what can fail a plan covers, and what it cannot tell apart, as text.
#pragma once
#include "faults/coverage.hpp"
#include <string>

namespace loomsheet {

std::string coverage_words(const Plan& plan, const Diagnosis& diagnosis);
std::string groups_words(const Plan& plan, const Diagnosis& diagnosis); // empty where every verdict leaves three at most

} // namespace loomsheet
