#include "circuit/usual_values.hpp"
#include <cassert>

namespace loomsheet {
namespace {

constexpr std::string_view practice = "common practice, no source", memory = "from memory";

// "times" rows multiply what the plan writes, "plus" rows are added to it. Rows in mohm mm² are divided by the
// cross-section of the thickest wire at the pin: a terminal is as large as its wire asks.
constexpr UsualRow rows[] = {
    {Usual::battery_volts, "a battery's volts, engine off", "V, plus", -0.15, 0, 0.25,
     "three quarters full to full, just charged: rested volts of lead batteries"},
    {Usual::charging_volts, "volts with the engine running", "V, plus", -0.4, 0, 0.5,
     "13.7 to 14.7 V and 13.5 to 14.8 V are published for charging"},
    {Usual::battery_ohms, "a battery's inner resistance", "times", 0.6, 1, 1.6, practice},
    {Usual::copper_temperature, "copper of a wire", "°C", 0, 30, 60, practice},
    {Usual::wire_length, "length of a wire", "times", 0.95, 1, 1.1, practice},
    {Usual::unknown_wire, "a wire without size or length", "mohm", 0.2, 8, 30, practice},
    {Usual::crimp, "a crimp", "mohm mm²", 0.1, 0.4, 1, practice},
    {Usual::contact_pin, "a plug or socket contact", "mohm mm²", 0.5, 2, 6,
     "common practice, no source: under 0.05 V at the current of its wire"},
    {Usual::bolt, "a bolted ground point", "mohm", 0.02, 0.1, 0.5, practice},
    {Usual::clamp, "a battery clamp on its post", "mohm", 0.02, 0.1, 0.3, practice},
    {Usual::fuse_drop, "a fuse, volts at its rating", "V", 0.04, 0.075, 0.125, "DIN 72581-3: at most 0.1 to 0.125 V"},
    {Usual::contact_blade, "a closed contact of a relay or switch", "mohm mm²", 2, 9, 60,
     "relay data sheet: 15 mV typical at 10 A, trade limit 0.2 V"},
    {Usual::jumper, "a jumper lead with its fuse", "mohm", 10, 25, 60, practice},
    {Usual::rail, "ground pins inside a control unit", "mohm", 0.2, 1, 5, practice},
    {Usual::coil, "a coil's ohms", "times", 0.9, 1, 1.1, "relay data sheet: 85 ohm ±10 %"},
    {Usual::coil_temperature, "copper of a coil", "°C", 0, 20, 60, practice},
    {Usual::pulls_in, "a 12 V relay pulls in", "V", 8, 8, 8, "relay data sheet: operates at 8 V at most"},
    {Usual::drops_out, "a 12 V relay drops out", "V", 1.5, 1.5, 1.5, "relay data sheet: releases at 1.5 V at least"},
    {Usual::load_current, "a load's current", "times", 0.8, 1, 1.2, practice},
    {Usual::stall_current, "a motor held still, times its running current", "times", 3, 5, 10, practice},
    {Usual::friction, "share of its current at which a motor just turns", "times", 0.1, 0.1, 0.1, memory},
    {Usual::filament_power, "a lamp's power", "times", 0.9, 1, 1.1, "UN R37: 21 W and at most 26.5 W at 13.5 V"},
    {Usual::filament_cold, "a filament, cold to hot ohms", "times", 1 / 15.0, 1 / 12.0, 0.1, "two handbooks: 1 : 10 and 1 : 15"},
    {Usual::filament_power_law, "a filament's current grows with this power of the volts", "", 0.55, 0.55, 0.55, memory},
    {Usual::resistor, "a resistor's ohms", "times", 0.95, 1, 1.05, practice},
    {Usual::ntc, "an NTC's ohms at its temperature", "times", 0.95, 1, 1.05, practice},
    {Usual::track, "a track, end to end", "times", 0.8, 1, 1.2, practice},
    {Usual::wiper, "where a wiper stands", "%, plus", -3, 0, 3, practice},
    {Usual::workshop_temperature, "a sensor whose temperature nobody said", "°C", 0, 20, 40, practice},
    {Usual::engine_temperature, "the same with the engine running", "°C", 0, 80, 110, practice},
    {Usual::module_needs, "a control unit works from", "V", 6, 6, 6, "ISO 16750-2, code A"},
    {Usual::module_draw, "a control unit that does not say what it draws", "mA", 50, 200, 1000, practice},
    {Usual::module_asleep, "the same, asleep", "mA", 0.2, 2, 10, practice},
    {Usual::draw, "what a control unit draws", "times", 0.7, 1, 1.3, practice},
    {Usual::driver_drop, "a driver, volts at the current it says", "V", 0.03, 0.2, 0.6, practice},
    {Usual::driver_ohms, "a driver that says no current", "ohm", 0.05, 0.3, 1, practice},
    {Usual::sensor_supply, "a sensor supply's volts", "times", 0.95, 1, 1.05, "sensor data sheet: 5.0 V ±10 %; here half of it"},
    {Usual::sensor_supply_ohms, "a sensor supply, inside", "ohm", 0.2, 1, 5, practice},
    {Usual::pull_up, "a pull-up's ohms", "times", 0.9, 1, 1.1, practice},
    {Usual::input, "an input's ohms", "times", 0.8, 1, 1.2, practice},
    {Usual::reads_high, "an input reads high from, of its pull-up's or the system's volts", "times", 0.6, 0.6, 0.6,
     "common practice, no source; a LIN receiver has the same: ISO 17987-4"},
    {Usual::reads_low, "an input reads low up to, of the same", "times", 0.4, 0.4, 0.4, "as above"},
    {Usual::hall_ohms, "a Hall sensor between its supply and ground", "ohm", 500, 1000, 3000, practice},
    {Usual::diode_drop, "a diode, conducting", "V", 0.5, 0.7, 0.9, practice},
    {Usual::diode_ohms, "the same, ohms beside its volts", "mohm", 20, 20, 20, practice},
    {Usual::load_needs, "what a load needs, of the system's volts", "times", 0.9, 0.9, 0.9,
     "small craft allow a drop of 10 %: ABYC E-11, ISO 10133"},
    {Usual::lamp_dark, "a lamp is dark below, of its volts", "times", 0.1, 0.1, 0.1, practice},
    {Usual::lamp_lit, "a lamp is lit from, of its volts", "times", 0.8, 0.8, 0.8, practice},
    {Usual::meter_ohms, "a voltmeter", "Mohm", 10, 10, 10, "several meters' manuals"},
    {Usual::ohms_test, "an ohmmeter: open volts; 1 mA at most", "V", 0.3, 2, 3.2, "manual of a 3½ digit meter: 3.2 V at most"},
    {Usual::leads, "two test leads", "ohm", 0, 0.2, 0.5, "a maker's note: 0.2 to 0.5 ohm; 0 where the meter is set to zero"},
    {Usual::in_line, "an ammeter in line, with its leads", "ohm", 0.02, 0.05, 0.2, practice},
    {Usual::test_lamp, "a test lamp, 12 V", "W", 4, 5, 5.5, practice},
    {Usual::lamp_seen, "a test lamp: dark below, lit above, of its volts", "times", 0.25, 0.5, 0.75, practice},
    {Usual::beep, "a beeper: sure below, silent above", "ohm", 20, 50, 100, "two meters' manuals: 50 and 100 ohm; 20 to 70 in practice"},
    {Usual::ghost, "a voltmeter between points that nothing joins, of the system's volts", "times", -0.04, 0, 0.04,
     "common practice, no source: 10 Mohm pull to 0 V, and a damp loom leaks through 250 Mohm or more"},
};

} // namespace

std::span<const UsualRow> usual_values() { return rows; }

const UsualRow& usual(Usual of) {
    const UsualRow& row = rows[static_cast<std::size_t>(of)];
    assert(row.of == of);
    return row;
}

} // namespace loomsheet
