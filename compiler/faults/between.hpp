// What a run takes in: `blames A to B`, `suspects A to B`.
#pragma once
#include "faults/candidates.hpp"

namespace loomsheet {

// All that carries current between two points, in the order in which it is met, each once: the nearest way through wires, splices, joints,
// fuses, ground points and closed contacts, and what lies side by side with it while the contacts stand as that way needs them. A second
// way over contacts of another part is another run; one through a control unit likewise. Empty when nothing joins the points. A run that
// ends in a joint takes it in.
std::vector<Suspect> suspects_between(const Circuit& circuit, const Graph& at_rest, const PointRef& from, const PointRef& to);

} // namespace loomsheet
