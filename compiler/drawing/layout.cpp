#include "drawing/layout.hpp"

namespace loomsheet::drawing {

Layout lay_out(const Ruler& ruler, const Layered& layered, double page_width, long effort) {
    Layout layout;
    layout.layered = layered;
    layout.order = find_order(ruler, layout.layered, page_width, effort);
    join_grounds(layout.layered, layout.order);
    for (const Node& node : layout.layered.scheme.nodes)
        layout.sizes.push_back(sizes_of(ruler, layout.layered.scheme, node));
    layout.nets = nets_of(layout.layered);
    std::vector<Apart> apart;
    constexpr int tries = 4; // what lies on one another is kept apart, which may move something else
    for (int i = 0; i < tries; ++i) {
        layout.columns = place_columns(layout.layered, layout.order, layout.sizes, layout.nets, apart, page_width);
        layout.tracks.clear();
        layout.crossings = 0;
        const std::size_t before = apart.size();
        for (const auto& channel : layout.nets) {
            layout.tracks.push_back(lay_tracks(layout.layered.scheme, layout.columns, channel));
            layout.crossings += layout.tracks.back().crossings;
            apart.insert(apart.end(), layout.tracks.back().apart.begin(), layout.tracks.back().apart.end());
        }
        if (apart.size() == before) break;
    }
    layout.width = layout.columns.width;
    const std::vector<LayerHeights> heights = heights_of(layout);
    layout.height = heights.empty() ? 0 : heights.back().end;
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
