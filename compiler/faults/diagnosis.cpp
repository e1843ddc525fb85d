#include "faults/diagnosis.hpp"
#include <algorithm>
#include <map>

namespace loomsheet {
namespace {

Fate fate_of(Judgement judgement) {
    switch (judgement) {
    case Judgement::found: return Fate::found;
    case Judgement::open: return Fate::open;
    case Judgement::missed: return Fate::missed;
    case Judgement::wrong: break;
    }
    return Fate::wrong;
}

double minutes_of(const Plan& plan, const std::vector<Step>& way) {
    double minutes = 0;
    for (const Step& step : way)
        if (plan.checks[step.check].time) minutes += plan.checks[step.check].time->si / 60;
    return minutes;
}

// How many suspects may end at each verdict that blames them.
std::map<int, std::vector<Suspect>> suspects_at(const Diagnosis& diagnosis) {
    std::map<int, std::vector<Suspect>> at;
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i)
        for (const Ending& ending : diagnosis.ends[i].endings) {
            if (ending.kind != EndKind::verdict) continue;
            std::vector<Suspect>& list = at[ending.verdict];
            const Suspect& suspect = diagnosis.matrix.faults[i].suspect;
            if (std::find(list.begin(), list.end(), suspect) == list.end()) list.push_back(suspect);
        }
    return at;
}

Figures figures_of(const Plan& plan, const Diagnosis& diagnosis) {
    Figures made;
    double all = 0, found = 0;
    const std::map<int, std::vector<Suspect>> at = suspects_at(diagnosis);
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i) {
        const double likely = diagnosis.matrix.faults[i].likely;
        const FaultEnds& ends = diagnosis.ends[i];
        all += likely;
        switch (ends.fate) {
        case Fate::found: made.found += likely; break;
        case Fate::open: made.open += likely; break;
        case Fate::missed: made.missed += likely; break;
        case Fate::wrong: made.wrong += likely; break;
        }
        if (ends.endings.empty()) continue;
        const std::vector<Step>& way = ends.endings.front().way;
        made.checks += likely * static_cast<double>(way.size());
        made.minutes += likely * minutes_of(plan, way);
        for (const Ending& ending : ends.endings) {
            made.most_checks = std::max(made.most_checks, ending.way.size());
            made.most_minutes = std::max(made.most_minutes, minutes_of(plan, ending.way));
        }
        if (ends.fate != Fate::found) continue;
        std::size_t most = 0; // suspects left, at the worst of its endings
        for (const Ending& ending : ends.endings)
            most = std::max(most, ending.kind == EndKind::verdict ? at.at(ending.verdict).size() : std::size_t{99});
        found += likely;
        if (most <= 1) made.to_one += likely;
        if (most <= 2) made.to_two += likely;
        if (most <= 3) made.to_three += likely;
    }
    if (all > 0)
        for (double* share : {&made.found, &made.open, &made.missed, &made.wrong, &made.checks, &made.minutes})
            *share /= all;
    if (found > 0)
        for (double* share : {&made.to_one, &made.to_two, &made.to_three})
            *share /= found;
    return made;
}

} // namespace

Diagnosis diagnose(const Plan& plan, const Predictor& sound, const Prediction& prediction) {
    Diagnosis made;
    made.matrix = fault_matrix(plan, sound, prediction);
    made.walker = std::make_unique<Walker>(plan);
    made.sound = made.walker->endings(made.matrix.sound, nullptr, &made.steps);
    for (std::size_t i = 0; i < made.matrix.faults.size(); ++i) {
        FaultEnds& ends = made.ends.emplace_back();
        ends.endings = made.walker->endings(made.matrix.cells[i], &made.matrix.faults[i], &made.steps);
        for (const Ending& ending : ends.endings) {
            ends.judged.push_back(made.walker->judge(ending, made.matrix.faults[i]));
            ends.fate = std::max(ends.fate, fate_of(ends.judged.back()));
        }
    }
    const std::vector<Setup> uses = normal_use(plan);
    for (const Plant& plant : plan.plants) {
        const Candidate fault = as_candidate(plant.fault);
        const Predictor car(sound, plant.fault, uses);
        PlantEnds& ends = made.planted.emplace_back();
        for (const Ending& ending : made.walker->endings(outcomes_of_car(plan, car), &fault)) {
            const Fate fate = fate_of(made.walker->judge(ending, fault));
            if (ends.way.empty() || fate > ends.fate) ends = {fate, ending.way};
        }
    }
    made.figures = figures_of(plan, made);
    return made;
}

} // namespace loomsheet
