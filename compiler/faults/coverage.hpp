// How much of what can fail a plan covers, part by part, and what it cannot tell apart.
#pragma once
#include "faults/diagnosis.hpp"

namespace loomsheet {

inline constexpr double no_share = 1e-9; // below it is rounding

// One suspect: how much of what befalls it is surely found, and what becomes of the rest.
struct Covered {
    Suspect suspect;
    double all = 0, found = 0;        // sums of how likely its faults are
    bool sound = false, open = false; // may be called sound; may end at a stop that does not name it
    std::vector<int> verdicts;        // that may be wrong for it
    double lost() const { return all - found; }
};
std::vector<Covered> covered(const Diagnosis& diagnosis); // most lost first, then in the order of the faults

// What a verdict leaves to be looked at: all suspects with a fault that may end there.
struct Left {
    int verdict = 0;
    std::vector<Suspect> suspects;
};
inline constexpr std::size_t most_left = 3;           // more suspects are told in a table
std::vector<Left> groups(const Diagnosis& diagnosis); // most suspects first

// What may be reached by a fault that it does not name, in the plan's order: verdicts, and checks at which the suspects that an outcome
// names leave some out.
struct Doubtful {
    std::vector<int> verdicts, stops;
};
Doubtful doubtful_ends(const Diagnosis& diagnosis);

} // namespace loomsheet
