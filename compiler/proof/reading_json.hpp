// What every check must read, for programs.
#pragma once
#include "faults/prediction.hpp"
#include <nlohmann/json_fwd.hpp>

namespace loomsheet {

// By check: its rows with their readings (V, A, ohm), how they stand to their limits and, of a drop, what flows along them; of a look
// what may be seen; the outcomes that such cars may have, as in the matrix and by their places in the plan.
nlohmann::ordered_json readings_json(const Plan& plan, const Prediction& prediction);

} // namespace loomsheet
