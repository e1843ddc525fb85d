// What a check measures, and with which function of the meter: one row each.
#pragma once
#include "grammar/units.hpp"
#include <cstdint>
#include <optional>
#include <string_view>

namespace loomsheet {

enum class MeterFunction : std::uint8_t { volts, ohms, amps, clamp };
struct MeterFunctionRow {
    std::string_view word = {}; // of the statement `meter`
    Dimension dimension = Dimension::volt;
    std::string_view role = {}; // of its readings, for what they can be at all
};
const MeterFunctionRow& row_of(MeterFunction function);
std::optional<MeterFunction> meter_function(std::string_view word);

enum class MeasureKind : std::uint8_t { nothing, volts, volts_ac, drop, ohms, continuity, amps, clamp, testlamp, look, read };

enum class Gives : std::uint8_t { nothing, number, yes_or_no, sight }; // sight: what is seen, heard or felt
struct MeasureRow {
    std::string_view word = {}; // as a plan has it
    Gives gives = Gives::nothing;
    std::optional<MeterFunction> meter = {}; // where the dial stands, or what the answer comes from; none: no meter
    bool two_points = false;                 // from red to black, not in line or round a wire
    bool computed = true;                    // the circuit says what it gives
};
const MeasureRow& row_of(MeasureKind kind);

inline std::string_view measure_word(MeasureKind kind) { return row_of(kind).word; }
MeasureKind measure_kind(std::string_view word); // of a word that the grammar has
bool is_ohms(MeasureKind kind);
bool is_current(MeasureKind kind); // amps in line and by clamp
// Of its number; none where it gives none, or one in a unit of its own.
std::optional<Dimension> dimension_of(MeasureKind kind);
// In which what it reads is shown, as it is typed: "V", "ohm", "A".
MeterFunction shown_as(MeasureKind kind);
std::string_view shown_unit(MeasureKind kind);

} // namespace loomsheet
