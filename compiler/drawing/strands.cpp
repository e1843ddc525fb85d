#include "drawing/strands.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

constexpr long many_pins = 8; // from then on a part is divisible

long uses_of(const std::vector<Strand>& strands, PinId pin) {
    long count = 0;
    for (const Strand& strand : strands)
        count += std::count(strand.pins.begin(), strand.pins.end(), pin);
    return count;
}

} // namespace

Strands::Strands(const Circuit& circuit) : circuit_(circuit), at_(circuit.pins.size()) {
    for (WireId wire = 0; wire < static_cast<WireId>(circuit.wires.size()); ++wire) {
        if (circuit.wires[wire].from == none || circuit.wires[wire].to == none) continue;
        at_[joint_of(wire, true)].push_back(wire);
        at_[joint_of(wire, false)].push_back(wire);
    }
}

PinId Strands::joint_of(WireId wire, bool from) const {
    const PinId pin = from ? circuit_.wires[wire].from : circuit_.wires[wire].to;
    const Part& part = circuit_.parts[circuit_.pins[pin].part];
    const PinId mate = circuit_.pins[pin].mate;
    return part.kind == PartKind::connector && part.plugs_on != none && mate != none ? mate : pin;
}

bool Strands::is_wired(PartId part) const {
    const std::vector<PinId>& pins = circuit_.parts[part].pins;
    return std::any_of(pins.begin(), pins.end(), [&](PinId pin) { return !at_[pin].empty(); });
}

bool Strands::is_divisible(PartId id) const {
    const Part& part = circuit_.parts[id];
    if (part.kind == PartKind::battery || part.kind == PartKind::splice || part.kind == PartKind::ground) return false;
    return std::count_if(part.pins.begin(), part.pins.end(), [&](PinId pin) { return !at_[pin].empty(); }) >= many_pins;
}

std::vector<Strand> Strands::of(PartId id) const {
    std::vector<Strand> strands;
    for (PartId inner = 0; inner < static_cast<PartId>(circuit_.parts.size()); ++inner) {
        if (inner != id && circuit_.parts[inner].assembly != id) continue;
        for (const Element& element : circuit_.parts[inner].elements) {
            if (element.b == none) continue;
            Strand strand;
            for (const PinId pin : {element.a, element.b, element.c})
                if (pin != none && circuit_.pins[pin].part == id && circuit_.pins[pin].declared) strand.pins.push_back(pin);
            if (!strand.pins.empty()) strands.push_back(std::move(strand));
        }
    }
    for (Strand& strand : strands)
        strand.key = *std::min_element(strand.pins.begin(), strand.pins.end(),
                                       [&](PinId a, PinId b) { return uses_of(strands, a) < uses_of(strands, b); });
    return strands;
}

bool Strands::is_own(const std::vector<Strand>& strands, PinId pin) { return uses_of(strands, pin) <= 1; }

} // namespace loomsheet::drawing
