// A number with its unit, as written and in SI.
#pragma once
#include "grammar/units.hpp"
#include "source/text.hpp"
#include <optional>
#include <string>

namespace loomsheet {

struct Quantity {
    double si = 0;           // in the unit's base: V A W ohm m m2 s Hz Pa N·m, degC for temperatures, 1 for %, Ah for Ah
    std::optional<double> plus_minus; // tolerance in the same base, never negative; none: not written, `±0 %` is exact
    const Unit* unit = nullptr;
    std::string written;     // "12.6 V", "85 ohm ±10 %" with the units as they are printed (Ω, °C, mm²)
    Span at;
    double low() const { return si - plus_minus.value_or(0); }
    double high() const { return si + plus_minus.value_or(0); }
};
using MaybeQuantity = std::optional<Quantity>;

} // namespace loomsheet
