#include "grammar/units.hpp"
#include "grammar/rows.hpp"
#include <algorithm>
#include <cctype>

namespace loomsheet {

namespace {
constexpr Unit unit_rows[] = {
    {"V", "V", Dimension::volt, 1},
    {"mV", "mV", Dimension::volt, 1e-3},
    {"kV", "kV", Dimension::volt, 1e3},
    {"A", "A", Dimension::ampere, 1},
    {"mA", "mA", Dimension::ampere, 1e-3},
    {"W", "W", Dimension::watt, 1},
    {"kW", "kW", Dimension::watt, 1e3},
    {"ohm", "Ω", Dimension::ohm, 1},
    {"Ω", "Ω", Dimension::ohm, 1}, // U+03A9
    {"Ω", "Ω", Dimension::ohm, 1}, // U+2126
    {"kohm", "kΩ", Dimension::ohm, 1e3},
    {"kΩ", "kΩ", Dimension::ohm, 1e3},
    {"mohm", "mΩ", Dimension::ohm, 1e-3},
    {"mΩ", "mΩ", Dimension::ohm, 1e-3},
    {"Mohm", "MΩ", Dimension::ohm, 1e6},
    {"MΩ", "MΩ", Dimension::ohm, 1e6},
    {"m", "m", Dimension::metre, 1},
    {"cm", "cm", Dimension::metre, 1e-2},
    {"mm", "mm", Dimension::metre, 1e-3},
    {"mm2", "mm²", Dimension::area, 1e-6},
    {"mm²", "mm²", Dimension::area, 1e-6},
    {"ms", "ms", Dimension::second, 1e-3},
    {"s", "s", Dimension::second, 1},
    {"min", "min", Dimension::second, 60},
    {"h", "h", Dimension::second, 3600},
    {"degC", "°C", Dimension::temperature, 1},
    {"°C", "°C", Dimension::temperature, 1},
    {"K", "K", Dimension::kelvin, 1},
    {"%", "%", Dimension::percent, 1e-2},
    {"Hz", "Hz", Dimension::hertz, 1},
    {"rpm", "rpm", Dimension::speed, 1},
    {"bar", "bar", Dimension::pressure, 1e5},
    {"kPa", "kPa", Dimension::pressure, 1e3},
    {"Nm", "Nm", Dimension::torque, 1},
    {"Ah", "Ah", Dimension::charge, 1},
};
struct UnitWord {
    std::string_view word, written;
};
constexpr UnitWord words[] = {
    {"volt", "V"},   {"volts", "V"},      {"amp", "A"},    {"amps", "A"},    {"ampere", "A"},  {"amperes", "A"},
    {"watt", "W"},   {"watts", "W"},      {"ohms", "ohm"}, {"meter", "m"},   {"metre", "m"},   {"meters", "m"},
    {"metres", "m"}, {"qmm", "mm2"},      {"sqmm", "mm2"}, {"sec", "s"},     {"seconds", "s"}, {"minutes", "min"},
    {"hours", "h"},  {"celsius", "degC"}, {"kelvin", "K"}, {"percent", "%"}, {"hertz", "Hz"},  {"1/min", "rpm"},
};
constexpr DimensionRow dimension_row(Dimension dimension) {
    switch (dimension) {
    case Dimension::volt: return {"a voltage", "12.6 V", "V"};
    case Dimension::ampere: return {"a current", "40 A", "A"};
    case Dimension::watt: return {"a power", "55 W", "W"};
    case Dimension::ohm: return {"a resistance", "85 ohm", "ohm"};
    case Dimension::metre: return {"a length", "0.6 m", "m"};
    case Dimension::area: return {"a cross-section", "6 mm2", "m2"};
    case Dimension::second: return {"a time", "4 min", "s"};
    case Dimension::temperature: return {"a temperature", "80 degC", "degC"};
    case Dimension::kelvin: return {"a number of kelvin", "3988 K", "K"};
    case Dimension::percent: return {"a percentage", "15 %", "1"};
    case Dimension::hertz: return {"a frequency", "50 Hz", "Hz"};
    case Dimension::speed: return {"an engine speed", "2000 rpm", "rpm"};
    case Dimension::pressure: return {"a pressure", "3.5 bar", "Pa"};
    case Dimension::torque: return {"a torque", "9 Nm", "Nm"};
    case Dimension::charge: return {"a capacity", "70 Ah", "Ah"};
    }
    return {};
}
constexpr auto dimension_rows = all_rows<Dimension, dimension_row>();
} // namespace

std::span<const Unit> units() { return unit_rows; }

const Unit* find_unit(std::string_view written) {
    if (written.size() > 5) return nullptr;
    for (const Unit& unit : unit_rows)
        if (unit.written == written) return &unit;
    return nullptr;
}

const Unit* unit_meant(std::string_view word) {
    const auto same = [](char a, char b) { return std::tolower(static_cast<unsigned char>(a)) == b; };
    for (const UnitWord& row : words)
        if (std::equal(word.begin(), word.end(), row.word.begin(), row.word.end(), same)) return find_unit(row.written);
    return nullptr;
}

std::span<const DimensionRow> dimensions() { return dimension_rows; }
const DimensionRow& row_of(Dimension dimension) { return dimension_rows[static_cast<std::size_t>(dimension)]; }

} // namespace loomsheet
