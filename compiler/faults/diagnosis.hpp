// What a plan finds, what it misses and which of its verdicts do not hold: every fault walked through the printed plan.
#pragma once
#include "faults/walk.hpp"
#include <memory>

namespace loomsheet {

// What becomes of one fault. Of several ways the worst counts.
enum class Fate : std::uint8_t { found, open, missed, wrong };

struct FaultEnds {
    Fate fate = Fate::found;
    std::vector<Ending> endings;
    std::vector<Judgement> judged; // by ending
};

struct Figures { // all weighted by how likely the faults are; shares of 1
    double found = 0, open = 0, missed = 0, wrong = 0;
    double to_one = 0, to_two = 0, to_three = 0; // of what is found: verdicts that leave so many suspects
    double checks = 0, minutes = 0;              // to the ending, on average by the shortest way
    std::size_t most_checks = 0;
    double most_minutes = 0;
};

struct PlantEnds { // of a planted fault: its worst
    Fate fate = Fate::found;
    std::vector<Step> way;
};

struct Diagnosis {
    Matrix matrix;
    std::unique_ptr<Walker> walker;
    std::vector<Step> steps;        // every step that a sound car or one with a fault may take
    std::vector<PlantEnds> planted; // by plant
    std::vector<FaultEnds> ends;    // by fault
    std::vector<Ending> sound;      // where a sound car may end
    Figures figures;
};
Diagnosis diagnose(const Plan& plan, const Predictor& sound, const Prediction& prediction);

} // namespace loomsheet
