// Cars drawn at random, each with one fault and with every value somewhere in its tolerance, walk the printed plan as
// somebody with a meter would: the last word on what proof says. How often each fault is drawn is what the figures of
// proof are weighted with.
#pragma once
#include "faults/diagnosis.hpp"
#include <array>
#include <random>

namespace loomsheet::lab {

struct TrialResult {
    std::size_t cars = 0;                                      // that complained
    std::size_t silent = 0;                                    // faults drawn of which no car complained
    std::size_t found = 0, wrong = 0, missed = 0, stopped = 0; // by where they ended
    std::size_t sure = 0;                                      // whose fault proof calls surely found
    std::size_t strayed = 0;                                   // of those: ended where proof says that fault cannot end
    std::size_t jumped = 0; // or stopped at a reading that jumps, which proof looks for at the middle of a band only
    std::array<std::size_t, 3> told{}; // of those: ended where one, two, three units at most may end
    std::vector<std::string> worst;    // how the first went that ended wrong, or strayed
};
// `cars` that complain, or as many as twice that many draws give.
TrialResult trial(const Plan& plan, const Diagnosis& diagnosis, std::size_t cars, unsigned seed);

// Which figures of proof the trial does not keep to; empty when it keeps to all. Those of proof hold for the worst way,
// so that the trial has at least as much, less four standard deviations of so many cars.
std::string broken_promises(const Figures& figures, const TrialResult& trial);
// One line: measured, and beside it what proof prints.
std::string trial_words(const Figures& figures, const TrialResult& trial);

} // namespace loomsheet::lab
