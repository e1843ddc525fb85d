#include "circuit/meter.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

struct Accuracy {
    double percent, digits;
    double first_step, last_step; // of the finest and the coarsest range
};
// Volts: common practice, published between 0.1 and 0.7 %. Ohms: the manual of a 3½ digit meter. Amps in line and by
// clamp: common practice, no source.
Accuracy accuracy_of(MeterFunction function) {
    switch (function) {
    case MeterFunction::volts: return {0.5, 2, 1e-3, 1};
    case MeterFunction::ohms: return {0.8, 2, 0.1, 1e4};
    case MeterFunction::amps: return {1.5, 3, 1e-3, 1e-2};
    case MeterFunction::clamp: return {2, 10, 1e-2, 0.1};
    }
    return {};
}
constexpr double steps_shown = 2000;

} // namespace

double Meter::step(double reading) const {
    const Accuracy row = accuracy_of(function);
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
    const Accuracy row = accuracy_of(function);
    Meter meter{function, row.percent, row.digits};
    for (const MeterRow& own : circuit.meters)
        if (own.function == row_of(function).word) {
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
