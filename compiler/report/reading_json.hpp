// What every check must read, for programs.
#pragma once
#include "faults/prediction.hpp"
#include <nlohmann/json_fwd.hpp>
#include <string>

namespace loomsheet {

// By check: its rows with their readings (V, A, ohm), how they stand to their limits and, of a drop, what flows along them; of a look
// what may be seen; the outcomes that such cars may have, as in the matrix and by their places in the plan.
nlohmann::ordered_json readings_json(const Plan& plan, const Prediction& prediction);
// One object: id, title, `fault` in words or null for a sound car, `blown`: fuses that are gone before the first check, `checks`.
std::string predict_json(const Plan& plan, const Predictor& car, const std::string& fault, const Prediction& prediction);

} // namespace loomsheet
