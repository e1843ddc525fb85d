// The range of a reading when every parameter may lie anywhere in its own. A reading of a resistive network moves one way
// only with each parameter, so its extremes lie at corners: the slopes say which, and are asked again there.
#pragma once
#include "circuit/bench.hpp"
#include <span>

namespace loomsheet {

// One quantity on a bench, in one stand of its relays.
struct Term {
    Bench* bench = nullptr;
    Stand stand;
    double sign = 1;
    std::vector<Along> along; // the sum along these branches, each times its weight; empty: what the instrument shows
    bool amps = false;        // the instrument shows its current
};

struct Extent {
    bool settled = true;
    double value = 0, low = 0, high = 0;
    double likely_low = 0, likely_high = 0;
};
// Of the sum of the terms. Parameters below `shared` are the same things on all benches.
Extent extent_of(std::span<Term> terms, std::size_t shared);
// The high end alone, for less; endless where some corner has no solution.
double highest_of(std::span<Term> terms, std::size_t shared);

} // namespace loomsheet
