#include "model/reach.hpp"
#include <cmath>
#include <fmt/format.h>

namespace loomsheet {

namespace {
constexpr ReachRow rows[] = {
    {"battery voltage", 1, 60, "1 to 60 V"}, // above 60 V d.c. is high voltage (UN R100, from memory)
    {"capacity", 1, 400, "1 to 400 Ah"},
    {"inner resistance", 0.0005, 1, "0.5 mΩ to 1 Ω"},
    {"fuse rating", 0.1, 600, "0.1 to 600 A"},
    {"opening temperature", 40, 400, "40 to 400 °C"},
    {"coil resistance", 0.1, 50e3, "0.1 Ω to 50 kΩ"},
    {"relay voltage", 0.5, 48, "0.5 to 48 V"},
    {"load current", 0.001, 1500, "1 mA to 1500 A"},
    {"load power", 0.05, 10e3, "0.05 W to 10 kW"},
    {"load resistance", 0.001, 1e6, "1 mΩ to 1 MΩ"},
    {"load voltage", 1, 60, "1 to 60 V"},
    {"stall current", 0.05, 3000, "0.05 to 3000 A"},
    {"needed voltage", 0.5, 58, "0.5 to 58 V"},
    {"resistance", 0.0005, 100e6, "0.5 mΩ to 100 MΩ"},
    {"sensor resistance", 0.1, 10e6, "0.1 Ω to 10 MΩ"},
    {"temperature", -60, 1200, "−60 to 1200 °C"},
    {"beta", 500, 10e3, "500 to 10 000 K"},
    {"percentage", 0, 1, "0 to 100 %"},
    {"draw", 1e-6, 200, "1 µA to 200 A"},
    {"output current", 0.001, 100, "1 mA to 100 A"},
    {"duration", 0.001, 86400, "1 ms to 24 h"},
    {"sensor supply", 0.5, 58, "0.5 to 58 V"},
    {"input resistance", 1, 100e6, "1 Ω to 100 MΩ"},
    {"cross-section", 0.05e-6, 300e-6, "0.05 to 300 mm²"},
    {"length", 0.005, 50, "5 mm to 50 m"},
    {"wire current", 0.1, 2000, "0.1 to 2000 A"},
    {"system voltage", 5, 58, "6 V, 12 V, 24 V or 48 V"},
    {"check time", 1, 14400, "1 s to 4 h"},
    {"test load power", 0.5, 3000, "0.5 W to 3 kW"},
    {"test load current", 0.01, 1000, "10 mA to 1000 A"},
    {"bridge fuse", 0.1, 100, "0.1 to 100 A"},
    {"engine speed", 50, 12000, "50 to 12 000 rpm"},
    {"reading in volts", -1000, 1000, "−1000 to 1000 V"},
    {"reading in ohms", 0, 100e6, "0 to 100 MΩ"},
    {"reading in amps", -3000, 3000, "−3000 to 3000 A"},
    {"space", 0.005, 0.28, "5 to 280 mm"},
};
} // namespace

std::span<const ReachRow> reach_table() { return rows; }

const ReachRow* find_reach(std::string_view role) {
    for (const auto& row : rows)
        if (row.role == role) return &row;
    return nullptr;
}

std::string other_prefix(const Quantity& value, const ReachRow& row) {
    const double number = value.si / value.unit->factor;
    std::string best;
    double nearest = 0;
    for (const Unit& unit : units()) {
        if (unit.dimension != value.unit->dimension || unit.factor == value.unit->factor) continue;
        const double other = number * unit.factor;
        const double step = std::abs(std::log10(unit.factor / value.unit->factor));
        if (other < row.low || other > row.high) continue;
        // A slip of the shift key (M for m) is likelier than any other.
        const double slip = unit.written.size() == value.unit->written.size() ? step / 100 : step;
        if (best.empty() || slip < nearest) best = fmt::format("{} {}", number, unit.written), nearest = slip;
    }
    return best;
}

} // namespace loomsheet
