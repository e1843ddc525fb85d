// What every check of a plan must read: on sound cars, or with a fault put in.
#pragma once
#include "circuit/reading.hpp"
#include "faults/outcome.hpp"
#include "model/plan.hpp"
#include "source/stop.hpp"

namespace loomsheet {

// How the limits of a row stand against its reading.
enum class Fit : std::uint8_t {
    unknown,  // nothing to compare: no limit, or `not computed`, or nothing predicted
    passes,   // every car of this kind is within
    may_miss, // some are within, some not
    fails,    // none is within
};

struct RowPrediction {
    Reading reading;
    std::string name;                  // that limits and outcomes know it by: of its row, or of the part of `one of` that is pulled
    std::optional<Reading> difference; // `within … of`: this reading minus the earlier one
    std::optional<Limit> limit;        // that counts for the row
    Fit fit = Fit::unknown;

    const Reading& compared() const { return difference ? *difference : reading; }
};
// One after the other: the parts of `one of`, and the ends of what is moved.
struct TurnPrediction {
    PartId pulled = none;
    std::vector<RowPrediction> rows;
};
struct CheckPrediction {
    std::vector<RowPrediction> rows;   // as the check's: all its turns together
    std::vector<TurnPrediction> turns; // one at least; none of a look
    OutcomeSet seen = 0;               // of a look: the outcomes that its sights lead to
    OutcomeSet rattles = 0;            // those of them that a car has which comes to no rest
    Truth look = Truth::unknown;       // of a look: whether its pass holds
};
using Prediction = std::vector<CheckPrediction>; // by check

Prediction predict(const Plan& plan, const Predictor& car, const Stop& stop = {});
CheckPrediction predict_check(const Plan& plan, const Predictor& car, const Check& check);
// As far as outcomes hang on it: where a difference counts, no value of the reading itself.
CheckPrediction predict_for_outcome(const Plan& plan, const Predictor& car, const Check& check);
Truth hold(const Predictor& car, const Setup& setup, const States& states);
// Every set-up in which the car is used before anybody looks for the fault: nothing unplugged, pulled or bridged.
std::vector<Setup> normal_use(const Plan& plan);

// The cases of the check that cars with this reading may be in.
std::vector<ReadCase> fits_of(const Check& check, const RowPrediction& row);
Fit fit_of(const Check& check, const RowPrediction& row);
// Against a limit that no check has.
Fit fit_of(const Reading& reading, const Limit& limit, MeasureKind measure);

} // namespace loomsheet
