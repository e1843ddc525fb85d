// What a sound car gives where the plan says nothing: low, usual and high value of each, with its source.
#pragma once
#include <cstdint>
#include <span>
#include <string_view>

namespace loomsheet {

enum class Usual : std::uint8_t {
    battery_volts,
    charging_volts,
    battery_ohms,
    copper_temperature,
    wire_length,
    unknown_wire,
    crimp,
    contact_pin,
    bolt,
    clamp,
    fuse_drop,
    contact_blade,
    jumper,
    rail, // what conducts
    coil,
    coil_temperature,
    pulls_in,
    drops_out,
    load_current,
    stall_current,
    friction,
    filament_power,
    filament_cold,
    filament_power_law,
    resistor,
    ntc,
    track,
    wiper,
    workshop_temperature,
    engine_temperature, // parts
    module_needs,
    module_draw,
    module_asleep,
    draw,
    driver_drop,
    driver_ohms,
    sensor_supply,
    sensor_supply_ohms,
    pull_up,
    input,
    reads_high,
    reads_low,
    hall_ohms,
    diode_drop,
    diode_ohms, // electronics
    load_needs,
    lamp_dark,
    lamp_lit, // what a load does
    meter_ohms,
    ohms_test,
    leads,
    in_line,
    test_lamp,
    lamp_seen,
    beep,
    ghost, // instruments
};

struct UsualRow {
    Usual of;
    std::string_view what; // as the reference page says it
    std::string_view unit; // V, mohm, mohm mm², times the value written …
    double low, value, high;
    std::string_view source;
};
std::span<const UsualRow> usual_values();
const UsualRow& usual(Usual of);

} // namespace loomsheet
