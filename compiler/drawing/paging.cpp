#include "drawing/paging.hpp"
#include "drawing/scheme/sets.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

constexpr std::size_t many_wires = 4; // from then on a splice may stand on several pages

class Grouper {
public:
    Grouper(const Strands& strands, const std::vector<WireId>& wires)
        : strands_(strands), circuit_(strands.circuit()), wires_(wires), here_(circuit_.wires.size(), 0), together_(circuit_.wires.size()) {
        for (const WireId wire : wires)
            here_[wire] = 1;
    }

    // By parts: a part keeps its wires together; else only in-line pairs, plugs and parts of two pins do.
    std::vector<Group> group(bool by_parts) {
        for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id) {
            const Part& part = circuit_.parts[id];
            if (part.kind == PartKind::ground || part.kind == PartKind::battery) continue;
            if (part.kind == PartKind::splice)
                by_parts ? join_splice(part) : void();
            else if (part.kind == PartKind::connector)
                join_connector(part);
            else if (strands_.is_divisible(id) && by_parts)
                join_elements(id);
            else if (by_parts || part.pins.size() <= 2)
                join_pins(part.pins);
        }
        std::vector<Group> groups;
        std::vector<int> place(circuit_.wires.size(), none);
        for (const WireId wire : wires_) {
            int& at = place[together_.root_of(wire)];
            if (at == none) at = static_cast<int>(groups.size()), groups.emplace_back();
            groups[at].wires.push_back(wire);
        }
        return groups;
    }

private:
    void join_pins(const std::vector<PinId>& pins) {
        WireId first = none;
        for (const PinId pin : pins)
            for (const WireId wire : strands_.wires_at(pin))
                if (here_[wire]) {
                    if (first == none) first = wire;
                    together_.join(first, wire);
                }
    }
    void join_splice(const Part& splice) {
        std::size_t ends = splice.joined.size();
        for (const PinId pin : splice.pins)
            ends += strands_.wires_at(pin).size();
        if (ends >= many_wires) return;
        std::vector<PinId> pins = splice.pins;
        pins.insert(pins.end(), splice.joined.begin(), splice.joined.end());
        join_pins(pins);
    }
    void join_connector(const Part& part) {
        for (const PinId pin : part.pins) {
            const PinId mate = circuit_.pins[pin].mate;
            part.twin != none&& mate != none ? join_pins({pin, mate}) : join_pins({pin});
        }
    }
    void join_elements(PartId id) {
        for (const PinId pin : circuit_.parts[id].pins)
            join_pins({pin});
        const std::vector<Strand> strands = strands_.of(id);
        for (const Strand& strand : strands) {
            std::vector<PinId> own;
            for (const PinId pin : strand.pins)
                if (pin == strand.key || Strands::is_own(strands, pin)) own.push_back(pin);
            join_pins(own);
        }
    }

    const Strands& strands_;
    const Circuit& circuit_;
    const std::vector<WireId>& wires_;
    std::vector<char> here_; // by wire
    Sets together_;          // of wires
};

} // namespace

std::vector<Group> groups_of(const Strands& strands) {
    const Circuit& circuit = strands.circuit();
    std::vector<WireId> wires;
    for (WireId wire = 0; wire < static_cast<WireId>(circuit.wires.size()); ++wire)
        if (circuit.wires[wire].from != none && circuit.wires[wire].to != none) wires.push_back(wire);
    std::vector<Group> made = Grouper(strands, wires).group(true);
    for (PartId id = 0; id < static_cast<PartId>(circuit.parts.size()); ++id) { // those without a wire
        const Part& part = circuit.parts[id];
        if (part.kind == PartKind::connector || part.kind == PartKind::ground || part.assembly != none) continue;
        if (!strands.is_wired(id)) made.push_back({{}, {id}});
    }
    return made;
}

std::vector<Group> pieces_of(const Strands& strands, const Group& group) {
    std::vector<Group> pieces = Grouper(strands, group.wires).group(false);
    if (pieces.size() > 1) return pieces;
    pieces.clear();
    for (const WireId wire : group.wires)
        pieces.push_back({{wire}, {}});
    return pieces;
}

} // namespace loomsheet::drawing
