// What faults do to one setting, as far as that is known without solving it again: nothing, the same as each other, or something
// of their own.
#pragma once
#include "circuit/rig.hpp"
#include "faults/candidates.hpp"
#include <map>
#include <optional>

namespace loomsheet {

inline constexpr int no_effect = 0, own_effect = -1; // else two faults of one number look alike from outside

// One setting that is asked: a set-up with its loads placed, and the row where something is measured.
struct Asked {
    Setup setup;
    MeasureKind measure = MeasureKind::look;
    std::optional<Row> row;
    double open_volts = 0; // of the ohmmeter
    Rig& rig(const Predictor& car) const { return row ? car.rig(setup, measure, *row, open_volts) : car.rig(setup); }
};
// All the settings in which a row is measured.
std::vector<Asked> settings_of(const Setup& setup, MeasureKind measure, const Row& row);

// By fault. Nothing: the fault changes only branches in which no current flows on a sound car. Alike: the same cut, or the same
// added ohms, in branches that lie one after the other with no branching between them, where no lead touches.
class Effects {
public:
    Effects(const Predictor& sound, const std::vector<Candidate>& faults) : sound_(sound), faults_(faults) {}

    using List = std::vector<int>;
    const List& of(const Asked& asked);

private:
    const Predictor& sound_;
    const std::vector<Candidate>& faults_;
    std::map<const Rig*, List> known_;
};

// Whether a short, laid on a car that has blown for it, changes nothing: it lies between points with no volts between them, and
// joins no lead to anything.
bool lies_idle(const Predictor& blown, const Fault& shorted, const Asked& asked);

} // namespace loomsheet
