#include "drawing/layout.hpp"
#include <algorithm>

namespace loomsheet::drawing {

std::vector<LayerHeights> heights_of(const Layout& layout) {
    std::vector<LayerHeights> made;
    double y = 0;
    for (std::size_t layer = 0; layer < layout.order.rows.size(); ++layer) {
        Heights most;
        for (const int n : layout.order.rows[layer]) {
            const Heights& h = layout.sizes[n].heights;
            most.label_above = std::max(most.label_above, h.label_above);
            most.lead_above = std::max(most.lead_above, h.lead_above);
            most.band = std::max(most.band, h.band);
            most.lead_below = std::max(most.lead_below, h.lead_below);
            most.label_below = std::max(most.label_below, h.label_below);
        }
        LayerHeights h;
        h.label_above = y;
        h.lead_above = h.label_above + most.label_above;
        h.band = h.lead_above + most.lead_above;
        h.lead_below = h.band + most.band;
        h.label_below = h.lead_below + most.lead_below;
        h.end = h.label_below + most.label_below;
        y = h.end;
        if (layer < layout.tracks.size())
            y += layout.tracks[layer].count == 0 ? 0.4 : 2 * mm::channel + (layout.tracks[layer].count - 1) * mm::track;
        made.push_back(h);
    }
    return made;
}

namespace {

void measure_nodes(const Ruler& ruler, Layout& layout) {
    layout.sizes.clear();
    for (const Node& node : layout.layered.scheme.nodes)
        layout.sizes.push_back(sizes_of(ruler, layout.layered.scheme, node));
}

Layout ordered(const Ruler& ruler, const Layered& layered, double page_width, long effort) {
    Layout layout;
    layout.layered = layered;
    layout.order = find_order(ruler, layout.layered, page_width, effort);
    join_grounds(layout.layered, layout.order);
    measure_nodes(ruler, layout);
    layout.nets = nets_of(layout.layered);
    return layout;
}

// Gives what lies on one another.
std::vector<Apart> place(Layout& layout, const std::vector<Apart>& apart, double page_width, bool rough) {
    layout.columns = place_columns(layout.layered, layout.order, layout.sizes, layout.nets, apart, page_width, rough);
    layout.tracks.clear();
    std::vector<Apart> more;
    for (const auto& channel : layout.nets) {
        layout.tracks.push_back(lay_tracks(layout.layered.scheme, layout.columns, channel));
        more.insert(more.end(), layout.tracks.back().apart.begin(), layout.tracks.back().apart.end());
    }
    layout.width = layout.columns.width;
    const std::vector<LayerHeights> heights = heights_of(layout);
    layout.height = heights.empty() ? 0 : heights.back().end;
    return more;
}

} // namespace

Layout lay_out(const Ruler& ruler, const Layered& layered, double page_width, long effort) {
    Layout layout = ordered(ruler, layered, page_width, effort);
    std::vector<Apart> apart;
    constexpr int tries = 6; // what lies on one another is kept apart, which may move something else
    for (int i = 0; i < tries; ++i) {
        const std::vector<Apart> more = place(layout, apart, page_width, false);
        if (more.empty()) break;
        apart.insert(apart.end(), more.begin(), more.end());
    }
    return layout;
}

Layout order_roughly(const Ruler& ruler, const Layered& layered, double page_width, long effort) {
    return ordered(ruler, layered, page_width, effort);
}

Layout place_roughly(const Ruler& ruler, const Layout& ordered, double page_width) {
    constexpr double hopeless = 2; // so wide before it is placed, and no placing helps
    Layout layout = ordered;
    measure_nodes(ruler, layout);
    layout.width = layout.order.width;
    if (layout.width <= hopeless * page_width) place(layout, {}, page_width, true);
    return layout;
}

double least_height(const Ruler& ruler, const Layered& layered) {
    Layout bare;
    bare.order.rows.resize(layered.layers);
    for (std::size_t n = 0; n < layered.scheme.nodes.size(); ++n) {
        bare.sizes.push_back(sizes_of(ruler, layered.scheme, layered.scheme.nodes[n]));
        bare.order.rows[layered.scheme.nodes[n].layer].push_back(static_cast<int>(n));
    }
    const std::vector<LayerHeights> heights = heights_of(bare);
    return heights.empty() ? 0 : heights.back().end;
}

} // namespace loomsheet::drawing
