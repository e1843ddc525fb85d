#include "drawing/scheme/nodes.hpp"
#include "drawing/scheme/parts.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

constexpr double splice_room = 20, ground_room = 26, page_room = 24; // mm, for a line of a title

} // namespace

NodeMaker::NodeMaker(const SchemeSource& from, Scheme& scheme)
    : from_(from), scheme_(scheme), wired_(from.circuit.pins.size(), 0), end_of_(from.circuit.pins.size()) {
    find_wired();
    for (PartId id = 0; id < static_cast<PartId>(from.circuit.parts.size()); ++id)
        if (from.extract.has_part(id) && from.circuit.parts[id].assembly == none) make_node(id);
    make_points_of_other_pages();
}

// A pin of a part is wired when a wire, or one of the plug on it, ends there.
void NodeMaker::find_wired() {
    const Circuit& circuit = from_.circuit;
    const auto mark = [&](PinId pin) {
        wired_[pin] = 1;
        if (const PinId mate = circuit.pins[pin].mate; mate != none) wired_[mate] = 1;
    };
    for (WireId wire = 0; wire < static_cast<WireId>(circuit.wires.size()); ++wire)
        if (from_.extract.has_wire(circuit, wire)) mark(circuit.wires[wire].from), mark(circuit.wires[wire].to);
    for (const Part& part : circuit.parts) {
        if (part.bolted_pin != none) wired_[part.bolted_pin] = 1;
        for (const PinId pin : part.joined)
            mark(pin);
    }
    for (const auto* pages : {&from_.extract.from, &from_.extract.to})
        for (const auto& [pin, words] : *pages)
            mark(pin);
}

void NodeMaker::make_node(PartId id) {
    const Part& part = from_.circuit.parts[id];
    if (part.kind == PartKind::ground) return; // a symbol a wire
    if (part.kind == PartKind::splice) {
        if (!part.pins.empty() && wired_[part.pins.front()]) add_point(part.pins.front(), id);
    } else if (part.kind == PartKind::connector && part.twin != none) {
        add_pair(id);
    } else if (part.kind == PartKind::connector && part.plugs_on != none) {
        add_loose_cavities(id);
    } else {
        add_part(id);
    }
}

void NodeMaker::add_part(PartId id) {
    const bool partly = is_partly_shown(from_.circuit.parts[id]);
    Node node = part_node(from_.circuit, id, from_.volts, wired_, from_.measure, partly);
    if (partly && !from_.extract.part_words.empty()) node.title.push_back(title_line(from_.measure, Type::small, from_.extract.part_words));
    if (node.ports.empty()) return;
    const int index = static_cast<int>(scheme_.nodes.size());
    for (std::size_t i = 0; i < node.ports.size(); ++i) {
        const PinId pin = node.ports[i].pin, outer = outer_pin(from_.circuit, pin);
        end_of_[pin] = end_of_[outer] = {index, static_cast<int>(i)};
        node.ports[i].checks = checks_at(pin, outer);
    }
    scheme_.add(std::move(node));
}

// Whether some of its wires are on other pages only.
bool NodeMaker::is_partly_shown(const Part& part) const {
    for (const PinId pin : part.pins)
        for (const PinId each : {pin, outer_pin(from_.circuit, pin)})
            for (const WireId wire : from_.circuit.wires_at(each))
                if (!wired_[pin] && !from_.extract.has_wire(from_.circuit, wire)) return true;
    return false;
}

void NodeMaker::add_point(PinId pin, PartId part) {
    Node node;
    node.part = part;
    node.ports = {bare_port(true, pin, from_.volts[pin]), bare_port(false, pin, from_.volts[pin])};
    node.ports[0].checks = checks_at(pin, pin);
    if (part != none && !from_.extract.from.contains(pin)) // else the mark of the page names it
        for (const std::string& line : from_.measure.wrap(Type::small_bold, splice_room, from_.circuit.parts[part].id))
            node.title.push_back(title_line(from_.measure, Type::small_bold, line));
    end_of_[pin] = {scheme_.add(std::move(node)), 0};
}

void NodeMaker::add_pair(PartId id) {
    std::vector<int> made;
    for (const PinId pin : from_.circuit.parts[id].pins) {
        const PinId mate = from_.circuit.pins[pin].mate;
        if (!wired_[pin] || end_of_[pin].node != none) continue;
        if (mate == none && from_.circuit.wires_at(pin).empty()) continue;
        const bool mate_above = mate != none && from_.volts[mate] > from_.volts[pin] + same_volts;
        const PinId upper = mate_above ? mate : pin, lower = mate_above ? pin : mate;
        Node node;
        node.kind = NodeKind::cavity;
        node.part = id;
        node.ports.push_back(named_port(upper, true));
        if (lower != none) node.ports.push_back(named_port(lower, false));
        const int index = scheme_.add(std::move(node));
        end_of_[upper] = {index, 0};
        if (lower != none) end_of_[lower] = {index, 1};
        made.push_back(index);
    }
    if (made.size() > 1) scheme_.parted.push_back(made);
}

// Cavities of a plug over no pin of its part.
void NodeMaker::add_loose_cavities(PartId id) {
    for (const PinId pin : from_.circuit.parts[id].pins) {
        if (!wired_[pin] || from_.circuit.pins[pin].mate != none || from_.circuit.wires_at(pin).empty()) continue;
        Node node;
        node.kind = NodeKind::cavity;
        node.part = id;
        node.ports.push_back(named_port(pin, true));
        end_of_[pin] = {scheme_.add(std::move(node)), 0};
    }
}

// Pins whose part is on another page.
void NodeMaker::make_points_of_other_pages() {
    for (const auto* pages : {&from_.extract.from, &from_.extract.to})
        for (const auto& [pin, words] : *pages)
            if (end_of_[pin].node == none) {
                add_point(pin, none);
                if (const PinId outer = outer_pin(from_.circuit, pin); outer != pin) end_of_[outer] = end_of_[pin];
            }
}

std::vector<int> NodeMaker::checks_at(PinId pin, PinId other) const {
    std::vector<int> list;
    for (const PinId each : {pin, other})
        if (const auto found = from_.probes.pins.find(each); found != from_.probes.pins.end())
            list.insert(list.end(), found->second.begin(), found->second.end());
    std::sort(list.begin(), list.end());
    list.erase(std::unique(list.begin(), list.end()), list.end());
    return list;
}

Port NodeMaker::named_port(PinId pin, bool top) const {
    Port port = bare_port(top, pin, from_.volts[pin]);
    port.name = from_.circuit.pin_name(pin);
    port.checks = checks_at(pin, pin);
    return port;
}

End NodeMaker::end_of(PinId pin) {
    if (kind_of(pin) == PartKind::ground) return add_ground(pin, from_.circuit.pins[pin].part);
    return end_of_[pin];
}

End NodeMaker::add_ground(PinId pin, PartId id) {
    const Part& part = from_.circuit.parts[id];
    Node node;
    node.kind = NodeKind::ground;
    node.part = id;
    for (const std::string& line : from_.measure.wrap(Type::designator, ground_room, part.id))
        node.title.push_back(title_line(from_.measure, Type::designator, line));
    for (const std::string* words : {&part.name, &part.place})
        if (!words->empty())
            for (const std::string& line : from_.measure.wrap(Type::small, ground_room, *words))
                node.title.push_back(title_line(from_.measure, Type::small, line));
    node.ports.push_back(bare_port(true, pin));
    if (pin != none) node.ports[0].checks = checks_at(pin, pin);
    return {scheme_.add(std::move(node)), 0};
}

End NodeMaker::add_page_mark(PinId pin, const std::string& words, bool from) {
    Node node;
    node.kind = from ? NodeKind::from_page : NodeKind::to_page;
    for (const std::string& line : from_.measure.wrap(Type::small, page_room, words))
        node.title.push_back(title_line(from_.measure, node.title.empty() ? Type::small_bold : Type::small, line));
    node.ports.push_back(bare_port(!from, none, from_.volts[pin]));
    return {scheme_.add(std::move(node)), 0};
}

} // namespace loomsheet::drawing
