// The range of a reading when every parameter may lie anywhere in its own. A reading of a resistive network moves one way
// only with each parameter, so its extremes lie at corners: the slopes say which, and are asked again there.
#pragma once
#include "circuit/bench.hpp"
#include "circuit/reading.hpp"
#include <span>

namespace loomsheet {

// One quantity on a bench, in one stand of its relays.
struct Term {
    Bench* bench = nullptr;
    Stand stand;
    double sign = 1;
    std::vector<Along> along; // the sum along these branches, each times its weight; empty: what the instrument shows
    ParameterId own = none; // ohms of the instrument itself, of its lamp
    bool amps = false;      // the instrument shows its current
};

struct Extent {
    bool settled = true;
    double value = 0, low = 0, high = 0;
    double likely_low = 0, likely_high = 0;
};
// Of the sum of the terms. Parameters below `shared` are the same things on all benches.
Extent extent_of(std::span<Term> terms, std::size_t shared);

// The stands in which cars may settle from rest, the one of usual values first; empty when it chatters. With `history` the end hangs
// on the beginning: those reached from `before` stand in the list too.
struct Stands {
    std::vector<Stand> list;
    std::vector<InDoubt> in_doubt;
    std::vector<InDoubt> moves; // what chatters; or what ends otherwise: its volts from rest `low`, from before `high`
    bool chatters = false, history = false;
    bool may_chatter = false; // some car leaves its stand and comes back to it
    double slack = 0;         // A: what is pushed into the network must be more to move a relay, a module or a fuse
};
// `may_be_blown` by fuse: before, in some cars; none where empty.
Stands stands_of(Bench& bench, const Stand& from, const Stand& before, std::span<const char> may_be_blown = {});

} // namespace loomsheet
