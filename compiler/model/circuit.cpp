#include "model/circuit.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

const TableValue* Part::find_position(std::string_view word) const {
    for (const auto& position : positions)
        if (position.position == word) return &position;
    return nullptr;
}

PartId Circuit::find_part(std::string_view id) const {
    if (lookup.made) {
        const auto found = lookup.parts_by_id.find(std::string(id));
        return found == lookup.parts_by_id.end() ? none : found->second;
    }
    for (std::size_t i = 0; i < parts.size(); ++i)
        if (parts[i].id == id) return static_cast<PartId>(i);
    return none;
}

WireId Circuit::find_wire(std::string_view id) const {
    for (std::size_t i = 0; i < wires.size(); ++i)
        if (wires[i].id == id) return static_cast<WireId>(i);
    return none;
}

PanelId Circuit::find_panel(std::string_view label) const {
    for (std::size_t i = 0; i < panels.size(); ++i)
        if (panels[i].label == label) return static_cast<PanelId>(i);
    return none;
}

PinId Circuit::find_pin(PartId part, std::string_view name) const {
    for (const PinId pin : parts[static_cast<std::size_t>(part)].pins) {
        const Pin& candidate = pins[static_cast<std::size_t>(pin)];
        if (candidate.name == name || (!candidate.mark.empty() && candidate.mark == name)) return pin;
    }
    return none;
}

std::string Circuit::pin_name(PinId pin) const {
    const Pin& p = pins[static_cast<std::size_t>(pin)];
    const Part& part = parts[static_cast<std::size_t>(p.part)];
    return p.name.empty() ? part.id : part.id + "." + p.name;
}

std::vector<WireId> Circuit::wires_at(PinId pin) const {
    if (lookup.made) return lookup.wires_by_pin[static_cast<std::size_t>(pin)];
    std::vector<WireId> found;
    for (std::size_t i = 0; i < wires.size(); ++i)
        if (wires[i].from == pin || wires[i].to == pin) found.push_back(static_cast<WireId>(i));
    return found;
}

PartId Circuit::plug_of(PartId part) const {
    if (const PartId twin = parts[static_cast<std::size_t>(part)].twin; twin != none) return twin;
    if (lookup.made) return lookup.plugs[static_cast<std::size_t>(part)];
    for (std::size_t i = 0; i < parts.size(); ++i)
        if (parts[i].plugs_on == part) return static_cast<PartId>(i);
    return none;
}

PinId Circuit::mate(PinId pin) const { return pins[static_cast<std::size_t>(pin)].mate; }

bool Circuit::sits_in_holder(PartId part) const {
    const Part& p = parts[static_cast<std::size_t>(part)];
    return row_of(p.kind).in_holder && p.assembly == none && plug_of(part) == none;
}

PanelId Circuit::panel_of(PartId part) const {
    const Part& p = parts[static_cast<std::size_t>(part)];
    if (p.panel != none) return p.panel;
    if (p.plugs_on != none) return panel_of(p.plugs_on);
    if (p.assembly != none) return panel_of(p.assembly);
    return none;
}

std::string Circuit::place_of(PartId part) const {
    const Part& p = parts[static_cast<std::size_t>(part)];
    if (!p.place.empty()) return p.place;
    if (p.plugs_on != none) return place_of(p.plugs_on);
    if (p.assembly != none) return place_of(p.assembly);
    return {};
}

std::string Circuit::part_name(PartId part) const {
    const Part& p = parts[static_cast<std::size_t>(part)];
    return p.name.empty() ? p.id : fmt::format("{} ({})", p.id, p.name);
}

void Circuit::index() {
    lookup.parts_by_id.clear();
    lookup.plugs.assign(parts.size(), none);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        lookup.parts_by_id.emplace(parts[i].id, static_cast<PartId>(i));
        if (parts[i].plugs_on != none && lookup.plugs[static_cast<std::size_t>(parts[i].plugs_on)] == none)
            lookup.plugs[static_cast<std::size_t>(parts[i].plugs_on)] = static_cast<PartId>(i);
    }
    lookup.wires_by_pin.assign(pins.size(), {});
    for (std::size_t i = 0; i < wires.size(); ++i) {
        if (wires[i].from != none) lookup.wires_by_pin[static_cast<std::size_t>(wires[i].from)].push_back(static_cast<WireId>(i));
        if (wires[i].to != none && wires[i].to != wires[i].from)
            lookup.wires_by_pin[static_cast<std::size_t>(wires[i].to)].push_back(static_cast<WireId>(i));
    }
    lookup.made = true;
}

} // namespace loomsheet
