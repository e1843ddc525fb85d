// What a plan finds, what it misses and which of its verdicts do not hold: every fault walked through the printed plan.
#pragma once
#include "faults/figures.hpp"
#include "faults/walk.hpp"
#include <memory>

namespace loomsheet {

// What becomes of one fault. Of several ways the worst counts.
enum class Fate : std::uint8_t { found, open, missed, wrong };

struct FaultEnds {
    Fate fate = Fate::found;
    std::vector<Ending> endings;
    std::vector<Judgement> judged; // by ending
    std::vector<Taken> steps;      // that it may take on any of its ways
};

struct Figures {
    double found = 0, open = 0, missed = 0, wrong = 0; // shares of 1, weighted by how likely the faults are
    double jumps = 0;                                  // of `open`: those that stop only where a reading jumps
    Isolation isolation;                               // a verdict that blames the fault is a group; its units are suspects
    double checks = 0, minutes = 0;                    // to the ending, on average by the shortest way
    std::size_t most_checks = 0;
    double most_minutes = 0;
    std::vector<Taken> longest; // the way that takes the most minutes, or checks where no check says its time
    bool false_alarm = false;   // a sound car may end where something is blamed or nothing is said
};

struct PlantEnds { // of a planted fault: its worst; of one that changes nothing, found
    Fate fate = Fate::found;
    std::vector<Taken> way;
};

struct Diagnosis {
    Matrix matrix;
    std::unique_ptr<Walker> walker;
    std::vector<Taken> steps;       // every step that a sound car or one with a fault may take
    std::vector<PlantEnds> planted; // by plant
    std::vector<FaultEnds> ends;    // by fault
    std::vector<Ending> sound;      // where a sound car may end
    std::vector<Taken> sound_steps; // and the steps that it may take
    Figures figures;
};
Diagnosis diagnose(const Plan& plan, const Predictor& sound, const Prediction& prediction);
// With a matrix that is there: it hangs on what the checks measure, not on where their outcomes lead or what verdicts blame.
Diagnosis diagnose(const Plan& plan, const Predictor& sound, Matrix matrix);

} // namespace loomsheet
