// What of a circuit can have a fault: a bit each, so that a row of a table may name several.
#pragma once
#include <cstdint>

namespace loomsheet {

using Things = std::uint32_t;

namespace thing {
inline constexpr Things nothing = 0;
// By itself.
inline constexpr Things wire = 1 << 0, joint = 1 << 1, crimp = 1 << 2;
// A part as a whole.
inline constexpr Things splice = 1 << 3, ground = 1 << 4, plug = 1 << 5, fuse = 1 << 6, battery = 1 << 7, module = 1 << 8, motor = 1 << 9,
                        lamp = 1 << 10, sensor = 1 << 11;
// What is inside a part.
inline constexpr Things contact = 1 << 12, driver = 1 << 13, input = 1 << 14, diode = 1 << 15,
                        ohmic = 1 << 16, // a coil, a resistor, a heater: its amps go with its volts
    bent = 1 << 17,                      // a filament, the winding of a motor
    load = 1 << 18;                      // beside one of these two: of something that works for the driver
inline constexpr Things winding = ohmic | bent, metal = wire | joint | crimp | splice;
} // namespace thing

} // namespace loomsheet
