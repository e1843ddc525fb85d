#include "model/inside.hpp"

namespace loomsheet {

std::vector<PlaceInside> places_inside(const Part& part) {
    std::vector<PlaceInside> list;
    for (const Element& element : part.elements) {
        const ElementRow& row = row_of(element.kind);
        if (row.inside == thing::nothing) continue;
        const Things what = row.inside == thing::winding ? row_of(part.kind).winding : row.inside;
        if (what == thing::contact) {
            for (const PinId other : {element.b, element.c})
                if (other != none) list.push_back({what, {element.a, other}});
            continue;
        }
        std::vector<PinId> pins;
        for (const PinId pin : {element.a, element.b, element.c})
            if (pin != none && (!row.one_pin || pin == element.a)) pins.push_back(pin);
        list.push_back({what, std::move(pins)});
    }
    return list;
}

} // namespace loomsheet
