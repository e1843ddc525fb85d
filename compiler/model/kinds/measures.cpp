#include "model/kinds/measures.hpp"
#include "grammar/rows.hpp"
#include <algorithm>

namespace loomsheet {

namespace {
constexpr MeterFunctionRow function_row(MeterFunction function) {
    switch (function) {
    case MeterFunction::volts: return {"volts", Dimension::volt, "reading in volts"};
    case MeterFunction::ohms: return {"ohms", Dimension::ohm, "reading in ohms"};
    case MeterFunction::amps: return {"amps", Dimension::ampere, "reading in amps"};
    case MeterFunction::clamp: return {"clamp", Dimension::ampere, "reading in amps"};
    }
    return {};
}
constexpr auto function_rows = all_rows<MeterFunction, function_row>();

constexpr MeasureRow measure_row(MeasureKind kind) {
    constexpr auto volts = MeterFunction::volts, ohms = MeterFunction::ohms;
    switch (kind) {
    case MeasureKind::nothing: return {.word = "nothing"};
    case MeasureKind::volts: return {.word = "volts", .gives = Gives::number, .meter = volts, .two_points = true};
    case MeasureKind::volts_ac: return {.word = "volts ac", .gives = Gives::number, .meter = volts, .two_points = true, .computed = false};
    case MeasureKind::drop: return {.word = "drop", .gives = Gives::number, .meter = volts, .two_points = true};
    case MeasureKind::ohms: return {.word = "ohms", .gives = Gives::number, .meter = ohms, .two_points = true};
    case MeasureKind::continuity: return {.word = "continuity", .gives = Gives::yes_or_no, .meter = ohms, .two_points = true};
    case MeasureKind::amps: return {.word = "amps", .gives = Gives::number, .meter = MeterFunction::amps};
    case MeasureKind::clamp: return {.word = "clamp", .gives = Gives::number, .meter = MeterFunction::clamp};
    case MeasureKind::testlamp: return {.word = "testlamp", .gives = Gives::yes_or_no, .meter = volts, .two_points = true};
    case MeasureKind::look: return {.word = "look", .gives = Gives::sight};
    case MeasureKind::read: return {.word = "read", .gives = Gives::number, .computed = false};
    }
    return {};
}
constexpr auto measure_rows = all_rows<MeasureKind, measure_row>();
} // namespace

const MeterFunctionRow& row_of(MeterFunction function) { return function_rows[static_cast<std::size_t>(function)]; }
const MeasureRow& row_of(MeasureKind kind) { return measure_rows[static_cast<std::size_t>(kind)]; }

std::optional<MeterFunction> meter_function(std::string_view word) {
    for (std::size_t i = 0; i < function_rows.size(); ++i)
        if (function_rows[i].word == word) return static_cast<MeterFunction>(i);
    return std::nullopt;
}

MeasureKind measure_kind(std::string_view word) {
    const auto found = std::find_if(measure_rows.begin(), measure_rows.end(), [word](const MeasureRow& row) { return row.word == word; });
    return static_cast<MeasureKind>(found - measure_rows.begin());
}

bool is_ohms(MeasureKind kind) { return row_of(kind).meter == MeterFunction::ohms; }
bool is_current(MeasureKind kind) {
    const auto meter = row_of(kind).meter;
    return meter && row_of(*meter).dimension == Dimension::ampere;
}

std::optional<Dimension> dimension_of(MeasureKind kind) {
    const MeasureRow& row = row_of(kind);
    if (row.gives != Gives::number || !row.meter) return std::nullopt;
    return row_of(*row.meter).dimension;
}

MeterFunction shown_as(MeasureKind kind) { return row_of(kind).meter.value_or(MeterFunction::volts); }
std::string_view shown_unit(MeasureKind kind) { return row_of(row_of(shown_as(kind)).dimension).base_unit; }

} // namespace loomsheet
