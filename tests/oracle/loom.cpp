#include "oracle/loom.hpp"
#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace oracle {
namespace {

// The largest mohm/m at 20 °C: IEC 60228 class 5, else ISO 6722-1 (from memory).
struct Copper {
    double mm2, most;
};
constexpr Copper coppers[] = {{0.35, 54.4}, {0.5, 39.0}, {0.75, 26.0}, {1, 19.5},   {1.5, 13.3}, {2, 9.42},
                              {2.5, 7.98},  {3, 6.15},   {4, 4.95},    {6, 3.30},   {10, 1.91},  {16, 1.21},
                              {25, 0.780},  {35, 0.554}, {50, 0.386},  {70, 0.272}, {95, 0.206}, {120, 0.161}};
constexpr double kelvin = 0.00393; // of copper, from 20 °C

Range copper(double mm2) { // ohm/m at 20 °C
    const double least = 1 / 58.0 / mm2;
    double most = 1.15 * least;
    for (const Copper& row : coppers)
        if (std::abs(row.mm2 - mm2) < 1e-6 * mm2) most = row.most * 1e-3;
    return {least, (least + most) / 2, most};
}

Quantity amperes(Quantity of, double volts) { // of amperes or watts
    if (of.unit == "W") {
        of.si /= volts, of.unit = "A";
        if (of.plus_minus) *of.plus_minus /= volts;
    }
    return of;
}

} // namespace

bool Setting::holds(const std::optional<When>& when) const {
    if (!when) return true;
    if (!when->key.empty() && std::find(when->key.begin(), when->key.end(), key) == when->key.end()) return false;
    return (!when->engine_running || engine) && (!when->asleep || asleep);
}

Setting setting_of(const Setup& setup) {
    Setting made;
    for (const Item& item : setup) {
        if (item.kind == "key")
            made.key = item.word;
        else if (item.kind == "asleep")
            made.asleep = true;
        else if (item.kind == "engine running" || item.kind == "engine speed")
            made.engine = true;
        else if (item.kind == "unplugged")
            made.unplugged.insert(item.part);
        else if (item.kind == "pulled")
            made.pulled.insert(item.part);
        else if (item.kind == "disconnected")
            made.disconnected.insert(item.pin);
        else if (item.kind == "position")
            made.position[item.part] = item.word;
        else if (item.kind == "pressed")
            made.position[item.part] = "pressed";
        else if (item.kind == "output on")
            made.on.insert(item.pin);
        else if (item.kind == "at value" && item.value)
            made.temperature[item.part] = item.value->si;
        else if (item.kind == "bridge")
            made.bridges.push_back(item);
        else if (item.kind == "load")
            made.loads.push_back(item);
        else if (item.kind != "words" && item.kind != "as found")
            made.understood = false;
    }
    if (made.engine && made.key == "off") made.key = "on";
    return made;
}

Loom::Loom(const Plan& the_plan, const Usual& the_usual)
    : plan(the_plan), usual(the_usual), wire_side_(plan.pins.size(), none), part_side_(plan.pins.size(), none),
      by_part_(plan.parts.size()) {
    lay_points();
    lay_joints();
    lay_wires();
    for (std::size_t i = 0; i < plan.parts.size(); ++i)
        lay_part(static_cast<int>(i));
    for (std::size_t i = 0; i < branches.size(); ++i)
        if (branches[i].part != none) by_part_[branches[i].part].push_back(static_cast<int>(i));
    listen();
}

int Loom::metal(const std::string& name) {
    const auto [at, is_new] = metal_.try_emplace(name, 0);
    if (is_new) at->second = new_node();
    return at->second;
}

Branch& Loom::lay(int a, int b, int part, int element) {
    Branch made;
    made.a = a, made.b = b, made.part = part, made.element = element;
    branches.push_back(std::move(made));
    return branches.back();
}

double Loom::square(int pin) const {
    const auto thickest = [&](int at) {
        double most = 0;
        for (const int wire : plan.wires_at(at))
            if (plan.wires[wire].area) most = std::max(most, *plan.wires[wire].area * 1e6);
        if (const int mate = plan.pins[at].mate; mate != none)
            for (const int wire : plan.wires_at(mate))
                if (plan.wires[wire].area) most = std::max(most, *plan.wires[wire].area * 1e6);
        return most;
    };
    if (const double there = thickest(pin); there > 0) return there;
    double most = 0; // else of the whole part
    for (const int other : plan.parts[plan.pins[pin].part].pins)
        most = std::max(most, thickest(other));
    return most > 0 ? most : 1;
}

// A pin of a part has two metals, one on either side of its contact; a plug, a splice and a ground point have one.
void Loom::lay_points() {
    metal("body");
    for (std::size_t i = 0; i < plan.pins.size(); ++i) {
        const Pin& pin = plan.pins[i];
        const Part& part = plan.parts[pin.part];
        const bool of_part = part.kind != "connector" && part.kind != "splice" && part.kind != "ground";
        if (of_part) part_side_[i] = new_node();
        if (!of_part || pin.mate == none) wire_side_[i] = new_node();
    }
    for (std::size_t i = 0; i < plan.pins.size(); ++i)
        if (wire_side_[i] == none) wire_side_[i] = wire_side_[plan.pins[i].mate];
    std::vector<int> same(nodes);
    std::iota(same.begin(), same.end(), 0);
    const auto first = [&](int node) {
        while (same[node] != node)
            node = same[node];
        return node;
    };
    for (const Part& part : plan.parts) {
        if (part.kind == "splice")
            for (const int pin : part.joins)
                same[first(wire_side_[pin])] = first(wire_side_[part.pins.front()]);
        if (part.kind == "ground") metal(part.metal.empty() ? "body" : part.metal);
    }
    for (int node = static_cast<int>(same.size()); node < nodes; ++node)
        same.push_back(node);
    std::vector<int> number(nodes, none);
    int count = 0;
    const auto renumber = [&](int& node) {
        if (node == none) return;
        int& to = number[first(node)];
        if (to == none) to = count++;
        node = to;
    };
    for (int& node : wire_side_)
        renumber(node);
    for (int& node : part_side_)
        renumber(node);
    for (auto& [name, node] : metal_)
        renumber(node);
    nodes = count;
}

void Loom::lay_joints() {
    for (std::size_t i = 0; i < plan.pins.size(); ++i) {
        const Pin& pin = plan.pins[i];
        const Part& part = plan.parts[pin.part];
        const int index = static_cast<int>(i);
        if (part.kind == "ground") {
            Branch& bolt = lay(wire_side_[i], metal(part.metal.empty() ? "body" : part.metal), pin.part);
            const Range ohms = usual["a bolted ground point"];
            bolt.real = [ohms](Dice& dice) { return Real{dice(ohms)}; };
        }
        if (part.bolted_pin == index) lay_case(index);
        if (part.kind == "splice" || part.kind == "ground" || pin.inside) continue;
        const bool inline_pair = part.kind == "connector" && pin.mate != none && plan.parts[plan.pins[pin.mate].part].kind == "connector";
        if (part.kind == "connector" && (!inline_pair || pin.mate < index)) continue;
        Branch& joint = lay(wire_side_[i], inline_pair ? wire_side_[pin.mate] : part_side_[i], none);
        joint.gate = Gate::joint;
        joint.pins = {index};
        if (pin.mate != none) joint.pins.push_back(pin.mate);
        const Range ohms =
            part.kind == "battery" ? usual["a battery clamp on its post"] : usual["a plug or socket contact"].times(1 / square(index));
        joint.real = [ohms](Dice& dice) { return Real{dice(ohms)}; };
    }
}

// A case lies on the metal that its ground point holds it to, and on that which the part is bolted to by itself.
void Loom::lay_case(int pin) {
    const int id = plan.pins[pin].part;
    const Part& part = plan.parts[id];
    const Range ohms = usual["a bolted ground point"];
    const auto bolt = [&](int by, const std::string& to) {
        lay(part_side_[pin], metal(to.empty() ? "body" : to), by).real = [ohms](Dice& dice) { return Real{dice(ohms)}; };
    };
    if (part.bolted_to != none) bolt(part.bolted_to, plan.parts[part.bolted_to].metal);
    if (part.bolted_to == none || !part.metal.empty()) bolt(id, part.metal);
}

void Loom::lay_wires() {
    for (std::size_t i = 0; i < plan.wires.size(); ++i) {
        const Wire& wire = plan.wires[i];
        Branch& made = lay(wire_side_[wire.from], wire_side_[wire.to], none);
        made.wire = static_cast<int>(i);
        if (!wire.area || !wire.length) {
            const Range ohms = usual["a wire without size or length"];
            made.real = [ohms](Dice& dice) { return Real{dice(ohms)}; };
            continue;
        }
        const double mm2 = *wire.area * 1e6, metres = *wire.length;
        const Range crimp = usual["a crimp"].times(1 / mm2), ohms = copper(mm2), length = usual["length of a wire"],
                    warm = usual["copper of a wire"];
        made.real = [=](Dice& dice) {
            return Real{metres * dice(length) * dice(ohms) * (1 + kelvin * (dice(warm) - 20)) + dice(crimp) + dice(crimp)};
        };
    }
}

void Loom::lay_part(int index) {
    const Part& part = plan.parts[index];
    if (part.kind == "battery") return lay_battery(index);
    if (part.kind == "module") lay_module(index);
    if (part.kind == "fuse" || part.kind == "breaker") {
        Branch& link = lay(part_side_[part.pins[0]], part_side_[part.pins[1]], index);
        link.gate = Gate::link;
        const Range ohms = usual["a fuse, volts at its rating"].times(1 / part.rating->si);
        link.real = [ohms](Dice& dice) { return Real{dice(ohms)}; };
    }
    for (std::size_t i = 0; i < part.elements.size(); ++i)
        lay_element(index, static_cast<int>(i));
}

void Loom::lay_battery(int index) {
    const Part& part = plan.parts[index];
    int plus = part_side_[part.pins[0]], minus = part_side_[part.pins[1]];
    if (plan.pins[part.pins[0]].name.ends_with('-')) std::swap(plus, minus);
    const double size = plan.system / 12; // of two batteries in series everything is twice
    const Range inner =
        part.inner ? usual.written(*part.inner, "a battery's inner resistance") : usual["a battery's inner resistance"].times(0.006 * size);
    for (std::size_t i = 0; i < part.gives.size(); ++i) {
        Branch& source = lay(plus, minus, index);
        source.law = Law::source, source.gate = Gate::given, source.choice = static_cast<int>(i);
        const Quantity& volts = part.gives[i].value;
        const bool charging = part.gives[i].when && part.gives[i].when->engine_running;
        const Range range =
            volts.plus_minus
                ? Range{volts.low(), volts.si, volts.high()}
                : usual[charging ? "volts with the engine running" : "a battery's volts, engine off"].times(size).plus(volts.si);
        source.real = [=](Dice& dice) { return Real{dice(inner), dice(range), 0}; };
    }
}

void Loom::lay_element(int index, int number) {
    const Part& part = plan.parts[index];
    const Element& it = part.elements[number];
    const auto side = [&](int pin) { return pin == none ? none : part_side_[pin]; };
    const int a = side(it.a), b = side(it.b), c = side(it.c);
    const double volts = it.at ? it.at->si : plan.system;
    if (it.kind == "contact") {
        const Range ohms = usual["a closed contact of a relay or switch"].times(1 / square(it.a)); // by the wire at its common pin
        for (const bool make : {true, false}) {
            if ((make ? b : c) == none) continue;
            Branch& contact = lay(a, make ? b : c, index, number);
            contact.gate = Gate::contact, contact.make = make;
            contact.real = [ohms](Dice& dice) { return Real{dice(ohms)}; };
        }
    } else if (it.kind == "coil") {
        const Range ohms = usual.written(*it.value, "a coil's ohms"), warm = usual["copper of a coil"];
        lay(a, b, index, number).real = [=](Dice& dice) { return Real{dice(ohms) * (1 + kelvin * (dice(warm) - 20))}; };
    } else if (it.kind == "diode") {
        Branch& diode = lay(part.kind == "relay" ? b : a, part.kind == "relay" ? a : b, index, number); // a relay's has its plus side first
        const Range drop = usual["a diode, conducting"], ohms = usual["the same, ohms beside its volts"];
        diode.law = Law::diode;
        diode.real = [=](Dice& dice) { return Real{dice(ohms), dice(drop), 0}; };
    } else if (it.kind == "load" && part.kind == "lamp" && it.value->unit != "ohm") {
        Branch& lamp = lay(a, b, index, number);
        const Range share =
            it.value->plus_minus ? usual.written(*it.value, "a lamp's power").times(1 / it.value->si) : usual["a lamp's power"];
        const Range cold = usual["a filament, cold to hot ohms"];
        const double amps = it.value->unit == "W" ? it.value->si / volts : it.value->si;
        lamp.law = Law::filament;
        lamp.real = [=](Dice& dice) {
            const double draws = amps * dice(share);
            return Real{dice(cold) * volts / draws, volts, draws};
        };
    } else if (it.kind == "load" && part.kind == "motor" && it.value->unit != "ohm") {
        Branch& motor = lay(a, b, index, number);
        const Quantity amps = amperes(*it.value, volts);
        const Range runs = usual.written(amps, "a load's current");
        const Range times = usual["a motor held still, times its running current"];
        const Range stalls = part.stalls_at ? usual.written(*part.stalls_at, "a load's current") : exactly(0);
        motor.law = Law::motor;
        motor.real = [=](Dice& dice) {
            const double draws = dice(runs), held = stalls.usual > 0 ? dice(stalls) : amps.si * dice(times);
            return Real{volts / held, volts, draws};
        };
    } else if (it.kind == "load") {
        const Quantity& value = *it.value;
        Branch& load = lay(a, b, index, number);
        if (value.unit == "ohm") {
            const Range ohms = usual.written(value, "a coil's ohms"); // whatever the load
            load.real = [=](Dice& dice) { return Real{dice(ohms)}; };
        } else {
            const Quantity amps = amperes(value, volts);
            const Range draws = usual.written(amps, "a load's current");
            load.real = [=](Dice& dice) { return Real{volts / dice(draws)}; };
        }
    } else if (it.kind == "resistor" || it.kind == "between") {
        const Range ohms = usual.written(*it.value, "a resistor's ohms");
        lay(a, b, index, number).real = [=](Dice& dice) { return Real{dice(ohms)}; };
    } else if (it.kind == "ntc" || it.kind == "pot" || it.kind == "hall") {
        lay_sensor(index, number, a, b, c);
    }
}

int Loom::node(const Point& at) const {
    if (at.metal == "body") return body();
    int pin = at.pin;
    if (pin == none && at.part != none && plan.parts[at.part].pins.size() == 1) pin = plan.parts[at.part].pins.front();
    if (pin == none) return none;
    if (at.metal == "part")
        return part_side_[pin] != none ? part_side_[pin] : plan.pins[pin].mate != none ? part_side_[plan.pins[pin].mate] : none;
    return wire_side_[pin];
}

int Loom::joint(int pin) const {
    for (std::size_t i = 0; i < branches.size(); ++i)
        if (branches[i].gate == Gate::joint && std::find(branches[i].pins.begin(), branches[i].pins.end(), pin) != branches[i].pins.end())
            return static_cast<int>(i);
    return none;
}

double Loom::needs(int index) const {
    const Part& part = plan.parts[index];
    if (part.needs) return part.needs->si;
    if (part.kind == "module") return usual["a control unit works from"].usual * plan.system / 12;
    return usual["what a load needs, of the system's volts"].usual * plan.system;
}

double Loom::filament_lit(const Branch& filament, double volts) const {
    const Element& it = plan.parts[filament.part].elements[filament.element];
    return std::abs(volts) / (it.at ? it.at->si : plan.system);
}

} // namespace oracle
