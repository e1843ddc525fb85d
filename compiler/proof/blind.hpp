// LS709: a check that passes what harms. And the table of how small a fault is seen.
#pragma once
#include "faults/smallest.hpp"
#include "source/diagnostic.hpp"
#include <string>
#include <vector>

namespace loomsheet {

void prove_blind(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, Findings& findings);
// Of each place where added ohms can cause the complaint.
struct SmallRow {
    PointRef place;
    double harms_from = 0; // ohm
    SeenFrom seen;         // without a check where none sees it
    bool found = false;    // the plan names it all the same
    bool late = false;     // seen later than it harms
};
// The latest first; the ohms of the first `exact` to two figures, those of the rest to the end of a band.
std::vector<SmallRow> small_rows(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, std::size_t exact);
// What is seen later than it harms; the rest is counted.
std::string smallest_table(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis);
// "0.4 ohm", "80 mohm"
std::string added_words(double ohms);

} // namespace loomsheet
