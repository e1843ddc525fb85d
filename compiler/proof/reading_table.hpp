// Readings in words: for tables, and for messages.
#pragma once
#include "faults/prediction.hpp"
#include <string>

namespace loomsheet {

// The finest step that is printed: no more than two places, the third is noise on paper; but against a limit of some
// hundredths it counts.
inline constexpr double usual_finest = 0.01;
double finest_step(const std::optional<Limit>& limit);
// The last place that is worth printing at this value: V, ohm, A.
double shown_step(const Circuit& circuit, double value, MeasureKind measure, double finest = usual_finest);
// "12.6 V", "0.85 V", "85.3 ohm", "22 A": to the last place that the meter shows, by `step`.
std::string value_words(double value, double step, MeasureKind measure);
// "11.9 .. 12.4 V", "open", "lit", "floats", "chatters"
std::string range_words(const Circuit& circuit, const Reading& reading, MeasureKind measure, double finest = usual_finest);
// "12.1 V (11.9 .. 12.4 V)"
std::string reading_words(const Circuit& circuit, const Reading& reading, MeasureKind measure, double finest = usual_finest);
// "11.5 .. 12.8 V", "below 0.3 V", "within 0.8 V of battery-rest": as a plan writes it.
std::string written_limit(const Plan& plan, const Limit& limit);
// Of a look, its answers as they may be given: "yes", "no or \"fast rattle\"".
struct SeenWords {
    std::string yes = "yes", no = "no", between = " or ", not_computed = "not computed", quote = "\"";
};
std::string seen_words(const Check& check, const CheckPrediction& made, const SeenWords& say = {});
std::string fit_words(Fit fit);

// Check, points, reading, limits, fit: a line a row.
std::string reading_table(const Plan& plan, const Prediction& prediction);

} // namespace loomsheet
