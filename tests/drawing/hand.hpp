// What is written by hand for the tests of the drawing's steps: texts are 2 mm a byte wide in every type, and break at
// spaces.
#pragma once
#include "drawing/scheme/measures.hpp"
#include "model/plan.hpp"
#include <string>
#include <vector>

namespace hand {

const loomsheet::drawing::Measure& measure();
const loomsheet::drawing::Phrases& phrases();                                     // "to 2", "from 1, 3"
loomsheet::Circuit circuit(const std::string& lines);                             // of a plan; what is wrong with it fails the running test
loomsheet::PinId pin(const loomsheet::Circuit& circuit, const std::string& name); // "F1.2", of a splice "J1"
// By hand: a node of a kind with one port above and one below, and an edge between the lower port of one and the upper
// port of another.
loomsheet::drawing::Node node(loomsheet::drawing::NodeKind kind);
loomsheet::drawing::Edge edge(int from, int to, loomsheet::WireId wire = loomsheet::none);
// Numbers that are the same on every machine, below `most`.
class Chance {
public:
    explicit Chance(unsigned seed) : state_(seed * 2654435761U + 1) {}
    int below(int most);

private:
    unsigned state_;
};

} // namespace hand
