// Whole numbers x that minimise the sum of weight * (x[to] - x[from]) while every x[to] - x[from] is at least `least`:
// the network simplex of Gansner, Koutsofios, North and Vo, "A technique for drawing directed graphs" (1993). The least
// x is 0.
#pragma once
#include <vector>

namespace loomsheet::drawing {

struct Spring {
    int from = 0, to = 0, least = 0;
    int weight = 0;
};
// The springs must not run in a circle (a circle of `least` 0 neither). `near`, where it is not empty, holds for all
// springs and is where the search begins.
std::vector<int> relax(int count, const std::vector<Spring>& springs, const std::vector<int>& near = {});

} // namespace loomsheet::drawing
