// LS403, LS404, LS405 and LS410: pins without wires, and wires that do not fit where they end.
#include "proof/families.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

const Part& part_of(const Circuit& circuit, PinId pin) { return circuit.parts[circuit.pins[pin].part]; }

// --- LS403 ---------------------------------------------------------------------------------------------------------
// Pins without which what is inside the part cannot work. A module's inputs and outputs may stay free, a plan shows
// only some of them; so may one throw of a change-over contact while another is wired.
std::vector<PinId> needed_pins(const Nets& nets, const Part& part) {
    std::vector<PinId> needed;
    const auto need = [&](PinId pin) {
        if (pin != none && std::find(needed.begin(), needed.end(), pin) == needed.end()) needed.push_back(pin);
    };
    if (row_of(part.kind).itself) return part.pins;
    std::vector<std::pair<PinId, PinId>> contacts;
    for (const Element& element : part.elements) {
        switch (element.kind) {
        case ElementKind::module_output:
        case ElementKind::module_gives:
        case ElementKind::pull_up:
        case ElementKind::input:
        case ElementKind::between: break;
        case ElementKind::contact:
            for (const PinId other : {element.b, element.c})
                if (other != none) contacts.emplace_back(element.a, other);
            break;
        case ElementKind::source:
        case ElementKind::link:
        case ElementKind::coil:
        case ElementKind::load:
        case ElementKind::resistor:
        case ElementKind::diode:
        case ElementKind::ntc:
        case ElementKind::pot:
        case ElementKind::hall:
            for (const PinId pin : {element.a, element.b, element.c})
                need(pin);
        }
    }
    const auto spare = [&](PinId pin) { // each contact that it has leads to a pin which another, wired, contact serves
        return std::all_of(contacts.begin(), contacts.end(), [&](const auto& contact) {
            if (contact.first != pin && contact.second != pin) return true;
            const PinId common = contact.first == pin ? contact.second : contact.first;
            return std::any_of(contacts.begin(), contacts.end(), [&](const auto& other) {
                const PinId throw_of = other.first == common ? other.second : other.second == common ? other.first : none;
                return throw_of != none && throw_of != pin && nets.joined(throw_of);
            });
        });
    };
    for (const auto& [one, other] : contacts)
        for (const PinId pin : {one, other})
            if (!spare(pin)) need(pin);
    for (const PinId pin : part.supply_pins)
        need(pin);
    for (const PinId pin : part.ground_pins)
        need(pin);
    return needed;
}

// Inside an assembly current comes to the pin from another of its parts, or goes on there: no wire is needed.
bool is_inner_link(const Nets& nets, PartId id, PinId pin) {
    const Circuit& circuit = nets.circuit;
    const PartId assembly = circuit.parts[id].assembly;
    const NodeId node = nets.graph.own[pin];
    if (assembly == none || (!nets.fed.has(node) && !nets.grounded.has(node))) return false;
    for (PartId other = 0; other < static_cast<PartId>(circuit.parts.size()); ++other)
        if (other != id && circuit.parts[other].assembly == assembly)
            for (const Element& element : circuit.parts[other].elements)
                if (element.a == pin || element.b == pin || element.c == pin) return true;
    return false;
}

void find_bare_pins(const Nets& nets, PartId id, std::vector<OpenEnd>& open) {
    const Circuit& circuit = nets.circuit;
    const Part& part = circuit.parts[id];
    for (const Element& element : part.elements) // an output may stay free, but it may be what a relay lacks
        if (element.kind == ElementKind::module_output && !nets.joined(element.a)) open.push_back({element.a, {}, false});
    const std::vector<PinId> needed = needed_pins(nets, part);
    if (needed.empty()) return;
    if (std::none_of(needed.begin(), needed.end(), [&](PinId pin) { return nets.joined(pin); })) {
        if (nets.has_lost_plug()) return; // it may be this part's
        const bool one = needed.size() == 1;
        open.push_back({needed.front(),
                        {finding::pin_not_wired,
                         part.at,
                         fmt::format("no wire comes to {}", circuit.part_name(id)),
                         fmt::format("write the wire{} to {}", one ? "" : "s",
                                     circuit.pin_name(nets.graph.nodes[nets.graph.wire_end[needed.front()]].pin)),
                         {}},
                        false});
        return;
    }
    const PartId plug = circuit.plug_of(id);
    for (const PinId pin : needed) {
        const auto is_told = [&](const OpenEnd& end) { return end.pin == pin && end.finding.code != 0; };
        if (nets.joined(pin) || is_inner_link(nets, id, pin) || std::any_of(open.begin(), open.end(), is_told)) continue;
        const std::string end = circuit.pin_name(nets.graph.nodes[nets.graph.wire_end[pin]].pin);
        if (plug != none && circuit.mate(pin) == none)
            open.push_back({pin,
                            {finding::mates_do_not_match,
                             circuit.parts[plug].at,
                             fmt::format("no cavity of {} meets {}", circuit.parts[plug].id, circuit.pin_name(pin)),
                             fmt::format("give {} the cavity, or say which one meets it, such as `map 3={}`", circuit.parts[plug].id,
                                         circuit.pins[pin].name),
                             {{part.at, fmt::format("{} has that pin", part.id)}}},
                            false});
        else
            open.push_back({pin,
                            {finding::pin_not_wired,
                             circuit.pins[pin].at.end > circuit.pins[pin].at.begin ? circuit.pins[pin].at : part.at,
                             fmt::format("no wire comes to {}, a pin of {}", end, circuit.part_name(id)),
                             fmt::format("write the wire that ends at {}", end),
                             {}},
                            false});
    }
}

// --- LS405 ---------------------------------------------------------------------------------------------------------
void find_half_wired(const Nets& nets, const Part& half, std::vector<OpenEnd>& open) {
    const Circuit& circuit = nets.circuit;
    for (const PinId pin : half.pins) {
        const PinId mate = circuit.mate(pin);
        if (mate == none || nets.loose(nets.graph.wire_end[pin]) == nets.loose(nets.graph.wire_end[mate])) continue;
        const PinId bare = nets.loose(nets.graph.wire_end[pin]) ? pin : mate, carries = bare == pin ? mate : pin;
        const std::vector<WireId> wires = circuit.wires_at(carries);
        const std::string wire = wires.empty() ? "a splice" : circuit.wires[wires.front()].id;
        const Span at = wires.empty() ? half.at : circuit.wires[wires.front()].at;
        open.push_back({bare,
                        {finding::mates_do_not_match,
                         at,
                         fmt::format("{} ends at {}, and no wire goes on from {} on the other half", wire, circuit.pin_name(carries),
                                     circuit.pin_name(bare)),
                         fmt::format("write the wire that goes on from {}", circuit.pin_name(bare)),
                         {{half.at, "the in-line pair"}}},
                        false});
    }
}

// --- LS404 ---------------------------------------------------------------------------------------------------------
void prove_one_wire_each(const Nets& nets, const Part& part, Findings& findings) {
    const Circuit& circuit = nets.circuit;
    if (part.kind != PartKind::connector) return;
    for (const PinId pin : part.pins) {
        const std::vector<WireId> wires = circuit.wires_at(pin);
        for (std::size_t i = 1; i < wires.size(); ++i)
            findings.add({finding::two_wires_in_cavity,
                          circuit.wires[wires[i]].at,
                          fmt::format("{} and {} end in one cavity, {}", circuit.wires[wires[0]].id, circuit.wires[wires[i]].id,
                                      circuit.pin_name(pin)),
                          "join them at a splice and lead one wire on to the cavity; if both are crimped in there, "
                          "write `allow LS404` with the reason",
                          {{circuit.wires[wires[0]].at, "the first one"}}});
    }
}

// --- LS410 --------------------------------------------------------------------------------------------------
void prove_wire_end(const Nets& nets, WireId id, PinId pin, Findings& findings) {
    const Circuit& circuit = nets.circuit;
    const Wire& wire = circuit.wires[id];
    const Part& part = part_of(circuit, pin);
    const bool into_a_part =
        part.kind == PartKind::connector && part.plugs_on != none && circuit.parts[part.plugs_on].kind != PartKind::module;
    if (into_a_part && circuit.mate(pin) == none) {
        const Part& under = circuit.parts[part.plugs_on];
        findings.add({finding::wire_goes_nowhere,
                      wire.at,
                      fmt::format("{} goes nowhere: {} meets no pin of {}", wire.id, circuit.pin_name(pin), under.id),
                      fmt::format("write another cavity, or give {} the pin", under.id),
                      {{under.at, fmt::format("the pins of {} stand here", under.id)}}});
    }
    const bool spare = nets.is_shared(part.at) && nets.is_shared(wire.at);
    if (part.kind == PartKind::splice && part.joined.empty() && circuit.wires_at(pin).size() == 1 && !spare)
        findings.add({finding::wire_goes_nowhere,
                      wire.at,
                      fmt::format("{} goes nowhere: it is the only wire at {}", wire.id, part.id),
                      fmt::format("lead the other wires to {}, or end {} at a pin", part.id, wire.id),
                      {{part.at, "the splice"}}});
}

} // namespace

std::vector<OpenEnd> open_ends(const Nets& nets, const Doubt& doubt) {
    std::vector<OpenEnd> open;
    for (PartId id = 0; id < static_cast<PartId>(nets.circuit.parts.size()); ++id) {
        const Part& part = nets.circuit.parts[id];
        if (doubt.parts[id]) continue;
        if (part.kind != PartKind::connector)
            find_bare_pins(nets, id, open);
        else if (part.first_half)
            find_half_wired(nets, part, open);
    }
    return open;
}

void prove_wire_ends(const Nets& nets, const Doubt& doubt, Findings& findings) {
    for (const Part& part : nets.circuit.parts)
        prove_one_wire_each(nets, part, findings);
    for (WireId id = 0; id < static_cast<WireId>(nets.circuit.wires.size()); ++id) {
        const Wire& wire = nets.circuit.wires[id];
        if (wire.from == none || wire.to == none) continue;
        if (nets.graph.wire_end[wire.from] == nets.graph.wire_end[wire.to]) {
            findings.add(finding::wire_goes_nowhere, wire.at,
                         fmt::format("{} goes nowhere: both its ends are at {}", wire.id,
                                     node_name(nets.circuit, nets.graph.nodes[nets.graph.wire_end[wire.to]])),
                         "write where its other end is");
            continue;
        }
        for (const PinId pin : {wire.from, wire.to})
            if (!doubt.circuit && !doubt.parts[nets.circuit.pins[pin].part]) prove_wire_end(nets, id, pin, findings);
    }
}

} // namespace loomsheet
