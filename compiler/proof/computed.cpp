#include "proof/computed.hpp"
#include "proof/reading_table.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace loomsheet {
namespace {

Quantity quantity(double value, double step, MeasureKind measure) {
    Quantity made;
    made.written = value_words(value, step, measure);
    made.unit = find_unit(std::string_view(made.written).substr(made.written.find(' ') + 1));
    made.si = std::round(value / step) * step;
    return made;
}

} // namespace

std::optional<Limit> computed_limit(const Circuit& circuit, MeasureKind measure, const Reading& reading) {
    Limit limit;
    switch (reading.kind) {
    case ReadingKind::open: limit.kind = LimitKind::open; return limit;
    case ReadingKind::yes: limit.kind = LimitKind::yes; return limit;
    case ReadingKind::no: limit.kind = LimitKind::no; return limit;
    case ReadingKind::number: break;
    default: return std::nullopt;
    }
    if (reading.may_be_open) { // above it, open too
        const double least = shown_step(circuit, reading.low, measure);
        limit.kind = LimitKind::above, limit.low = quantity(rounded_down(reading.low, least), least, measure);
        return limit;
    }
    const double step = shown_step(circuit, std::max(std::abs(reading.low), std::abs(reading.high)), measure);
    const double low = rounded_down(reading.low, step), high = rounded_up(reading.high, step);
    const bool from_zero = measure == MeasureKind::drop || (low <= 0 && high >= -low); // a small drop is a good one
    limit.kind = from_zero ? LimitKind::below : LimitKind::range;
    limit.high = quantity(high, step, measure);
    if (!from_zero) limit.low = quantity(low, step, measure);
    return limit;
}

std::optional<Limit> widened_limit(const Circuit& circuit, MeasureKind measure, const Reading& reading, const Limit& limit) {
    if (reading.kind != ReadingKind::number || reading.may_be_open || (!limit.low && !limit.high))
        return computed_limit(circuit, measure, reading);
    Limit wide = limit;
    const auto step = [&](double value) { return shown_step(circuit, value, measure) * (std::abs(value) < 2 ? 1 : 10); };
    if (wide.low && reading.low < wide.low->si)
        wide.low = quantity(rounded_down(reading.low, step(reading.low)), step(reading.low), measure);
    if (wide.low && wide.low->si <= 0 && wide.high) wide.kind = LimitKind::below, wide.low.reset();
    if (wide.high && reading.high > wide.high->si)
        wide.high = quantity(rounded_up(reading.high, step(reading.high)), step(reading.high), measure);
    return wide;
}

void fill_limits(Plan& plan, Prediction& prediction) {
    for (std::size_t i = 0; i < plan.checks.size(); ++i) {
        Check& check = plan.checks[i];
        for (std::size_t r = 0; r < check.rows.size() && r < prediction[i].rows.size(); ++r) {
            if (prediction[i].rows[r].limit) continue;
            auto limit = computed_limit(plan.circuit, check.measure, prediction[i].rows[r].reading);
            if (!limit) continue;
            limit->at = check.measure_at;
            if (check.rows.size() > 1) limit->row = check.rows[r].name;
            prediction[i].rows[r].limit = *limit;
            check.limits.push_back(std::move(*limit));
            for (TurnPrediction& turn : prediction[i].turns)
                turn.rows[r].limit = check.limits.back(), turn.rows[r].fit = fit_of(check, turn.rows[r]);
            prediction[i].rows[r].fit = fit_of(check, prediction[i].rows[r]);
        }
    }
}

} // namespace loomsheet
