// Cars drawn at random, each with one fault and with every value somewhere in its tolerance, walk the printed plan as somebody
// with a meter would: the last word on what proof says.
#pragma once
#include "faults/diagnosis.hpp"
#include <random>

namespace loomsheet::lab {

struct TrialResult {
    std::size_t cars = 0;                                      // that complained
    std::size_t found = 0, wrong = 0, missed = 0, stopped = 0; // by where they ended
    std::vector<std::string> worst;                            // how the first wrong ones went
};
// `cars` that complain, or as many as ten times that many draws give.
TrialResult trial(const Plan& plan, const Diagnosis& diagnosis, std::size_t cars, unsigned seed);

} // namespace loomsheet::lab
