// Fault against check: which outcomes each fault may bring about, on any car within its tolerances.
#pragma once
#include "faults/answers.hpp"
#include "faults/candidates.hpp"

namespace loomsheet {

struct Matrix {
    std::vector<Candidate> faults;              // those that can cause the complaint
    std::vector<Truth> harm;                    // by fault: whether they surely cause it; jumps: only where the car rattles
    std::vector<Candidate> harmless;            // those that cannot
    std::vector<std::vector<OutcomeSet>> cells; // by fault and check
    std::vector<OutcomeSet> sound;              // by check
};

Matrix fault_matrix(const Plan& plan, const Predictor& sound, const Prediction& of_sound, const Stop& stop = {});
// The outcomes of a car at every check, whatever the complaint.
std::vector<OutcomeSet> outcomes_of_car(const Plan& plan, const Predictor& car);
// What is repaired for a fault that a plan names.
Candidate as_candidate(const Fault& fault);
// Whether the complaint is there (jumps: only while the car rattles); for a plan whose complaint has no meaning, whether any load that
// works on a sound car in normal use may not.
Truth complains(const Plan& plan, const Predictor& sound, const Predictor& car);

} // namespace loomsheet
