// What is up and what is down in a drawing: the share of the supply that each pin has when every contact is closed in
// all its throws and everything draws its usual current. Rough ohms do: only their order is asked for.
#pragma once
#include "model/circuit.hpp"
#include <vector>

namespace loomsheet::drawing {

// By pin. 1 is the battery's plus, 0 the grounds; pins that nothing feeds are 0.
std::vector<double> volts_of_pins(const Circuit& circuit);

} // namespace loomsheet::drawing
