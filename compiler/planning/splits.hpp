// What a verdict leaves as several things to repair, and a check that tells them further apart: searched as for gaps.
#pragma once
#include "faults/coverage.hpp"
#include <optional>

namespace loomsheet {

struct Split {
    Left left;
    std::optional<Check> check;            // its pass leads on to the verdict; none where no check tells any apart
    std::vector<Suspect> passing, failing; // who is left then; some may be on both sides
    double remain = 0;                     // suspects on the right side, on average
    double minutes = 0;                    // more than the check before
    std::size_t tried = 0;                 // checks
    bool alike = false;                    // at their worst they change the same volts at every point, in every set-up
    bool is_worth_it() const;              // a quarter fewer to look at, or better
};

inline constexpr std::size_t most_splits = 4; // in tables
// Verdicts that hold and leave more than three, those that leave most first.
std::vector<Split> splits(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, std::size_t searched);

} // namespace loomsheet
