// LS6xx: what the readings say against a plan. readings.cpp looks at a row's reading and its limits, readings_way.cpp at where
// current flows round it, readings_use.cpp at what wires and fuses carry in use.
#pragma once
#include "faults/prediction.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

void prove_readings(const Plan& plan, const Predictor& sound, const Prediction& prediction, Findings& findings);

// LS607, LS608, LS611, LS613. True where something was said about an ohms reading, so that its limits need no more.
bool prove_way(const Plan& plan, const Predictor& sound, const Check& check, const Row& row, const RowPrediction& made, Findings& findings);
// LS617, LS618.
void prove_use(const Plan& plan, const Predictor& sound, Findings& findings);

} // namespace loomsheet
