// A layout as a picture.
#pragma once
#include "drawing/place/columns.hpp"
#include "drawing/place/tracks.hpp"

namespace loomsheet::drawing {

struct Layout {
    Layered layered;
    Order order;
    std::vector<Sizes> sizes;
    std::vector<std::vector<Net>> nets;
    Columns columns;
    std::vector<Tracks> tracks;
    double width = 0, height = 0;
};
// Of the layers from top to bottom, mm: where each zone begins.
struct LayerHeights {
    double label_above = 0, lead_above = 0, band = 0, lead_below = 0, label_below = 0, end = 0;
};
std::vector<LayerHeights> heights_of(const Layout& layout);

Picture paint(const Ruler& ruler, const Layout& layout);

} // namespace loomsheet::drawing
