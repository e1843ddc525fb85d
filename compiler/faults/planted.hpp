// Cars with the faults that the instructor puts in: what each check reads on them, and where the printed plan takes
// them.
#pragma once
#include "faults/walk.hpp"

namespace loomsheet {

struct PlantedCar {
    Prediction readings;
    std::vector<OutcomeSet> outcomes; // by check
    std::vector<Ending> endings;
    std::vector<Judgement> judged; // by ending
    std::vector<PartId> blown;     // fuses that are gone before the first check
    bool changes = true;           // see `changes_a_setup`; one that does not has no card
};
// Whether the fault changes anything of the circuit in any set-up of the plan or of normal use.
bool changes_a_setup(const Plan& plan, const Predictor& sound, const Fault& fault);
std::vector<PlantedCar> planted_cars(const Plan& plan, const Predictor& sound); // by plant

} // namespace loomsheet
