#include "model/inside.hpp"

namespace loomsheet {

std::vector<PlaceInside> places_inside(const Part& part) {
    std::vector<PlaceInside> list;
    for (const Element& element : part.elements) {
        std::vector<PinId> pins;
        for (const PinId pin : {element.a, element.b, element.c})
            if (pin != none) pins.push_back(pin);
        switch (element.kind) {
        case ElementKind::contact:
            for (const PinId other : {element.b, element.c})
                if (other != none) list.push_back({Inside::contact, {element.a, other}});
            break;
        case ElementKind::module_output: list.push_back({Inside::driver, {element.a}}); break;
        case ElementKind::pull_up:
        case ElementKind::module_gives:
        case ElementKind::input: list.push_back({Inside::input, {element.a}}); break;
        case ElementKind::diode:
        case ElementKind::hall: list.push_back({Inside::one_way, std::move(pins)}); break;
        case ElementKind::source:
        case ElementKind::link: break;
        default: list.push_back({Inside::winding, std::move(pins)});
        }
    }
    return list;
}

} // namespace loomsheet
