#include "faults/planted.hpp"
#include "faults/suspects.hpp"

namespace loomsheet {

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
    }
    return list;
}

} // namespace loomsheet
