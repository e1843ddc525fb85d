// What a plan finds and misses, in words: the answer in one sentence, then figures, parts and verdicts.
#pragma once
#include "faults/diagnosis.hpp"
#include <string>

namespace loomsheet {

std::string diagnosis_summary(const Plan& plan, const Diagnosis& diagnosis);

} // namespace loomsheet
