// What a copper wire resists and carries, by its size: the published tables, each with its source.
#pragma once
#include <optional>
#include <span>
#include <string_view>

namespace loomsheet {

struct MetricWireRow {
    double mm2;
    double iso6722; // mohm/m at 20 degC, largest allowed: ISO 6722-1:2011, from memory; 0 = no row
    double class5;  // mohm/m at 20 degC, largest allowed: IEC 60228 class 5, plain copper; 0 = no row
    double amps;    // what a single thin-wall cable carries; 0 = no row
    bool amps_seen; // the figure stands in a published trade table; else it is from memory
};
std::span<const MetricWireRow> metric_wires(); // by size

struct GaugeRow {
    std::string_view awg;
    int n;              // 0 for 1/0, -1 for 2/0, -3 for 4/0
    double amps;        // ABYC E-11 / 33 CFR 183.425, 105 degC insulation, single, 30 degC round it
    double engine_amps; // the same in an engine space of 50 degC (x 0.85)
};
std::span<const GaugeRow> gauges(); // thin ones first

inline constexpr double copper_ohm_mm2_per_m = 1 / 58.0; // annealed copper at 20 degC: IEC 60028 (NBS Handbook 100)

// What a wire may carry, and the words that name the table.
struct Ampacity {
    double amps;
    std::string_view basis;
};
// `gauge` as it is written ("6 mm²", "AWG 10"); `mm2` is its area. Between two sizes the smaller one counts; none for a
// wire thinner than the table.
std::optional<Ampacity> ampacity(std::string_view gauge, double mm2);

// Ratings that blade fuses of types C, E and F are made in, in A: ISO 8820-3, trade-data 3.1.
std::span<const double> fuse_ratings();

} // namespace loomsheet
