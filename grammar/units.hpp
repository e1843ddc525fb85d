// Units of the language: one row each. Case counts (mA is not MA).
#pragma once
#include <span>
#include <string_view>

namespace loomsheet {

enum class Dimension : unsigned char {
    volt, ampere, watt, ohm, metre, area, second, temperature, kelvin, percent, hertz, speed, pressure, torque, charge,
};

struct Unit {
    std::string_view written; // as the foreman types it
    std::string_view printed; // as the sheet shows it
    Dimension dimension;
    double factor; // to the base of the dimension: V A W ohm m m2 s degC K 1 Hz rpm Pa N·m Ah
};

std::span<const Unit> units();
const Unit* find_unit(std::string_view written);
// The unit that a word such as "volts" or "Amp" means; null when it means none. No word is a unit of the language.
const Unit* unit_meant(std::string_view word);
std::string_view dimension_name(Dimension dimension); // "a voltage", "a length", ...
// A right way to write one, such as "12.6 V".
std::string_view dimension_example(Dimension dimension);

} // namespace loomsheet
