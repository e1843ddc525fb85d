#include "circuit/wire_tables.hpp"
#include "model/wire_size.hpp"

namespace loomsheet {
namespace {

// mohm/m: trade-data 2.3. Amps: thin-wall trade tables in the manner of BS 6862, trade-data 3.4; 0.5 and 1.5 mm² were
// seen, the others to 6 mm² are from memory (4 mm² is given as 39 to 42 A: the lower). 0.35 mm² and 10 mm² on: figures
// usual for flexible vehicle and battery cable (about 7 A a mm²), from memory.
constexpr MetricWireRow metric_rows[] = {
    {0.35, 54.4, 0, 7, false},      {0.5, 37.1, 39.0, 11, true},    {0.75, 24.7, 26.0, 14, false},  {1, 18.5, 19.5, 16.5, false},
    {1.5, 12.7, 13.3, 21, true},    {2, 9.42, 0, 25, false},        {2.5, 7.60, 7.98, 29, false},   {3, 6.15, 0, 33, false},
    {4, 4.71, 4.95, 39, false},     {6, 3.14, 3.30, 50, false},     {10, 1.82, 1.91, 70, false},    {16, 1.16, 1.21, 110, false},
    {25, 0.743, 0.780, 170, false}, {35, 0.527, 0.554, 240, false}, {50, 0.368, 0.386, 345, false}, {70, 0.259, 0.272, 485, false},
    {95, 0.196, 0.206, 0, false},   {120, 0.153, 0.161, 0, false},
};

// Trade-data 3.4.
constexpr GaugeRow gauge_rows[] = {
    {"18", 18, 20, 17}, {"16", 16, 25, 21}, {"14", 14, 35, 30}, {"12", 12, 45, 38},   {"10", 10, 60, 51},    {"8", 8, 80, 68},
    {"6", 6, 120, 102}, {"4", 4, 160, 136}, {"2", 2, 210, 178}, {"1/0", 0, 285, 242}, {"2/0", -1, 330, 280}, {"4/0", -3, 445, 378},
};

constexpr double fuse_rows[] = {1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100};

constexpr std::string_view thin_wall_seen = "thin-wall cable, trade table";
constexpr std::string_view thin_wall_remembered = "thin-wall cable, trade table, figure from memory";
constexpr std::string_view engine_space = "ABYC E-11, engine space of 50 °C";

} // namespace

std::span<const MetricWireRow> metric_wires() { return metric_rows; }
std::span<const GaugeRow> gauges() { return gauge_rows; }
std::span<const double> fuse_ratings() { return fuse_rows; }

std::optional<Ampacity> ampacity(std::string_view gauge, double mm2) {
    constexpr double slack = 1.001; // a size that was worked out from its gauge is a hair off
    if (gauge.starts_with("AWG")) {
        const GaugeRow* row = nullptr;
        for (const GaugeRow& each : gauge_rows)
            if (gauge_area(each.n) * 1e6 <= mm2 * slack) row = &each;
        if (!row) return std::nullopt;
        return Ampacity{row->engine_amps, engine_space};
    }
    const MetricWireRow* row = nullptr;
    for (const MetricWireRow& each : metric_rows)
        if (each.amps > 0 && each.mm2 <= mm2 * slack) row = &each;
    if (!row) return std::nullopt;
    return Ampacity{row->amps, row->amps_seen ? thin_wall_seen : thin_wall_remembered};
}

} // namespace loomsheet
