// What every check of a plan must read: on sound cars, or with a fault put in.
#pragma once
#include "circuit/reading.hpp"
#include "model/plan.hpp"

namespace loomsheet {

// How the limits of a row stand against its reading.
enum class Fit : std::uint8_t {
    unknown,    // nothing to compare: no limit, or `not computed`, or nothing predicted
    passes,     // every car of this kind is within
    may_miss,   // some are within, some not
    fails,      // none is within
};

struct RowPrediction {
    Reading reading;
    std::optional<Reading> difference; // `within … of`: this reading minus the earlier one
    std::optional<Limit> limit;        // that counts for the row
    Fit fit = Fit::unknown;
};
struct CheckPrediction {
    std::vector<RowPrediction> rows; // as the check's
    Truth look = Truth::unknown;     // of a look: whether its pass holds
    std::vector<Truth> answers;      // by outcome: whether its states hold; unknown where it has none
    bool may_chatter = false;        // of a look: some cars come to no rest
    Truth other = Truth::unknown;    // whether something holds that neither the pass nor an answer names
};
using Prediction = std::vector<CheckPrediction>; // by check

Prediction predict(const Plan& plan, const Predictor& car);
CheckPrediction predict_check(const Plan& plan, const Predictor& car, const Check& check);
// As far as outcomes hang on it: where a difference counts, no value of the reading itself.
CheckPrediction predict_for_outcome(const Plan& plan, const Predictor& car, const Check& check);
Truth hold(const Predictor& car, const Setup& setup, const States& states);
// Every set-up in which the car is used before anybody looks for the fault: nothing unplugged, pulled or bridged.
std::vector<Setup> normal_use(const Plan& plan);
Fit fit_of(const Reading& reading, const Limit& limit);

} // namespace loomsheet
