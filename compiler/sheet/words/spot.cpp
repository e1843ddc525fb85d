#include "sheet/words/spot.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

std::string with_state(const Wording& say, const Circuit& circuit, PartId part, Word state) {
    const std::string place = circuit.place_of(part);
    std::string words = say(Word::part_in_state, part_words(say, circuit.parts[part]), say(state));
    return place.empty() ? words : words + ", " + place;
}

void cavity_of_plug(const Wording& say, Spot& spot, const Circuit& circuit, const Setup& setup, const PointRef& point, PartId plug) {
    const bool apart = is_apart(circuit, setup, plug);
    spot.connector = plug;
    spot.cavity = point.pin;
    spot.view = apart ? View::mating_face : View::wire_side;
    spot.metal = apart ? Word::from_front : Word::wire_side;
    spot.place = with_state(say, circuit, plug, apart ? Word::plug_off : Word::plugged_in);
    if (point.pin != none) spot.mark = circuit.pins[point.pin].mark;
}

void own_metal(const Wording& say, Spot& spot, const Circuit& circuit, const Setup& setup, PartId part) {
    const Part& owner = circuit.parts[part];
    if (owner.kind == PartKind::battery) {
        spot.metal = Word::post;
        spot.place = with_state(say, circuit, part, Word::not_the_clamp);
    } else if (circuit.sits_in_holder(part)) {
        spot.metal = Word::blade;
        spot.place = with_state(say, circuit, part, is_pulled(setup, part) ? Word::taken_out : Word::in_place);
    } else {
        spot.metal = Word::own_pin;
        spot.place = part_and_place(say, circuit, part);
    }
}

void wire_end(const Wording& say, Spot& spot, const Circuit& circuit, const Setup& setup, const PointRef& point, PartId part) {
    const Part& owner = circuit.parts[part];
    if (owner.kind == PartKind::battery) {
        spot.metal = Word::clamp;
        spot.place = with_state(say, circuit, part, Word::not_the_post);
    } else if (circuit.sits_in_holder(part)) {
        const bool empty = is_pulled(setup, part);
        if (empty && point.pin != none) spot.socket = part, spot.cavity = point.pin;
        spot.metal = empty ? Word::empty_socket : Word::wire_side;
        spot.place = with_state(say, circuit, part, empty ? Word::taken_out : Word::in_place);
    } else if (point.pin != none && owner.bolted_pin == point.pin) {
        spot.metal = Word::bare_case;
        spot.place = part_and_place(say, circuit, part);
    } else if (owner.kind == PartKind::ground) {
        spot.metal = Word::bolt;
        spot.place = part_and_place(say, circuit, part);
    } else {
        spot.metal = Word::cable_end;
        spot.place = part_and_place(say, circuit, part);
    }
}

void wires_of(Spot& spot, const Circuit& circuit, const PointRef& point) {
    if (point.wire != none)
        spot.wires = {point.wire};
    else if (point.metal == Metal::wire_end && point.pin != none)
        spot.wires = circuit.wires_at(point.pin);
}

} // namespace

bool is_apart(const Circuit& circuit, const Setup& setup, PartId connector) {
    return std::any_of(setup.items.begin(), setup.items.end(), [&](const SetupItem& item) {
        if (item.kind != ItemKind::unplugged || item.part == none) return false;
        return item.part == connector || circuit.parts[connector].twin == item.part || circuit.parts[connector].plugs_on == item.part;
    });
}

bool is_pulled(const Setup& setup, PartId part) {
    return std::any_of(setup.items.begin(), setup.items.end(), [&](const SetupItem& item) {
        return (item.kind == ItemKind::pulled && item.part == part) ||
               (item.kind == ItemKind::one_of_pulled && std::find(item.parts.begin(), item.parts.end(), part) != item.parts.end());
    });
}

PartId part_of(const Circuit& circuit, const PointRef& point) {
    if (point.part != none) return point.part;
    if (point.pin != none) return circuit.pins[point.pin].part;
    return point.pins.empty() ? none : circuit.pins[point.pins.front()].part;
}

Spot spot_of(const Wording& say, const Circuit& circuit, const Setup& setup, const PointRef& point, PartId near) {
    Spot spot;
    spot.name = point_words(say, circuit, point);
    wires_of(spot, circuit, point);
    const PartId part = part_of(circuit, point);
    if (point.metal == Metal::body) {
        spot.metal = Word::bare_metal;
        spot.place = near == none ? say(Word::of_the_body) : say(Word::of_the_body_near, part_and_place(say, circuit, near));
    } else if (part == none) {
        spot.metal = Word::around_wire;
    } else if (circuit.parts[part].kind == PartKind::connector) {
        cavity_of_plug(say, spot, circuit, setup, point, part);
    } else if (point.metal == Metal::part || (point.pin != none && circuit.mate(point.pin) != none)) {
        own_metal(say, spot, circuit, setup, part);
    } else {
        wire_end(say, spot, circuit, setup, point, part);
    }
    for (const WireId wire : spot.wires)
        for (const Words& note : circuit.wires[wire].notes)
            spot.place += say(Word::wire_note, note.text);
    return spot;
}

std::vector<PanelId> panels_for(const Circuit& circuit, const Check& check) {
    std::vector<PanelId> panels;
    const auto add = [&](PartId part) {
        if (part == none) return;
        const PanelId panel = circuit.panel_of(part);
        if (panel != none && std::find(panels.begin(), panels.end(), panel) == panels.end()) panels.push_back(panel);
    };
    for (const Row& row : check.rows) {
        add(part_of(circuit, row.red));
        add(part_of(circuit, row.black));
    }
    for (const SetupItem& item : check.with.items) {
        if (item.kind == ItemKind::unplugged || item.kind == ItemKind::pulled) add(item.part);
        for (const PartId part : item.parts)
            add(part);
        if (item.kind == ItemKind::disconnected) add(circuit.pins[item.pin].part);
        if (item.kind == ItemKind::bridge || item.kind == ItemKind::load) {
            add(part_of(circuit, item.a));
            add(part_of(circuit, item.b));
        }
    }
    return panels;
}

} // namespace loomsheet
