#include "faults/diagnosis.hpp"
#include "faults/planted.hpp"
#include <algorithm>
#include <utility>

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

double minutes_of(const Plan& plan, const std::vector<Taken>& way) {
    double minutes = 0;
    for (const Taken& step : way)
        if (plan.checks[step.check].time) minutes += plan.checks[step.check].time->si / 60;
    return minutes;
}

// What the plan finds, by the verdicts that it may end at; the rest without any.
Isolation isolation_of(const Plan& plan, const Diagnosis& diagnosis) {
    std::vector<Grouped> faults;
    std::vector<Suspect> units;
    const int named = static_cast<int>(plan.verdicts.size()); // suspects that a check names: a group for each of its outcomes
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i) {
        const Candidate& fault = diagnosis.matrix.faults[i];
        auto unit = std::find(units.begin(), units.end(), fault.suspect);
        if (unit == units.end()) unit = units.insert(unit, fault.suspect);
        Grouped& made = faults.emplace_back();
        made.rate = fault.likely, made.unit = static_cast<int>(unit - units.begin());
        if (diagnosis.ends[i].fate != Fate::found) continue;
        for (const Ending& ending : diagnosis.ends[i].endings)
            made.groups.push_back(ending.kind == EndKind::verdict
                                      ? ending.verdict
                                      : named + ending.last.check * 64 + static_cast<int>(ending.last.outcome % 64));
    }
    return isolation(faults);
}

// A verdict that blames something, or a stop.
bool is_alarm(const Plan& plan, const Target* target) {
    if (!target) return true;
    if (target->kind == TargetKind::verdict && target->index != none) return !plan.verdicts[target->index].blames_nothing;
    return target->kind == TargetKind::suspects;
}

bool stops_by_jumps_only(const FaultEnds& ends) {
    for (std::size_t e = 0; e < ends.endings.size(); ++e)
        if (ends.judged[e] == Judgement::open && ends.endings[e].last.outcome != Taken::jumps) return false;
    return true;
}

Figures figures_of(const Plan& plan, const Diagnosis& diagnosis) {
    Figures made;
    double all = 0;
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i) {
        const double likely = diagnosis.matrix.faults[i].likely;
        const FaultEnds& ends = diagnosis.ends[i];
        all += likely;
        switch (ends.fate) {
        case Fate::found: made.found += likely; break;
        case Fate::open:
            made.open += likely;
            if (stops_by_jumps_only(ends)) made.jumps += likely;
            break;
        case Fate::missed: made.missed += likely; break;
        case Fate::wrong: made.wrong += likely; break;
        }
        if (ends.endings.empty()) continue;
        const std::vector<Taken>& way = ends.endings.front().way;
        made.checks += likely * static_cast<double>(way.size());
        made.minutes += likely * minutes_of(plan, way);
        for (const Ending& ending : ends.endings) {
            const double minutes = minutes_of(plan, ending.way);
            const auto longer = std::pair(minutes, ending.way.size()) > std::pair(made.most_minutes, made.longest.size());
            if (longer) made.longest = ending.way;
            made.most_checks = std::max(made.most_checks, ending.way.size());
            made.most_minutes = std::max(made.most_minutes, minutes);
        }
    }
    if (all > 0)
        for (double* share : {&made.found, &made.open, &made.jumps, &made.missed, &made.wrong, &made.checks, &made.minutes})
            *share /= all;
    made.isolation = isolation_of(plan, diagnosis);
    for (const Taken& step : diagnosis.sound_steps)
        made.false_alarm |= is_alarm(plan, target_of(plan.checks[step.check], step.outcome));
    return made;
}

} // namespace

Diagnosis diagnose(const Plan& plan, const Predictor& sound, const Prediction& prediction) {
    return diagnose(plan, sound, fault_matrix(plan, sound, prediction));
}

Diagnosis diagnose(const Plan& plan, const Predictor& sound, Matrix matrix) {
    Diagnosis made;
    made.matrix = std::move(matrix);
    made.walker = std::make_unique<Walker>(plan);
    made.sound = made.walker->endings(made.matrix.sound, nullptr, &made.sound_steps);
    made.steps = made.sound_steps;
    for (std::size_t i = 0; i < made.matrix.faults.size(); ++i) {
        FaultEnds& ends = made.ends.emplace_back();
        ends.endings = made.walker->endings(made.matrix.cells[i], &made.matrix.faults[i], &ends.steps);
        made.steps.insert(made.steps.end(), ends.steps.begin(), ends.steps.end());
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
        if (!changes_a_setup(plan, sound, plant.fault)) continue; // which is said of it
        for (const Ending& ending : made.walker->endings(outcomes_of_car(plan, car), &fault)) {
            const Fate fate = fate_of(made.walker->judge(ending, fault));
            if (ends.way.empty() || fate > ends.fate) ends = {fate, ending.way};
        }
    }
    made.figures = figures_of(plan, made);
    return made;
}

} // namespace loomsheet
