#include "page/axes.hpp"
#include <algorithm>

namespace loomsheet {

void set_axes(double page_width, const Margins& margins) {
    using namespace axis;
    const double room = page_width - margins.left - margins.right;
    narrow = room < least_wide;
    edge = margins.left;
    right = edge + std::min(room, wide_room);
    box = edge + 4.5;
    text = edge + 14.5;
    second = (right - edge + 2.5) / 2;
    divider = narrow ? right : edge + 54.2;
    probe = narrow ? edge : edge + 57;
    pin = probe + 20;
    wire = probe + 49;
    limit = probe + 61;
    swatch = probe + 69.5;
    face = probe + 93;
    label = narrow ? edge : text;
    words = narrow ? edge + 36 : probe;
    frame::foot = margins.bottom + 0.7;
}

double Style::pt() const {
    switch (type) {
    case Type::probing: return usual * type_sizes.probing / usual_sizes.probing;
    case Type::text: return std::max(least_sizes.text, usual * type_sizes.text / usual_sizes.text);
    case Type::caption: break;
    }
    return usual * type_sizes.caption / usual_sizes.caption;
}

} // namespace loomsheet
