// A number with its unit, as written and in SI.
#pragma once
#include "grammar/units.hpp"
#include "source/text.hpp"
#include <optional>
#include <string>

namespace loomsheet {

struct Quantity {
    double si = 0;                    // in the base unit of its dimension (grammar/units.cpp): that of the SI, but °C, rpm and Ah
    std::optional<double> plus_minus; // tolerance in the same base, never negative; none: not written, `±0 %` is exact
    const Unit* unit = nullptr;
    std::string written; // "12.6 V", "85 ohm ±10 %" with the units as they are printed (Ω, °C, mm²)
    Span at;
    double low() const { return si - plus_minus.value_or(0); }
    double high() const { return si + plus_minus.value_or(0); }
};
using MaybeQuantity = std::optional<Quantity>;

} // namespace loomsheet
