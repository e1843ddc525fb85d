// The circuit with all names resolved. Ids are indices into the vectors of `Circuit`. Knows no voltages.
#pragma once
#include "model/kinds/element_kinds.hpp"
#include "model/kinds/part_kinds.hpp"
#include "model/quantity.hpp"
#include <string>
#include <unordered_map>
#include <vector>

namespace loomsheet {

using PartId = int;
using PinId = int;
using WireId = int;
using PanelId = int;
inline constexpr int none = -1;

// What a text of the author's says, and where.
struct Words {
    std::string text;
    Span at;
};

// `allow LS403 "why"`: a warning accepted on purpose.
struct Allow {
    int code = 0;
    std::string why;
    Span at;
};

struct TableValue {       // a value under a condition or at a position
    std::string position; // "rest", "released", or empty where `at_value` counts
    MaybeQuantity at_value;
    MaybeQuantity value;
    std::vector<std::pair<PinId, PinId>> closed; // switches: what is closed at this position
    Span at;
};

// `closed when key on crank`, or the positions of a switch
struct Condition {
    std::vector<std::string> key; // off acc on crank
    bool engine_running = false, asleep = false;
    Span at;
};

struct Element {
    ElementKind kind = ElementKind::load;
    PinId a = none, b = none, c = none;
    MaybeQuantity value, holds_at, more; // see ElementKind: each with its unit
    std::vector<TableValue> table;       // ntc: ohms at temperatures; pot: percent at positions
    bool pulls_down = false, flashes = false;
    PartId follows = none;         // module_output that follows a switch
    MaybeQuantity duration;        // "for 2 s"
    std::optional<Condition> when; // contacts `closed when key on crank`
    std::string name;              // "fan relay"
    Span at;
};

struct Pin {
    PartId part = none;
    std::string name;      // "87a", "B+"
    std::string mark;      // a connector's own name for the cavity: `named 1=L`
    Span at;               // where it was first written
    PinId mate = none;     // what it meets when plugged in
    bool declared = false; // can be reached: a pin of an assembly that it does not list is inside
};

struct Draw { // what a module draws, what a battery gives, under a condition
    Quantity value;
    std::optional<Condition> when;
};

struct Part {
    std::string id;   // "K5"
    std::string name; // "Fan relay", may be empty
    PartKind kind = PartKind::plain;
    std::string sensor_kind;
    Span at; // the designator where it is declared
    std::string place;
    PanelId panel = none;    // what must come off first; inherited by its plug
    std::string metal;       // body engine chassis: where a bolted case or a ground point sits; empty: not said
    PartId bolted_to = none; // `31 on XE2`
    PinId bolted_pin = none;
    PartId assembly = none;
    double likely = 1;
    std::vector<Words> notes, cautions;
    std::string how; // how its state is brought about
    std::vector<PinId> pins;
    std::vector<Element> elements;
    // ratings
    MaybeQuantity rating;          // fuse, breaker
    std::string fuse_type;         // C E F, ISO 8820-3
    MaybeQuantity opens_at;        // breaker temperature
    std::string resets;            // "itself" or "hand"
    MaybeQuantity capacity, inner; // battery
    std::vector<Draw> gives;       // battery volts
    std::vector<Draw> draws;       // module
    MaybeQuantity pulls_in, drops_out, stalls_at, needs;
    std::vector<PinId> supply_pins, ground_pins; // module
    std::optional<Condition> closed_when;        // switch: when its contact is closed (each contact has its own `when` too)
    std::vector<TableValue> positions;           // switch: the first is the normal one
    std::vector<PinId> joined;                   // splice
    bool sprung = false, bare = false;
    // connector
    int cavities = 0;
    PartId plugs_on = none;                               // `on M3`
    PartId twin = none;                                   // the other half of an in-line pair
    std::string half;                                     // "body"
    std::vector<std::pair<std::string, std::string>> map; // cavity to pin, where the numbers differ
    std::string lock;                                     // "at 12 o'clock"
    int face_rows = 0, face_columns = 0;
    bool first_half = false; // the half that was declared (the twin is made from it)
    std::vector<Allow> allows;

    const TableValue* find_position(std::string_view word) const;
};

struct Colour {
    std::string base, stripe; // codes; stripe may be empty; base "GNYE" stands alone
    std::string code() const { return stripe.empty() ? base : base + "/" + stripe; }
    bool empty() const { return base.empty(); }
};

struct Wire {
    std::string id;
    PinId from = none, to = none;
    MaybeQuantity area; // m²; from AWG too
    std::string gauge;  // as written: "6 mm²", "AWG 10"
    Colour colour;
    MaybeQuantity length, rated;
    bool unfused = false;
    std::string cable; // the cable it runs in, if any
    std::vector<Words> notes;
    double likely = 1;
    std::vector<Allow> allows;
    Span at;
};

struct Cable {
    std::string id, name;
    std::vector<WireId> wires;
    bool twisted = false;
    Span at;
};

struct Panel {
    std::string label, name, how;
    MaybeQuantity time;
    Span at;
};

struct MeterRow { // `meter clamp ±10 mA`
    std::string function;
    Quantity within;
    Span at;
};

struct Circuit {
    std::vector<Part> parts;
    std::vector<Pin> pins;
    std::vector<Wire> wires;
    std::vector<Cable> cables;
    std::vector<Panel> panels;
    std::vector<MeterRow> meters;
    std::vector<std::pair<std::string, std::string>> own_colours; // TN, "tan"

    PartId find_part(std::string_view id) const; // none when there is none
    WireId find_wire(std::string_view id) const;
    PanelId find_panel(std::string_view label) const;
    PinId find_pin(PartId part, std::string_view name) const;
    // "X21.1"; splices and ground points are named alone: "XE1"
    std::string pin_name(PinId pin) const;
    std::vector<WireId> wires_at(PinId pin) const;
    // The pin that this one meets when plugged in: X21.1 -> M3.1, M3.1 -> X21.1, X30.1 -> X31.1; none when nothing.
    PinId mate(PinId pin) const;
    // The connector that plugs onto a part, none when it has none; for an in-line half its twin.
    PartId plug_of(PartId part) const;
    // Held in a socket or holder, so that it is `pulled`: fuses, breakers, relays, lamps without a plug.
    bool sits_in_holder(PartId part) const;
    // The panel of a part, or of the part its plug sits on.
    PanelId panel_of(PartId part) const;
    std::string place_of(PartId part) const;
    // "fuse 40 A, type C", "fan motor": what a part is, in words, for the sheet and for messages: "F14 (Fan)"
    std::string part_name(PartId part) const;

    // Made once, when the circuit is whole; until then the questions above look everything through.
    void index();

    struct Lookup { // made by index(), of what stands above
        bool made = false;
        std::unordered_map<std::string, PartId> parts_by_id;
        std::vector<std::vector<WireId>> wires_by_pin;
        std::vector<PartId> plugs;
    } lookup;
};

} // namespace loomsheet
