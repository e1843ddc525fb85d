// A second opinion that shares nothing with the elimination: dense Gauss with the greatest pivot, in numbers of 113
// bits, on the nodes that union says are joined. Good to about 20 digits over the whole span of conductances.
#pragma once
#include "circuit/random_networks.hpp"

namespace loomsheet::lab {

struct Exact {
    std::vector<double> volts; // black at 0; not a number for a node that floats
    double amps = 0;           // into red, while it is held; 0 else
};

Exact exact_held(const Network& network, double red_volts);
// Red left to itself.
Exact exact_free(const Network& network);
// What is seen between red and black, 0 if nothing joins them; red and black must differ.
Admittance exact_port(const Network& network);

} // namespace loomsheet::lab
