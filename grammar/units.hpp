// Units of the language: one row each. Case counts (mA is not MA).
#pragma once
#include <span>
#include <string_view>

namespace loomsheet {

enum class Dimension : unsigned char {
    volt,
    ampere,
    watt,
    ohm,
    metre,
    area,
    second,
    temperature,
    kelvin,
    percent,
    hertz,
    speed,
    pressure,
    torque,
    charge,
};
struct DimensionRow {
    std::string_view word = {};      // "a voltage", "a length"
    std::string_view example = {};   // a right way to write one: "12.6 V"
    std::string_view base_unit = {}; // in which a number of it is kept: that of the SI, but degC, rpm and Ah
};
std::span<const DimensionRow> dimensions(); // in the order of Dimension
const DimensionRow& row_of(Dimension dimension);

struct Unit {
    std::string_view written; // as the foreman types it
    std::string_view printed; // as the sheet shows it
    Dimension dimension;
    double factor; // to the base unit of its dimension
};

std::span<const Unit> units();
const Unit* find_unit(std::string_view written);
// The unit that a word such as "volts" or "Amp" means; null when it means none. No word is a unit of the language.
const Unit* unit_meant(std::string_view word);

} // namespace loomsheet
