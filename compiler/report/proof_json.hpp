// All that is proved of a plan, for programs.
#pragma once
#include "faults/diagnosis.hpp"
#include <nlohmann/json_fwd.hpp>
#include <string>

namespace loomsheet {

// One object: id, title, figures, coverage, verdicts, checks, small_faults, faults, harmless, plan, usual, and `arrows` (as JSON) as they
// are handed in. Shares are of 1, readings in V, A and ohm, minutes in minutes; a check is named by its label, an outcome as in the matrix.
// grammar/LANGUAGE.md shows it.
std::string proof_json(const Plan& plan, const Predictor& sound, const Prediction& prediction, const Diagnosis& diagnosis,
                       const nlohmann::ordered_json& arrows);

} // namespace loomsheet
