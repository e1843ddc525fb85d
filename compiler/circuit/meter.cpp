#include "circuit/meter.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

struct AccuracyRow {
    MeterFunction function;
    std::string_view word; // of the statement `meter`
    double percent, digits;
    double first_step, last_step; // of the finest and the coarsest range
};
// Volts: common practice, published between 0.1 and 0.7 %. Ohms: the manual of a 3½ digit meter. Amps in line and by
// clamp: common practice, no source.
constexpr AccuracyRow accuracies[] = {
    {MeterFunction::volts, "volts", 0.5, 2, 1e-3, 1},
    {MeterFunction::ohms, "ohms", 0.8, 2, 0.1, 1e4},
    {MeterFunction::amps, "amps", 1.5, 3, 1e-3, 1e-2},
    {MeterFunction::clamp, "clamp", 2, 10, 1e-2, 0.1},
};
constexpr double steps_shown = 2000;

const AccuracyRow& accuracy_of(MeterFunction function) {
    return *std::find_if(std::begin(accuracies), std::end(accuracies), [&](const AccuracyRow& row) { return row.function == function; });
}

} // namespace

double Meter::step(double reading) const {
    const AccuracyRow& row = accuracy_of(function);
    double step = row.first_step;
    while (step < row.last_step && std::abs(reading) >= step * steps_shown)
        step *= 10;
    return step;
}

double Meter::error(double reading) const {
    if (offset >= 0) return offset;
    return percent / 100 * std::abs(reading) + digits * step(reading);
}

Meter meter_for(const Circuit& circuit, MeterFunction function) {
    const AccuracyRow& row = accuracy_of(function);
    Meter meter{function, row.percent, row.digits};
    for (const MeterRow& own : circuit.meters)
        if (own.function == row.word) {
            const double within = own.within.si;
            if (own.within.unit->dimension == Dimension::percent)
                meter.percent = within * 100;
            else
                meter.offset = within;
        }
    return meter;
}

double rounded_down(double value, double step) { return std::floor(value / step + 1e-9) * step; }
double rounded_up(double value, double step) { return std::ceil(value / step - 1e-9) * step; }

} // namespace loomsheet
