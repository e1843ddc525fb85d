// Where a plan ends wrong, and the cheapest check that would close the gap: searched among drops and volts between
// points that can be reached, in the set-ups that the plan has already.
#pragma once
#include "faults/diagnosis.hpp"
#include <string>

namespace loomsheet {

// A new check, and what it does. Its pass goes where the gap was, its fail to suspects that it names.
struct Closing {
    Check check;
    std::vector<std::size_t> closes; // in the matrix: surely fail it, so that they end rightly
    std::vector<Suspect> named;      // all that may fail it
    bool named_by_run = false;       // they lie between its two points
    double minutes = 0;
};

// All faults that one verdict, one stop or one `done` takes for something else.
struct Gap {
    int verdict = none;                 // else the outcome `arrows.front()`
    std::vector<Taken> arrows;          // the outcomes that lead there
    std::vector<std::size_t> faults;    // in the matrix: end there and are not blamed
    std::vector<std::size_t> rightly;   // end there and are
    double likely = 0;                  // share of 1, of all faults that can cause the complaint
    std::vector<Closing> closings;      // one after the other, before the gap
    std::vector<std::size_t> unseen;    // faults that no check which was tried is certain of
    std::vector<std::size_t> invisible; // that change no volts in any of the set-ups, at no point that can be reached
};

inline constexpr std::size_t most_gaps = 4; // in tables
// Worst first. Closings are looked for in the first `searched`.
std::vector<Gap> gaps(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, std::size_t searched);

} // namespace loomsheet
