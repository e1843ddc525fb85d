#include "drawing/scheme/elements.hpp"
#include <algorithm>
#include <optional>

namespace loomsheet::drawing {
namespace {

bool closed_at_rest(const Part& part, const Element& element) {
    if (element.when) return std::find(element.when->key.begin(), element.when->key.end(), "off") != element.when->key.end();
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
        if (std::find(position.closed.begin(), position.closed.end(), std::pair(element.a, element.b)) != position.closed.end())
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
    case PartKind::battery:
    case PartKind::fuse:
    case PartKind::breaker:
    case PartKind::relay:
    case PartKind::switch_:
    case PartKind::resistor:
    case PartKind::diode:
    case PartKind::sensor:
    case PartKind::module:
    case PartKind::assembly:
    case PartKind::splice:
    case PartKind::ground:
    case PartKind::connector:
    case PartKind::plain: return Sign::resistor;
    }
    return Sign::resistor;
}

// Of a part that is one element as a whole: its sign and its two pins.
struct OwnSign {
    Sign sign = Sign::resistor;
    const char *a = nullptr, *b = nullptr;
};
std::optional<OwnSign> own_sign(PartKind kind) {
    switch (kind) {
    case PartKind::battery: return OwnSign{Sign::battery, "+", "-"};
    case PartKind::fuse: return OwnSign{Sign::fuse, "1", "2"};
    case PartKind::breaker: return OwnSign{Sign::breaker, "1", "2"};
    case PartKind::relay:
    case PartKind::switch_:
    case PartKind::motor:
    case PartKind::lamp:
    case PartKind::heater:
    case PartKind::solenoid:
    case PartKind::horn:
    case PartKind::resistor:
    case PartKind::diode:
    case PartKind::sensor:
    case PartKind::module:
    case PartKind::assembly:
    case PartKind::splice:
    case PartKind::ground:
    case PartKind::connector:
    case PartKind::plain: return std::nullopt;
    }
    return std::nullopt;
}

} // namespace

bool add_elements(const Circuit& circuit, PartId id, std::vector<SignElement>& list) {
    const Part& part = circuit.parts[id];
    if (const auto own = own_sign(part.kind))
        list.push_back({own->sign, circuit.find_pin(id, own->a), circuit.find_pin(id, own->b), none, id, false, {}});
    for (const Element& element : part.elements) {
        SignElement made{Sign::resistor, element.a, element.b, element.c, id, false, {}};
        switch (element.kind) {
        case ElementKind::source:
        case ElementKind::link: continue;
        case ElementKind::coil: made.sign = part.kind == PartKind::sensor ? Sign::inductor : Sign::coil; break;
        case ElementKind::contact:
            made.sign = element.c == none ? Sign::contact : Sign::change_over;
            made.closed = closed_at_rest(part, element);
            made.when = positions_of(part, element);
            break;
        case ElementKind::load: made.sign = load_sign(part.kind); break;
        case ElementKind::resistor: break;
        case ElementKind::diode: made.sign = Sign::diode; break;
        case ElementKind::ntc: made.sign = Sign::ntc; break;
        case ElementKind::pot: made.sign = Sign::pot; break;
        case ElementKind::hall:
        case ElementKind::module_output:
        case ElementKind::module_gives:
        case ElementKind::pull_up:
        case ElementKind::input:
        case ElementKind::between: return false;
        }
        list.push_back(made);
    }
    return part.kind != PartKind::module;
}

void drop_of_other_pages(const Circuit& circuit, PartId id, const std::vector<char>& wired, std::vector<SignElement>& elements) {
    const auto uses = [&](PinId pin) {
        return std::count_if(elements.begin(), elements.end(),
                             [pin](const SignElement& element) { return element.a == pin || element.b == pin || element.c == pin; });
    };
    std::vector<SignElement> kept;
    for (const SignElement& element : elements) {
        PinId key = none;
        for (const PinId pin : {element.a, element.b, element.c})
            if (pin != none && circuit.pins[pin].part == id && circuit.pins[pin].declared && (key == none || uses(pin) < uses(key)))
                key = pin;
        if (key == none || wired[key]) kept.push_back(element);
    }
    elements = kept;
}

} // namespace loomsheet::drawing
