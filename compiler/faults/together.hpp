// What a car that complains can read. A reading and the complaint hang on the same wires and the same battery: each alone may
// be possible where both together are not. Two slacks that must both be positive have a positive sum, whatever their weights; where
// some weighted sum cannot be positive at any corner of the tolerances, no car has both.
#pragma once
#include "circuit/rig.hpp"
#include "faults/answers.hpp"

namespace loomsheet {

// The complaint as an upper limit of volts along the branches of one load: "M3 still or M3 slow" is M3 below what it needs, with a
// margin: what is just below is not complained of.
struct ComplaintVolts {
    PartId part = none;
    double most = 0; // V
};
std::optional<ComplaintVolts> complaint_volts(const Plan& plan, double system_volts);
double needs_of(const Part& load, double system_volts); // V: what it needs to do its work
bool is_poor(StateVerb verb);                           // of a load, a relay or a module that does not do its work

// One car: a fault, or none. A car that rattles complains for part of the time: something falls off in it.
class Together {
public:
    Together(const Plan& plan, const Predictor& car, const ComplaintVolts& complaint);
    // Whether it complains at all: from the range of those volts.
    Truth complains() const { return complains_; }
    // Whether a car that complains can come to this answer at this row; of a look row 0 is its pass.
    bool possible(const Check& check, const RowPrediction* made, std::size_t row, Answer answer);

private:
    struct Part { // of a sum: what a rig shows, or the volts along its branches
        Rig* rig = nullptr;
        double sign = 1;
        std::vector<Along> along;
        bool rattles = false; // as the car stands when it is complained of: what rattles there rattles here
    };
    struct Complaining { // volts along these branches in this stand are `most` at most; without branches they may be any
        Stand stand;
        std::vector<Along> along;
        double most = 0;
        bool rattles = false;
        PartId falls = none; // by which it rattles
    };
    bool reaches(const std::vector<Part>& parts, double slack);
    bool compatible(const Setting& setting, const Stand& stand, const Complaining& complaining);
    bool stays(const Setting& setting, const Stand& stand, const Complaining& falling);
    bool comes_on(const Falling& falling);
    bool rattles_too(Rig& bare) const;
    bool relay_may(const Check& check, PartId relay, bool in);
    const Plan& plan_;
    const Predictor& car_;
    ComplaintVolts complaint_;
    Setting* complaining_;
    std::vector<Along> load_;         // empty where the load is broken inside, or its plug is off
    std::vector<Complaining> stands_; // those in which it complains
    bool any_ = false;                // it may complain with anything
    Truth complains_ = Truth::yes;
};

} // namespace loomsheet
