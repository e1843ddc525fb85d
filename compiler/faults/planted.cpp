#include "faults/planted.hpp"
#include "faults/suspects.hpp"
#include "model/change.hpp"
#include <algorithm>

namespace loomsheet {

bool changes_a_setup(const Plan& plan, const Predictor& sound, const Fault& fault) {
    std::vector<Setup> setups = normal_use(plan);
    setups.push_back(plan.complaint_with);
    for (const Check& check : plan.checks)
        for (Setup& each : one_by_one(setup_of(check)))
            setups.push_back(std::move(each));
    return std::any_of(setups.begin(), setups.end(), [&](const Setup& setup) {
        Network network = build_network(plan.circuit, sound.parameters(), setup);
        return put_in(plan.circuit, fault, network);
    });
}

std::vector<PlantedCar> planted_cars(const Plan& plan, const Predictor& sound) {
    const std::vector<Setup> uses = normal_use(plan);
    const Walker walker(plan);
    std::vector<PlantedCar> list;
    for (const Plant& plant : plan.plants) {
        const Candidate fault = as_candidate(plant.fault);
        const Predictor car(sound, plant.fault, uses);
        PlantedCar& made = list.emplace_back();
        made.readings = predict(plan, car);
        made.outcomes = outcomes_of_car(plan, car);
        made.endings = walker.endings(made.outcomes, &fault);
        for (const Ending& ending : made.endings)
            made.judged.push_back(walker.judge(ending, fault));
        made.blown = car.blown_before();
        made.changes = changes_a_setup(plan, sound, plant.fault);
    }
    return list;
}

} // namespace loomsheet
