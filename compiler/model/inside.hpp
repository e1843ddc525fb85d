// What inside a part can fail on its own, and by which pins it is named.
#pragma once
#include "model/circuit.hpp"
#include <vector>

namespace loomsheet {

enum class Inside : std::uint8_t {
    contact, // of a switch or relay, each pair of pins for itself
    driver,
    input,   // or a pull-up, or a supply that a control unit gives
    one_way, // a diode, a Hall sensor
    winding, // or a filament, a resistor, a track
};
struct PlaceInside {
    Inside what = Inside::winding;
    std::vector<PinId> pins;
};
std::vector<PlaceInside> places_inside(const Part& part);

} // namespace loomsheet
