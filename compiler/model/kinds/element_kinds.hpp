// What inside a part conducts between pins: one row a kind. Which pins and values are meant depends on it.
#pragma once
#include "model/kinds/things.hpp"
#include <string_view>

namespace loomsheet {

enum class ElementKind : std::uint8_t {
    source,
    link,    // of a part itself: a battery; a fuse or breaker
    coil,    // relay coil, sensor coil: value = ohms
    contact, // relay or switch: a = common; b = make or the closed end; c = break, or none
    load,    // motor, lamp, heater, solenoid, horn: value = A, W or ohms; holds_at = V
    resistor,
    diode,
    ntc,           // value = ohms, holds_at = degC, more = K (beta); or `table`
    pot,           // a = end +, b = wiper, c = end -: value = ohms end to end, positions in percent
    hall,          // a, b, c = supply, signal, ground as written; none where not said
    module_output, // a = pin; pulls_down; value = A
    module_gives,  // a = pin; value = V
    pull_up,       // a = pin; value = V, more = ohms
    input,         // a = pin; value = ohms
    between,       // a, b = pins; value = ohms
};

struct ElementRow {
    std::string_view word = {};     // in JSON
    Things inside = thing::nothing; // what of it can fail on its own; a winding is of the kind that its part has
    bool one_pin = false;           // named by the pin alone
};
const ElementRow& row_of(ElementKind kind);

} // namespace loomsheet
