// What is computed, in the words of the sheet.
#pragma once
#include "circuit/reading.hpp"
#include "model/plan.hpp"
#include "faults/coverage.hpp"

namespace loomsheet {

// "11.9 .. 12.6 V", "open"
std::string told_range(const Circuit& circuit, const RowPrediction& row, MeasureKind measure);
// "12.1 V (11.9 .. 12.6 V)"
std::string told_reading(const Circuit& circuit, const RowPrediction& row, MeasureKind measure);
// Of a look, its answers as they may be given: "yes", "no or fast rattle"
std::string told_seen(const Check& check, const CheckPrediction& made);
// "below 0.3 V", "within 0.5 V of rest-volts"
std::string told_limit(const Plan& plan, const Limit& limit);
// Of 100, in whole figures: "97", "less than 1"
std::string told_share(double share);

} // namespace loomsheet
