// What is computed, in the words of the sheet.
#pragma once
#include "circuit/reading.hpp"
#include "faults/coverage.hpp"
#include "model/plan.hpp"
#include "sheet/words/words.hpp"

namespace loomsheet {

// "11.9 .. 12.6 V", "open"
std::string told_range(const Wording& say, const Circuit& circuit, const RowPrediction& row, MeasureKind measure);
// "12.1 V (11.9 .. 12.6 V)"
std::string told_reading(const Wording& say, const Circuit& circuit, const RowPrediction& row, MeasureKind measure);
// The answers that a look may give: "yes", "no or fast rattle"
std::string told_seen(const Wording& say, const Check& check, const CheckPrediction& made);
// "below 0.3 V", "within 0.5 V of rest-volts"
std::string told_limit(const Wording& say, const Plan& plan, const Limit& limit);
// Of 100, in whole figures: "97", "less than 1"
std::string told_share(const Wording& say, double share);

} // namespace loomsheet
