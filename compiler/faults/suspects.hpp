// Who is suspect at a step of the plan: computed from all faults that may come there.
#pragma once
#include "faults/diagnosis.hpp"

namespace loomsheet {

struct RankedSuspect {
    Suspect suspect;
    double share = 0; // of all cars that come there
};
// Those whose faults may come to this check by the printed ways and may have this outcome there (Taken::jumps: the reading
// jumps), likeliest first.
std::vector<RankedSuspect> suspects_at(const Diagnosis& diagnosis, int check, std::size_t outcome);

// The same for all outcomes of the check that are not its pass; none where it has no pass.
std::vector<RankedSuspect> suspects_if_failing(const Diagnosis& diagnosis, const Plan& plan, int check);

} // namespace loomsheet
