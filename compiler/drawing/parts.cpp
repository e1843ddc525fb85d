#include "drawing/parts.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace loomsheet::drawing {
namespace {

constexpr double title_room = 20, long_title_room = 30, label_room = 14;
constexpr std::size_t long_title = 34; // bytes

struct Raw { // an element as the circuit has it
    Sign sign = Sign::lamp;
    PinId a = none, b = none, c = none;
    PartId part = none;
    bool closed = false;
    std::string when; // of a switch's contact: the positions that close it
};

bool closed_at_rest(const Part& part, const Element& element) {
    if (element.when)
        return std::find(element.when->key.begin(), element.when->key.end(), "off") != element.when->key.end();
    if (part.positions.empty()) return false;
    const auto& pairs = part.positions.front().closed;
    return std::find(pairs.begin(), pairs.end(), std::pair(element.a, element.b)) != pairs.end();
}

// "on crank", "pressed": when a switch's contact is closed.
std::string positions_of(const Part& part, const Element& element) {
    if (part.kind != PartKind::switch_) return {};
    std::string words;
    const auto add = [&](const std::string& word) { words += (words.empty() ? "" : ", ") + word; };
    if (element.when) {
        for (const std::string& key : element.when->key)
            add(key);
        return words;
    }
    for (const TableValue& position : part.positions)
        if (std::find(position.closed.begin(), position.closed.end(), std::pair(element.a, element.b)) !=
            position.closed.end())
            add(position.position);
    return words;
}

// The sign of a load is that of its part.
Sign load_sign(PartKind kind) {
    switch (kind) {
    case PartKind::motor: return Sign::motor;
    case PartKind::lamp: return Sign::lamp;
    case PartKind::heater: return Sign::heater;
    case PartKind::solenoid: return Sign::solenoid;
    case PartKind::horn: return Sign::horn;
    default: return Sign::resistor;
    }
}

// False where no sign is agreed: then the whole part is a box.
bool add_raw(const Circuit& circuit, PartId id, std::vector<Raw>& list) {
    const Part& part = circuit.parts[id];
    const auto end = [&](const char* name) { return circuit.find_pin(id, name); };
    if (part.kind == PartKind::battery) list.push_back({Sign::battery, end("+"), end("-"), none, id, false, {}});
    if (part.kind == PartKind::fuse) list.push_back({Sign::fuse, end("1"), end("2"), none, id, false, {}});
    if (part.kind == PartKind::breaker) list.push_back({Sign::breaker, end("1"), end("2"), none, id, false, {}});
    for (const Element& element : part.elements) {
        Raw raw{Sign::resistor, element.a, element.b, element.c, id, false, {}};
        switch (element.kind) {
        case ElementKind::source:
        case ElementKind::link: continue;
        case ElementKind::coil: raw.sign = part.kind == PartKind::sensor ? Sign::inductor : Sign::coil; break;
        case ElementKind::contact:
            raw.sign = element.c == none ? Sign::contact : Sign::change_over;
            raw.closed = closed_at_rest(part, element);
            raw.when = positions_of(part, element);
            break;
        case ElementKind::load: raw.sign = load_sign(part.kind); break;
        case ElementKind::resistor: break;
        case ElementKind::diode: raw.sign = Sign::diode; break;
        case ElementKind::ntc: raw.sign = Sign::ntc; break;
        case ElementKind::pot: raw.sign = Sign::pot; break;
        default: return false;
        }
        list.push_back(raw);
    }
    return part.kind != PartKind::module;
}

class Joints { // pins of the part by number, high volts first
public:
    Joints(const std::vector<double>& volts) : volts_(volts) {}
    int of(PinId pin) {
        const auto found = std::find(pins.begin(), pins.end(), pin);
        if (found != pins.end()) return static_cast<int>(found - pins.begin());
        pins.push_back(pin);
        return static_cast<int>(pins.size()) - 1;
    }
    // Before the other: nearer to plus, else named first.
    bool above(PinId one, PinId other) const {
        if (const long a = step(one), b = step(other); a != b) return a > b;
        return std::find(pins.begin(), pins.end(), one) < std::find(pins.begin(), pins.end(), other);
    }
    std::vector<PinId> pins;

private:
    long step(PinId pin) const { return std::lround(volts_[pin] * 1e7); } // less is noise
    const std::vector<double>& volts_;
};

Cell pair_cell(Joints& joints, Sign sign, PinId a, PinId b, bool closed) {
    Cell cell;
    cell.sign = sign;
    cell.closed = closed;
    const int first = joints.of(a), second = joints.of(b);
    cell.turned = !joints.above(a, b);
    cell.top = cell.turned ? second : first;
    cell.bottom = cell.turned ? first : second;
    return cell;
}

void add_cells(Joints& joints, const Raw& raw, std::vector<Cell>& cells) {
    if (raw.a == none || raw.b == none || raw.a == raw.b) return;
    if (raw.sign == Sign::change_over && raw.c != none) { // a common, b make, c break
        const bool make_below = joints.above(raw.a, raw.b), break_below = joints.above(raw.a, raw.c);
        if (make_below != break_below) {
            cells.push_back(pair_cell(joints, Sign::contact, raw.a, raw.b, false));
            cells.push_back(pair_cell(joints, Sign::contact, raw.a, raw.c, true));
            return;
        }
        Cell cell = pair_cell(joints, raw.sign, raw.a, raw.c, false);
        cell.side = joints.of(raw.b);
        cell.side_up = cell.turned;
        cells.push_back(cell);
        return;
    }
    if (raw.sign == Sign::pot && raw.c != none) {
        Cell cell = pair_cell(joints, raw.sign, raw.a, raw.c, false);
        cell.side = joints.of(raw.b);
        cells.push_back(cell);
        return;
    }
    cells.push_back(pair_cell(joints, raw.sign == Sign::pot ? Sign::resistor : raw.sign, raw.a, raw.b, raw.closed));
}

std::string rating_of(const Part& part) {
    std::string words;
    const auto add = [&](const MaybeQuantity& quantity) {
        if (!quantity || !words.empty()) return;
        words = quantity->written;
        if (const auto tolerance = words.find(" ±"); tolerance != std::string::npos) words.resize(tolerance);
    };
    if (part.kind == PartKind::battery) return {};
    add(part.rating);
    for (const Element& element : part.elements)
        if (element.kind == ElementKind::load || element.kind == ElementKind::resistor) add(element.value);
    return words;
}

std::vector<Words> title_of(const Circuit& circuit, PartId id, const Measure& measure) {
    const Part& part = circuit.parts[id];
    std::vector<Words> lines;
    const auto add = [&](Type type, const std::string& text, double x) {
        lines.push_back({x, 0, measure.width(type, text), type, text, false});
    };
    const double room = part.name.size() > long_title || part.kind == PartKind::module ? long_title_room : title_room;
    double x = 0;
    for (const std::string& line : measure.wrap(Type::designator, room, part.id)) // a long one breaks
        add(Type::designator, line, 0), x = lines.back().width;
    if (const std::string rating = rating_of(part); !rating.empty()) {
        const double width = measure.width(Type::small, rating);
        if (x + 1.6 + width <= room + 4) {
            add(Type::small, rating, x + 1.6);
            lines.back().y = -1; // on the line of the designator
        } else {
            for (const std::string& line : measure.wrap(Type::small, room, rating))
                add(Type::small, line, 0);
        }
    }
    if (!part.name.empty())
        for (const std::string& line : measure.wrap(Type::small, room, part.name))
            add(Type::small, line, 0);
    return lines;
}

std::string outside_name(const Circuit& circuit, PinId pin) {
    const PinId outer = outer_pin(circuit, pin);
    if (outer == pin) return circuit.pins[pin].name;
    return circuit.pin_name(outer);
}

Port port_of(const Circuit& circuit, PinId pin, bool top, double volts) {
    Port port = bare_port(top, pin, volts);
    port.name = outside_name(circuit, pin);
    if (port.name == "-") port.name = "−";
    port.plug = outer_pin(circuit, pin) != pin;
    return port;
}

bool lists(const std::vector<PinId>& pins, PinId pin) { return std::find(pins.begin(), pins.end(), pin) != pins.end(); }

// What a module does at a pin, and whether that stands at the top: what comes in and what it pulls down does.
struct Duty {
    std::string name;
    bool top = true;
};
Duty duty_of(const Circuit& circuit, PartId id, PinId pin, const std::vector<double>& volts) {
    const Part& part = circuit.parts[id];
    if (lists(part.supply_pins, pin)) return {"", true};
    if (lists(part.ground_pins, pin) || part.bolted_pin == pin) return {"", false};
    for (const Element& element : part.elements) {
        if (element.a != pin) continue;
        if (element.kind == ElementKind::module_output) return {element.name, element.pulls_down};
        if (element.kind == ElementKind::module_gives || element.kind == ElementKind::pull_up)
            return {element.name, false};
        if (element.kind == ElementKind::input) return {element.name, volts[pin] > 0.5};
    }
    return {"", volts[pin] > 0.5};
}

Node box_node(const Circuit& circuit, PartId id, const std::vector<double>& volts, const std::vector<char>& wired) {
    Node node;
    node.kind = NodeKind::box;
    node.part = id;
    node.columns = 0;
    const auto add = [&](PinId pin, bool top, const std::string& name) {
        Port port = port_of(circuit, pin, top, volts[pin]);
        const std::string& own = circuit.pins[pin].name;
        const bool differs = port.plug && circuit.pins[outer_pin(circuit, pin)].name != own;
        port.inside = !name.empty() ? name : differs ? own : "";
        port.column = node.columns++;
        node.ports.push_back(port);
    };
    for (const PinId pin : circuit.parts[id].pins)
        if (wired[pin]) {
            const Duty duty = duty_of(circuit, id, pin, volts);
            add(pin, duty.top, duty.name);
        }
    return node;
}

// An element goes with that of its pins which the fewest share.
void drop_elsewhere(const Circuit& circuit, PartId id, const std::vector<char>& wired, std::vector<Raw>& raws) {
    const auto uses = [&](PinId pin) {
        return std::count_if(raws.begin(), raws.end(),
                             [pin](const Raw& raw) { return raw.a == pin || raw.b == pin || raw.c == pin; });
    };
    std::vector<Raw> kept;
    for (const Raw& raw : raws) {
        PinId key = none;
        for (const PinId pin : {raw.a, raw.b, raw.c})
            if (pin != none && circuit.pins[pin].part == id && circuit.pins[pin].declared &&
                (key == none || uses(pin) < uses(key)))
                key = pin;
        if (key == none || wired[key]) kept.push_back(raw);
    }
    raws = kept;
}

} // namespace

PinId outer_pin(const Circuit& circuit, PinId pin) {
    const PinId mate = circuit.pins[pin].mate;
    if (mate == none || circuit.parts[circuit.pins[mate].part].kind != PartKind::connector) return pin;
    return circuit.parts[circuit.pins[pin].part].kind == PartKind::connector ? pin : mate;
}

Node part_node(const Circuit& circuit, PartId id, const std::vector<double>& volts, const std::vector<char>& wired,
               const Measure& measure, bool partly) {
    std::vector<Raw> raws;
    bool has_signs = add_raw(circuit, id, raws);
    for (PartId inner = 0; inner < static_cast<PartId>(circuit.parts.size()); ++inner)
        if (circuit.parts[inner].assembly == id) has_signs = add_raw(circuit, inner, raws) && has_signs;
    if (partly) drop_elsewhere(circuit, id, wired, raws);
    Joints joints(volts);
    std::vector<Cell> cells;
    PartId named = none;
    for (const Raw& raw : raws) {
        const std::size_t before = cells.size();
        add_cells(joints, raw, cells);
        if (raw.part != id && raw.part != named && cells.size() > before)
            cells[before].label = {circuit.parts[raw.part].id}, named = raw.part;
        if (!raw.when.empty() && cells.size() > before)
            cells[before].label = measure.wrap(Type::small, label_room, raw.when);
    }
    Node node;
    if (!has_signs || cells.empty()) {
        node = box_node(circuit, id, volts, wired);
    } else {
        node.kind = NodeKind::part;
        node.part = id;
        for (const PinId pin : circuit.parts[id].pins)
            if (wired[pin]) joints.of(pin);
        std::vector<GridPin> pins;
        for (int joint = 0; joint < static_cast<int>(joints.pins.size()); ++joint) {
            const PinId pin = joints.pins[joint];
            if (circuit.pins[pin].part != id || !circuit.pins[pin].declared) continue; // inside
            bool feeds = false, drains = false;
            for (const Cell& cell : cells) {
                feeds = feeds || cell.top == joint || (cell.side == joint && cell.side_up);
                drains = drains || cell.bottom == joint || (cell.side == joint && !cell.side_up);
            }
            const bool top = feeds != drains ? feeds : !feeds && volts[pin] > 0.5;
            pins.push_back({joint, top});
            node.ports.push_back(port_of(circuit, pin, top, volts[pin]));
        }
        node.grid = lay_grid(std::move(cells), std::move(pins), static_cast<int>(joints.pins.size()));
        for (std::size_t i = 0; i < node.ports.size(); ++i)
            node.ports[i].column = node.grid.pins[i].column;
        node.columns = node.grid.columns;
        const PartKind kind = circuit.parts[id].kind;
        node.outlined = node.columns > 1 || kind == PartKind::relay || kind == PartKind::assembly;
    }
    node.title = title_of(circuit, id, measure);
    if (circuit.parts[id].kind == PartKind::switch_ &&
        node.grid.cells.size() == 1) { // of a lone contact they stand under its name
        for (const std::string& line : node.grid.cells[0].label)
            node.title.push_back({0, 0, measure.width(Type::small, line), Type::small, line, false});
        node.grid.cells[0].label.clear();
    }
    return node;
}

} // namespace loomsheet::drawing
