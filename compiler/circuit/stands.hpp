// The stands in which cars may come to rest when every parameter may lie anywhere in its range: not only where the usual car does.
#pragma once
#include "circuit/extent.hpp"
#include "circuit/reading.hpp"
#include <span>

namespace loomsheet {

// A relay or a module that is on in a stand and may get too little there: at most `most` volts along `feed`, which is empty where several
// feed it. Of what rattles while other cars rest, one such falls off in every round, and comes on again from another stand.
struct Falling {
    PartId part = none;
    Stand stand;
    std::vector<Along> feed;
    double most = 0;  // V
    double plays = 1; // and at most so many times what it gets where it comes on
    std::vector<Stand> rises;
};
// With `history` the end hangs on the beginning: the stands reached from `before` stand in the list too.
struct Stands {
    std::vector<Stand> list; // that of the usual car first, where it rests; empty when it chatters
    std::vector<InDoubt> in_doubt;
    std::vector<InDoubt> moves; // what chatters in the usual car; or what ends otherwise: its volts from rest `low`, from before `high`
    bool chatters = false, history = false; // chatters: no car comes to rest
    bool may_chatter = false;               // some car comes to no rest
    std::vector<Falling> falling;           // where one may
    bool usual_chatters = false;
    bool wears = false; // what rattles blows a fuse sooner or later
    double slack = 0;   // A: what is pushed into the network must be more to move a relay, a module or a fuse
};
// `from` are the stands that a car may begin with: other fuses are blown in each.
Stands stands_of(Bench& bench, std::span<const Stand> from, const Stand& before);
// Where a car comes to from `stand`, or between what it goes round: with usual values, and at the ends and in the middle of the ohms
// that a fault adds.
std::vector<Stand> reached(Bench& bench, const Stand& stand);

} // namespace loomsheet
