// Limits that are computed from the reading, where a plan leaves `expect` out or writes it wrong.
#pragma once
#include "faults/prediction.hpp"

namespace loomsheet {

// Rounded outward to what the meter shows; none where the reading is no number, nor open, nor yes or no.
std::optional<Limit> computed_limit(const Circuit& circuit, MeasureKind measure, const Reading& reading);
// The limit that was written, with the ends moved outward that a sound car misses, to figures that are easily read.
std::optional<Limit> widened_limit(const Circuit& circuit, MeasureKind measure, const Reading& reading, const Limit& limit);
// Writes them into the checks that have none, and into their prediction.
void fill_limits(Plan& plan, Prediction& prediction);

} // namespace loomsheet
