// What faults do to one setting, as far as that is known without solving it again: nothing, the same as each other, or something
// of their own.
#pragma once
#include "circuit/rig.hpp"
#include "faults/candidates.hpp"
#include <map>

namespace loomsheet {

inline constexpr int no_effect = 0, own_effect = -1; // else two faults of one number look alike from outside

// By fault. Nothing: the fault changes only branches in which no current flows on a sound car. Alike: the same cut, or the same
// added ohms, in branches that lie one after the other with no branching between them, where no lead touches.
class Effects {
public:
    Effects(const Predictor& sound, const std::vector<Candidate>& faults) : sound_(sound), faults_(faults) {}

    using List = std::vector<int>;
    const List& of(const Setup& setup) { return of(sound_.rig(setup), false); } // nothing measured
    // All the settings in which a row is measured.
    std::vector<const List*> of(const Setup& setup, MeasureKind measure, const Row& row);

private:
    const List& of(Rig& rig, bool current);
    const Predictor& sound_;
    const std::vector<Candidate>& faults_;
    std::map<const Rig*, List> known_;
};

} // namespace loomsheet
