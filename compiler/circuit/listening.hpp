// What a control unit hears of a switch that one of its drivers follows: at which input, and by which level.
#pragma once
#include "model/circuit.hpp"

namespace loomsheet {

struct Heard {
    PinId input = none;  // none: the switch moves no input of the unit
    bool by_high = true; // called when the input reads high; else when it reads low
};
// Of an output of this part that follows a switch, all plugged in: the input whose level on a sound car is another when
// the switch is operated, by what the switch joins it to, and by the unit's own pull-up where it joins it to nothing.
Heard heard_by(const Circuit& circuit, PartId module, const Element& output);

} // namespace loomsheet
