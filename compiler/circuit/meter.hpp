// The workshop's meter: how true it reads, and what it can show.
#pragma once
#include "model/circuit.hpp"
#include "model/kinds/measures.hpp"

namespace loomsheet {

struct Meter {
    MeterFunction function = MeterFunction::volts;
    double percent = 0, digits = 0; // of the reading, of the last place
    double offset = -1;             // V, ohm, A: what the shop says instead; -1 where it says nothing
    // The last place that is shown at this reading, of a display of 2000 steps: V, ohm, A.
    double step(double reading) const;
    // ± at this reading.
    double error(double reading) const;
};
// As the plan's `meter` says, else as usual: volts ±(0.5 % + 2), ohms ±(0.8 % + 2), amps ±(1.5 % + 3), clamp ±(2 % + 10).
Meter meter_for(const Circuit& circuit, MeterFunction function);
// The next value that the display shows, away from the middle of a range.
double rounded_down(double value, double step);
double rounded_up(double value, double step);

} // namespace loomsheet
