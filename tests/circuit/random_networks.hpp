// Networks for tests and benchmarks, the same for the same seed on every machine; in a namespace apart from the words of
// the model.
#pragma once
#include "circuit/elimination.hpp"
#include <cstdint>
#include <limits>
#include <random>
#include <vector>

namespace loomsheet::lab {

constexpr double open_ohms = std::numeric_limits<double>::infinity();

// A resistance, with a battery of `volts` in series whose + looks at `a`.
struct Resistor {
    int a = -1, b = -1;
    double ohms = 1, volts = 0;
};

struct Network {
    int nodes = 0;
    std::vector<Resistor> elements;
    int red = 0, black = 1;
};

Admittance admittance(const Resistor& element);
std::vector<Branch> branches(const Network& network);
void set_all(Elimination& elimination, const Network& network);

class Dice {
public:
    explicit Dice(std::uint32_t seed) : engine_(seed) {}
    // 0 <= it < 1; the library's own distributions differ from one to the next.
    double unit() { return static_cast<double>(engine_()) / 4294967296.0; }
    int below(int count) { return static_cast<int>(unit() * count); }
    bool chance(double odds) { return unit() < odds; }
    // Each power of ten as likely as the next.
    double spread(double low, double high);

private:
    std::mt19937 engine_;
};

// A loom: battery and alternator, supply hub and fuse boxes, chains of fuse, wire, contact, splice and load down to
// ground points, engine and chassis on straps; a few cross links; meters of 10 Mohm, some of them on pieces that else
// float. Red is some node of a chain, black the body.
Network vehicle_network(int nodes, std::uint32_t seed);

// Anything goes: several branches between the same nodes, branches of a node to itself, pieces apart, resistances from
// 10 uohm to 10 Mohm, a battery in every fourth.
Network wild_network(int nodes, int elements, std::uint32_t seed);

// A fault in one element: open, burnt, welded, or as it was made.
void disturb(Resistor& element, const Resistor& sound, Dice& dice);

// For each node the lowest node that it is joined to.
std::vector<int> joined(const Network& network);

} // namespace loomsheet::lab
