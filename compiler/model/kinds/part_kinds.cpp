#include "model/kinds/part_kinds.hpp"
#include "grammar/rows.hpp"
#include "source/english.hpp"
#include <algorithm>

namespace loomsheet {

namespace {
constexpr PartKindRow part_row(PartKind kind) {
    constexpr Need current{Has::load, "its pins and current", "1/2 22 A"}, power{Has::load, "its pins and power", "1/2 55 W at 12 V"},
        rating{Has::rating, "its rating", "40 A"};
    constexpr std::string_view link_states = "whole blown works fails", coil_states = "still works chatters fails";
    switch (kind) {
    case PartKind::battery:
        return {.word = "battery",
                .pins = "+ -",
                .itself = ElementKind::source,
                .as_a_whole = thing::battery,
                .needs = {Has::volts, "its volts", "12.6 V"}};
    case PartKind::fuse:
        return {.word = "fuse",
                .pins = "1 2",
                .itself = ElementKind::link,
                .in_holder = true,
                .takes_plug = false,
                .watched = Watched::link,
                .states = link_states,
                .as_a_whole = thing::fuse,
                .needs = rating};
    case PartKind::breaker:
        return {.word = "breaker",
                .pins = "1 2",
                .itself = ElementKind::link,
                .in_holder = true,
                .watched = Watched::link,
                .states = link_states,
                .as_a_whole = thing::fuse,
                .needs = rating};
    case PartKind::relay:
        return {.word = "relay",
                .in_holder = true,
                .watched = Watched::armature,
                .states = coil_states,
                .needs = {Has::coil, "its coil", "coil 86/85 85 ohm"},
                .also_needs = {Has::contact, "its contact", "contact 30/87"}};
    case PartKind::switch_: return {.word = "switch", .needs = {Has::contact, "its contacts", "at rest, at pressed 1/2"}};
    case PartKind::motor:
        return {.word = "motor",
                .is_load = true,
                .states = "still runs slow works fails",
                .as_a_whole = thing::motor,
                .winding = thing::bent | thing::load,
                .needs = current};
    case PartKind::lamp:
        return {.word = "lamp",
                .is_load = true,
                .in_holder = true,
                .states = "dark dim lit works fails",
                .as_a_whole = thing::lamp,
                .winding = thing::bent | thing::load,
                .needs = power};
    case PartKind::heater: return {.word = "heater", .is_load = true, .winding = thing::ohmic | thing::load, .needs = power};
    case PartKind::solenoid:
        return {.word = "solenoid", .is_load = true, .states = coil_states, .winding = thing::ohmic | thing::load, .needs = current};
    case PartKind::horn: return {.word = "horn", .is_load = true, .winding = thing::ohmic | thing::load, .needs = current};
    case PartKind::resistor: return {.word = "resistor", .needs = {Has::resistor, "its pins and ohms", "1/2 0.35 ohm"}};
    case PartKind::diode: return {.word = "diode", .needs = {Has::diode, "its pins", "1/2"}};
    case PartKind::sensor:
        return {.word = "sensor",
                .as_a_whole = thing::sensor,
                .needs = {Has::any_element, "what it is", "ntc 1/2, or coil 1/2 1.2 kohm, or pot 1/2/3 1.2 kohm, or hall"}};
    case PartKind::module:
        return {.word = "module",
                .watched = Watched::unit,
                .states = "works chatters fails",
                .as_a_whole = thing::module,
                .needs = {Has::supply, "its supply", "supply 30"},
                .also_needs = {Has::ground, "its ground", "ground 31"}};
    case PartKind::assembly:
        return {.word = "assembly", .states = "still runs slow chatters works fails", .needs = {Has::pins, "its pins", "pins 30 50 31"}};
    case PartKind::splice: return {.word = "splice", .is_point = true, .takes_plug = false, .states = "", .as_a_whole = thing::splice};
    case PartKind::ground: return {.word = "ground", .is_point = true, .takes_plug = false, .states = "", .as_a_whole = thing::ground};
    case PartKind::connector:
        return {.word = "connector",
                .takes_plug = false,
                .states = "",
                .as_a_whole = thing::plug,
                .needs = {Has::cavities, "how many pins it has", "2 pins"},
                .also_needs = {Has::counterpart, "what it plugs into", "on M3, or for an in-line pair: mates X31"}};
    case PartKind::plain: return {.word = "part"};
    }
    return {};
}
constexpr auto part_rows = all_rows<PartKind, part_row>();
static_assert(part_rows.size() == part_kind_count);
} // namespace

std::span<const PartKindRow> part_kinds() { return part_rows; }
const PartKindRow& row_of(PartKind kind) { return part_rows[static_cast<std::size_t>(kind)]; }

PartKind part_kind(std::string_view word) {
    const auto found = std::find_if(part_rows.begin(), part_rows.end(), [word](const PartKindRow& row) { return row.word == word; });
    return found == part_rows.end() ? PartKind::plain : static_cast<PartKind>(found - part_rows.begin());
}

std::string a_kind(PartKind kind) { return with_article(kind_word(kind)); }

} // namespace loomsheet
