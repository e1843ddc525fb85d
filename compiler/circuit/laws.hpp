// How the loads conduct whose current does not follow the volts: filaments and motors. Ohms at the rated volts, amperes and siemens at
// any.
#pragma once
#include "circuit/usual_values.hpp"
#include <cmath>

namespace loomsheet {

inline const double filament_power = usual(Usual::filament_power_law).value, motor_friction = usual(Usual::friction).value; // shares

// A filament: cold ohms up to where the power law crosses them, the knee. Amps and siemens at `volts`.
struct Filament {
    double ohms, cold, rated, knee;
    Filament(double in_use, double cold_share, double rated_volts, double knee_volts)
        : ohms(in_use), cold(cold_share), rated(rated_volts), knee(knee_volts) {}
    Filament(double in_use, double cold_share, double rated_volts)
        : Filament(in_use, cold_share, rated_volts, knee_of(cold_share, rated_volts)) {}
    static double knee_of(double cold, double rated) { return rated * std::pow(cold, 1 / (1 - filament_power)); }
    bool is_cold(double volts) const { return std::abs(volts) <= knee; }
    double amps(double volts) const {
        if (is_cold(volts)) return volts / (ohms * cold);
        return std::copysign(rated / ohms * std::pow(std::abs(volts) / rated, filament_power), volts);
    }
    double siemens(double volts, double amps_there) const {
        return is_cold(volts) ? 1 / (ohms * cold) : filament_power * amps_there / volts;
    }
    double siemens(double volts) const { return siemens(volts, is_cold(volts) ? 0 : amps(volts)); }
};

// A motor: its still ohms until it turns, then a share of its current at any speed and the rest with the volts.
struct Motor {
    double ohms, still, rated;
    double turning_siemens() const { return (1 - motor_friction) / ohms; }
    bool stands(double volts) const { return std::abs(volts) * (1 / still - turning_siemens()) <= motor_friction * rated / ohms; }
    double amps(double volts) const {
        if (stands(volts)) return volts / still;
        return std::copysign(motor_friction * rated / ohms, volts) + turning_siemens() * volts;
    }
    double siemens(double volts) const { return stands(volts) ? 1 / still : turning_siemens(); }
    double turns_from() const { return motor_friction * rated / ohms / (1 / still - turning_siemens()); } // V
};

} // namespace loomsheet
