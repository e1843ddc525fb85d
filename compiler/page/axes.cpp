#include "page/axes.hpp"
#include <algorithm>

namespace loomsheet {

double Axes::across(double x) const { return edge + (x - 18) * (right - edge) / frame::wide_room; }

Axes axes_of(double page_width, const Margins& margins) {
    const double room = page_width - margins.left - margins.right;
    Axes made{};
    made.narrow = room < frame::least_wide;
    made.edge = margins.left;
    made.right = made.edge + std::min(room, frame::wide_room);
    made.box = made.edge + 4.5;
    made.text = made.edge + 14.5;
    made.second = (made.right - made.edge + 2.5) / 2;
    made.divider = made.narrow ? made.right : made.edge + 54.2;
    made.probe = made.narrow ? made.edge : made.edge + 57;
    made.pin = made.probe + 20;
    made.wire = made.probe + 49;
    made.limit = made.probe + 61;
    made.swatch = made.probe + 69.5;
    made.face = made.probe + 93;
    made.label = made.narrow ? made.edge : made.text;
    made.words = made.narrow ? made.edge + 36 : made.probe;
    made.foot = margins.bottom + 0.7;
    return made;
}

double TypeSizes::pt(const Style& style) const {
    switch (style.type) {
    case Type::probing: return style.usual * probing / usual_sizes.probing;
    case Type::text: return std::max(least_sizes.text, style.usual * text / usual_sizes.text);
    case Type::caption: break;
    }
    return style.usual * caption / usual_sizes.caption;
}

double TypeSizes::leading(const Style& style) const { return pt(style) * 25.4 / 72.0 * 1.12; }
double TypeSizes::half_cap(const Style& style) const { return pt(style) * 25.4 / 72.0 * 0.688 / 2; }

} // namespace loomsheet
