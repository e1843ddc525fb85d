// Every value of a circuit that a reading hangs on, with the range that it has in sound cars: what the plan writes, else
// the usual values of grammar/usual_values. One parameter is one thing, whatever the set-up: what two readings share
// cancels in their difference.
#pragma once
#include "circuit/listening.hpp"
#include "circuit/usual_values.hpp"
#include "model/plan.hpp"
#include <optional>
#include <vector>

namespace loomsheet {

using ParameterId = int;

struct Parameter {
    double low = 0, value = 0, high = 0; // ohm, V, or a share from 0 to 1
};
Parameter range_of(Usual row, double times = 1);
// A written value: its own tolerance, else that of the row, which multiplies it.
Parameter written(const Quantity& quantity, Usual row);

struct Parameters {
    explicit Parameters(const Circuit& circuit, double system_volts);

    std::vector<Parameter> list;
    double system_volts;
    ParameterId added = none; // ohms that a fault adds: one thing in every set-up; 0 on a sound car
    // --- what stands where in `list`; none where there is no such thing
    std::vector<ParameterId> wire;                   // by wire: ohms with both crimps
    std::vector<ParameterId> joint, bolt;            // by pin: ohms
    std::vector<ParameterId> link, inner;            // by part: a fuse's ohms, a battery's
    std::vector<ParameterId> rail, hall;             // by part: ohms
    std::vector<std::vector<ParameterId>> emf, draw; // by part and row of `gives`, `draws`: V, ohms of one supply pin
    struct OfElement {
        ParameterId ohms = none;   // what it resists; of a load its ohms in use, of a diode those beside its volts
        ParameterId second = none; // V of a diode, a sensor supply or a pull-up; stalled or cold ohms of a load
    };
    std::vector<std::vector<OfElement>> element; // by part and element
    std::vector<std::vector<Heard>> heard;       // the same; only of outputs that follow a switch
};

// Ohms of an ntc at a temperature in °C; none where the plan says too little.
std::optional<Parameter> ntc_ohms(const Element& ntc, double degrees);

} // namespace loomsheet
