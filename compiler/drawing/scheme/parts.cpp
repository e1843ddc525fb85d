#include "drawing/scheme/parts.hpp"
#include "drawing/scheme/elements.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet::drawing {
namespace {

constexpr double title_room = 20, long_title_room = 30, label_room = 14;
constexpr std::size_t long_title = 34; // bytes

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

void add_cells(Joints& joints, const SignElement& element, std::vector<Cell>& cells) {
    if (element.a == none || element.b == none || element.a == element.b) return;
    if (element.sign == Sign::change_over && element.c != none) { // a common, b make, c break
        const bool make_below = joints.above(element.a, element.b), break_below = joints.above(element.a, element.c);
        if (make_below != break_below) {
            cells.push_back(pair_cell(joints, Sign::contact, element.a, element.b, false));
            cells.push_back(pair_cell(joints, Sign::contact, element.a, element.c, true));
            return;
        }
        Cell cell = pair_cell(joints, element.sign, element.a, element.c, false);
        cell.side = joints.of(element.b);
        cell.side_up = cell.turned;
        cells.push_back(cell);
        return;
    }
    if (element.sign == Sign::pot && element.c != none) {
        Cell cell = pair_cell(joints, element.sign, element.a, element.c, false);
        cell.side = joints.of(element.b);
        cells.push_back(cell);
        return;
    }
    cells.push_back(pair_cell(joints, element.sign == Sign::pot ? Sign::resistor : element.sign, element.a, element.b, element.closed));
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
        lines.push_back(title_line(measure, type, text));
        lines.back().x = x;
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
        if (element.kind == ElementKind::module_gives || element.kind == ElementKind::pull_up) return {element.name, false};
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

// Parts inside an assembly are named at their first cell; contacts of a switch say when they are closed.
std::vector<Cell> label_cells(const Circuit& circuit, PartId id, Joints& joints, const std::vector<SignElement>& elements,
                              const Measure& measure) {
    std::vector<Cell> cells;
    PartId named = none;
    for (const SignElement& element : elements) {
        const std::size_t before = cells.size();
        add_cells(joints, element, cells);
        if (cells.size() == before) continue;
        if (element.part != id && element.part != named) cells[before].label = {circuit.parts[element.part].id}, named = element.part;
        if (!element.when.empty()) cells[before].label = measure.wrap(Type::small, label_room, element.when);
    }
    return cells;
}

// Whether a pin stands at the top: what its cells leave open is said by its volts.
bool stands_at_top(const std::vector<Cell>& cells, int joint, double volts) {
    bool feeds = false, drains = false;
    for (const Cell& cell : cells) {
        feeds = feeds || cell.top == joint || (cell.side == joint && cell.side_up);
        drains = drains || cell.bottom == joint || (cell.side == joint && !cell.side_up);
    }
    return feeds != drains ? feeds : !feeds && volts > 0.5;
}

Node sign_node(const Circuit& circuit, PartId id, const std::vector<double>& volts, const std::vector<char>& wired, Joints& joints,
               std::vector<Cell> cells) {
    Node node;
    node.kind = NodeKind::part;
    node.part = id;
    for (const PinId pin : circuit.parts[id].pins)
        if (wired[pin]) joints.of(pin);
    std::vector<GridPin> pins;
    for (int joint = 0; joint < static_cast<int>(joints.pins.size()); ++joint) {
        const PinId pin = joints.pins[joint];
        if (circuit.pins[pin].part != id || !circuit.pins[pin].declared) continue; // inside
        const bool top = stands_at_top(cells, joint, volts[pin]);
        pins.push_back({joint, top});
        node.ports.push_back(port_of(circuit, pin, top, volts[pin]));
    }
    node.grid = lay_grid(std::move(cells), std::move(pins), static_cast<int>(joints.pins.size()));
    for (std::size_t i = 0; i < node.ports.size(); ++i)
        node.ports[i].column = node.grid.pins[i].column;
    node.columns = node.grid.columns;
    const PartKind kind = circuit.parts[id].kind;
    node.outlined = node.columns > 1 || kind == PartKind::relay || kind == PartKind::assembly;
    return node;
}

} // namespace

PinId outer_pin(const Circuit& circuit, PinId pin) {
    const PinId mate = circuit.pins[pin].mate;
    if (mate == none || circuit.parts[circuit.pins[mate].part].kind != PartKind::connector) return pin;
    return circuit.parts[circuit.pins[pin].part].kind == PartKind::connector ? pin : mate;
}

Node part_node(const Circuit& circuit, PartId id, const std::vector<double>& volts, const std::vector<char>& wired, const Measure& measure,
               bool partly) {
    std::vector<SignElement> elements;
    bool has_signs = add_elements(circuit, id, elements);
    for (PartId inner = 0; inner < static_cast<PartId>(circuit.parts.size()); ++inner)
        if (circuit.parts[inner].assembly == id) has_signs = add_elements(circuit, inner, elements) && has_signs;
    if (partly) drop_of_other_pages(circuit, id, wired, elements);
    Joints joints(volts);
    std::vector<Cell> cells = label_cells(circuit, id, joints, elements, measure);
    const Part& part = circuit.parts[id];
    Node node =
        has_signs && !cells.empty() ? sign_node(circuit, id, volts, wired, joints, std::move(cells)) : box_node(circuit, id, volts, wired);
    node.title = title_of(circuit, id, measure);
    if (part.kind == PartKind::switch_ && node.grid.cells.size() == 1) { // its positions stand under its name
        for (const std::string& line : node.grid.cells[0].label)
            node.title.push_back(title_line(measure, Type::small, line));
        node.grid.cells[0].label.clear();
    }
    return node;
}

} // namespace loomsheet::drawing
