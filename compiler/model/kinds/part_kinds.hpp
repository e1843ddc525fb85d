// The kinds of part: one row each. All that is asked of a kind by itself stands here; what a plan may say of it stands in the phrases of
// the vocabulary.
#pragma once
#include "model/kinds/element_kinds.hpp"
#include "model/kinds/things.hpp"
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace loomsheet {

enum class PartKind : std::uint8_t {
    battery,
    fuse,
    breaker,
    relay,
    switch_,
    motor,
    lamp,
    heater,
    solenoid,
    horn,
    resistor,
    diode,
    sensor,
    module,
    assembly,
    splice,
    ground,
    connector,
    plain, // plain = `part`: nothing electrical
};
inline constexpr std::size_t part_kind_count = 19;

// What a part may have; one that its kind cannot be without is asked for.
enum class Has : std::uint8_t {
    nothing,
    volts,
    rating,
    coil,
    contact,
    load,
    resistor,
    diode,
    any_element,
    supply,
    ground,
    pins,
    cavities,
    counterpart,
};
struct Need {
    Has what = Has::nothing;
    std::string_view word = {}; // "its coil"
    std::string_view such = {}; // "coil 86/85 85 ohm"
};
// By what it is seen to work or not.
enum class Watched : std::uint8_t { load, armature, link, unit };

struct PartKindRow {
    std::string_view word = {};             // of its statement
    std::string_view pins = {};             // those of every one, apart by blanks: "+ -"
    std::optional<ElementKind> itself = {}; // what lies between those two without being said: a source, a link
    bool is_point = false;                  // one metal without pins, named alone
    bool is_load = false;                   // works for the driver
    bool in_holder = false;                 // pulled out of a socket or holder, when it has no plug
    bool takes_plug = true;                 // a connector may sit on it
    Watched watched = Watched::load;
    std::string_view states = "works fails"; // what can be seen, heard or felt of it, as messages list them
    Things as_a_whole = thing::nothing;      // nothing: only what is in it can fail
    Things winding = thing::ohmic;           // what a winding in it is
    Need needs = {}, also_needs = {};
};
std::span<const PartKindRow> part_kinds(); // in the order of PartKind
const PartKindRow& row_of(PartKind kind);
// The kind whose statement this is. Every statement of a part has one.
PartKind part_kind(std::string_view word);

inline std::string_view kind_word(PartKind kind) { return row_of(kind).word; }
inline bool is_load(PartKind kind) { return row_of(kind).is_load; }
std::string a_kind(PartKind kind); // "a fuse", "an assembly"

} // namespace loomsheet
