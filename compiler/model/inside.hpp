// What inside a part can fail on its own, and by which pins it is named.
#pragma once
#include "model/circuit.hpp"
#include <vector>

namespace loomsheet {

struct PlaceInside {
    Things what = thing::nothing;
    std::vector<PinId> pins;
};
std::vector<PlaceInside> places_inside(const Part& part); // each pair of pins of a contact for itself

} // namespace loomsheet
