// Circuits of a few parts that between them have everything a drawing can show.
#pragma once
#include "drawing/scheme/scheme.hpp"
#include <string>
#include <vector>

struct SmallCircuit {
    std::string name, lines;
};
const std::vector<SmallCircuit>& small_circuits();
// Some twenty parts joined by chance, the same on every machine: what the small ones leave open.
std::string tangled_circuit(unsigned seed);
// Checks by number at every third pin with a wire and at every fourth wire.
loomsheet::drawing::Probes small_probes(const loomsheet::Circuit& circuit);
