// Whole numbers x that minimise the sum of weight * (x[head] - x[tail]) while every x[head] - x[tail] is at least
// `length`: the network simplex of Gansner, Koutsofios, North and Vo, "A technique for drawing directed graphs" (1993).
// The least x is 0.
#pragma once
#include <vector>

namespace loomsheet::drawing {

struct Constraint {
    int tail = 0, head = 0, length = 0;
    int weight = 0;
};
// The constraints must not run in a circle (a circle of length 0 neither). `near`, where it is not empty, satisfies
// all of them and is where the search begins.
std::vector<int> network_simplex(int count, const std::vector<Constraint>& constraints, const std::vector<int>& near = {});

} // namespace loomsheet::drawing
