// Which outcomes of a check cars of a kind may have: all that their readings and sights can come to.
#pragma once
#include "faults/outcome.hpp"
#include "faults/prediction.hpp"
#include <functional>

namespace loomsheet {

// Says no where a row cannot come to an answer for a reason beyond its own range.
using Possible = std::function<bool(std::size_t row, Answer)>;

// A check has no more than 62 outcomes that count; a reading that is not computed may have every one.
OutcomeSet outcomes_of(const Check& check, const CheckPrediction& made, const Possible& possible = {});

} // namespace loomsheet
