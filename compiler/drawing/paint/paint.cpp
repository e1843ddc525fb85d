#include "drawing/paint/paint.hpp"
#include "drawing/paint/channel.hpp"
#include "drawing/paint/inside.hpp"
#include "drawing/paint/lettering.hpp"
#include "drawing/paint/signs.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

constexpr double plug_below = 2.0; // from the middle of a plug to the end of its pin
constexpr double page_sign = 3;    // height of the triangle where a drawing goes on
constexpr double page_words = 3.6; // from its tip to its words
constexpr double bare_lead = 2.4;  // of a pin without a wire
constexpr double ground_from = 1.2, ground_cover = 2.4;

class Painter {
public:
    Painter(const Ruler& ruler, const Layout& layout, Picture& picture)
        : ruler_(ruler), layout_(layout), scheme_(layout.layered.scheme), sketch_(picture, ruler.measure), lettering_(sketch_, ruler),
          wiring_(ruler.circuit, layout.layered), heights_(heights_of(layout)) {}

    void paint() {
        for (const auto& row : layout_.order.rows)
            for (const int node : row)
                draw_node(node);
        for (std::size_t channel = 0; channel < layout_.nets.size(); ++channel)
            draw_channel(sketch_, wiring_, layout_, channel, heights_[channel].end, heights_[channel + 1].label_above);
        std::vector<WireId>& wires = sketch_.picture().wires;
        std::sort(wires.begin(), wires.end());
        wires.erase(std::unique(wires.begin(), wires.end()), wires.end());
    }

private:
    const LayerHeights& layer(int node) const { return heights_[scheme_.nodes[node].layer]; }
    double x_of(int node) const { return layout_.columns.x[node][0]; }
    // A piece of the wire at a port.
    void wire(int n, int p, double from, double to) {
        const double x = layout_.columns.x[n][scheme_.nodes[n].ports[p].column];
        sketch_.line(x, from, x, to, wiring_.width_at(n, p), Use::wire, wiring_.net_at(n, p));
    }

    void draw_node(int n) {
        const Node& node = scheme_.nodes[n];
        switch (node.kind) {
        case NodeKind::part: draw_part(n); break;
        case NodeKind::box: draw_box(n); break;
        case NodeKind::cavity: draw_cavity(n); break;
        case NodeKind::ground: draw_ground_node(n); break;
        case NodeKind::to_page: draw_to_page(n); break;
        case NodeKind::from_page: draw_from_page(n); break;
        case NodeKind::point:
        case NodeKind::turn:
        case NodeKind::dummy: return draw_pass(n);
        }
        for (int p = 0; p < static_cast<int>(node.ports.size()); ++p)
            draw_port(n, p);
    }

    // The lead between the band and the outer edge of the layer, with all that is written beside it.
    void draw_port(int n, int p) {
        const Node& node = scheme_.nodes[n];
        const Port& port = node.ports[p];
        const LayerHeights& h = layer(n);
        const double x = layout_.columns.x[n][port.column];
        if (port.pin != none) sketch_.picture().pins.push_back(port.pin);
        if (node.kind != NodeKind::cavity)
            draw_lead(n, p);
        else if (!layout_.layered.at[n][p].empty()) // its names stand inside
            port.top ? wire(n, p, h.band, h.label_above) : wire(n, p, h.lead_below, h.end);
        if (port.label != none) draw_label(node, port, x);
    }
    void draw_lead(int n, int p) {
        const Node& node = scheme_.nodes[n];
        const Port& port = node.ports[p];
        const LayerHeights& h = layer(n);
        const double x = layout_.columns.x[n][port.column], inner = port.top ? h.band : h.lead_below,
                     outer = port.top ? h.label_above : h.end;
        const bool wired = !layout_.layered.at[n][p].empty();
        const double middle = port.top ? inner - lead_of(node, port) / 2 : inner + lead_of(node, port) / 2;
        double beside = mm::beside;
        if (port.plug) {
            draw_plug(sketch_, x, middle, port.top);
            beside += mm::plug_radius;
            if (port.top) {
                wire(n, p, middle + plug_below, inner);
                if (wired) wire(n, p, outer, middle - mm::plug_radius);
            } else {
                wire(n, p, inner, middle - plug_below);
                if (wired) wire(n, p, middle + mm::plug_radius, outer);
            }
        } else {
            wire(n, p, inner, wired ? outer : inner + (port.top ? -bare_lead : bare_lead));
        }
        const double width = ruler_.measure.width(Type::small, port.name), baseline = middle + height_of(Type::small) / 2;
        const bool left = ruler_.manner.names_left;
        sketch_.words(left ? x - beside - width : x + beside, baseline, Type::small, port.name);
        const double marks = left && !port.name.empty() ? x - beside - width - mm::label : x - beside;
        lettering_.probes(port.checks, marks, port.top ? inner - 0.25 : inner + 0.25, !port.top);
    }
    void draw_label(const Node& node, const Port& port, double x) {
        const LayerHeights& h = heights_[node.layer];
        const Edge& edge = scheme_.edges[port.label];
        const double height = wire_words(ruler_, edge).height;
        if (ruler_.manner.names_left) {
            const double middle = port.top ? h.band - lead_of(node, port) / 2 : h.lead_below + lead_of(node, port) / 2;
            lettering_.wire(edge, port.plug ? x + mm::plug_radius : x, middle - height / 2);
        } else {
            lettering_.wire(edge, x, port.top ? h.lead_above - height : h.label_below);
        }
    }
    // From the band to the wire's own place: the name of the pin stands in its middle.
    double lead_of(const Node& node, const Port& port) const {
        const LayerHeights& h = heights_[node.layer];
        const bool tall = ruler_.manner.names_left && !ruler_.manner.one_line; // two lines of words stand there
        return std::min(port.top ? h.band - h.lead_above : h.label_below - h.lead_below,
                        tall ? mm::colour_line + mm::size_line : mm::plug_lead);
    }

    void draw_part(int n) {
        const Node& node = scheme_.nodes[n];
        const LayerHeights& h = layer(n);
        const auto& xs = layout_.columns.x[n];
        const double middle = (h.band + h.lead_below) / 2, top = middle - node.grid.height() / 2;
        const Overhang overhang = overhang_of(node, ruler_.measure);
        const double left = xs.front() - overhang.left, right = xs.back() + overhang.right;
        draw_inside(sketch_, node.grid, {xs, top, h.band, h.lead_below});
        if (node.outlined) {
            const double frame_top = middle - band_height(node) / 2, frame_bottom = middle + band_height(node) / 2;
            sketch_.dashed({{left, frame_top}, {right, frame_top}, {right, frame_bottom}, {left, frame_bottom}}, pt::outline, Use::outline,
                           {4, 0.9, 0.9, 0.9}, true);
            sketch_.cover(left, frame_top, right - left, frame_bottom - frame_top);
        } else {
            sketch_.cover(left, top + node.grid.row_top(0), right - left, node.grid.height() - 2 * node.grid.row_top(0));
        }
        lettering_.title(node, right + mm::title, middle);
    }

    void draw_box(int n) {
        const Node& node = scheme_.nodes[n];
        const LayerHeights& h = layer(n);
        const double middle = (h.band + h.lead_below) / 2, half = band_height(node) / 2;
        const double left = layout_.columns.left[n], right = layout_.columns.right[n];
        sketch_.rect(left, middle - half, right - left, 2 * half, pt::thick);
        sketch_.cover(left, middle - half, right - left, 2 * half);
        bool above = false, below = false; // whether names stand there
        for (int p = 0; p < static_cast<int>(node.ports.size()); ++p) {
            const Port& port = node.ports[p];
            port.top ? wire(n, p, h.band, middle - half) : wire(n, p, middle + half, h.lead_below);
            if (port.inside.empty()) continue;
            (port.top ? above : below) = true;
            sketch_.centred(layout_.columns.x[n][port.column], port.top ? middle - half + 1 + height_of(Type::small) : middle + half - 1.2,
                            Type::small, port.inside);
        }
        const double shift = (above ? mm::box_line : 0) - (below ? mm::box_line : 0);
        lettering_.title(node, (left + right) / 2 - title_width(node) / 2, middle + shift / 2);
    }

    void draw_cavity(int n) {
        const Node& node = scheme_.nodes[n];
        const LayerHeights& h = layer(n);
        const double x = x_of(n), middle = (h.band + h.lead_below) / 2;
        draw_plug(sketch_, x, middle, true);
        sketch_.cover(x - mm::plug_radius, middle - mm::plug_radius, 2 * mm::plug_radius, mm::plug_radius + plug_below);
        for (int p = 0; p < static_cast<int>(node.ports.size()); ++p) {
            const Port& port = node.ports[p];
            port.top ? wire(n, p, h.band, middle - mm::plug_radius) : wire(n, p, middle + plug_below, h.lead_below);
            sketch_.words(x + mm::plug_radius + mm::beside, port.top ? middle - 0.9 : middle + 1.1 + height_of(Type::small), Type::small,
                          port.name);
            lettering_.probes(port.checks, x - mm::plug_radius - mm::beside, port.top ? middle - 0.1 : middle + 0.1, !port.top);
        }
    }

    void draw_ground_node(int n) {
        const Node& node = scheme_.nodes[n];
        const double x = x_of(n), y = layer(n).band;
        draw_ground(sketch_, x, y);
        sketch_.cover(x - mm::ground_half, y + ground_from, 2 * mm::ground_half, ground_cover);
        lettering_.title_centred(node, x, y + mm::ground + title_height(node) / 2);
    }

    // A triangle that points the way of the current.
    void draw_to_page(int n) {
        const Node& node = scheme_.nodes[n];
        const double x = x_of(n), top = layer(n).band;
        draw_triangle(x, node.incoming ? top + page_sign : top, node.incoming ? top : top + page_sign);
        lettering_.title_centred(node, x, top + page_words + title_height(node) / 2);
    }
    void draw_from_page(int n) {
        const Node& node = scheme_.nodes[n];
        const double x = x_of(n), bottom = layer(n).lead_below;
        draw_triangle(x, bottom - page_sign, bottom);
        lettering_.title_centred(node, x, bottom - page_words - title_height(node) / 2);
    }
    void draw_triangle(double x, double base, double tip) {
        constexpr double half = 1.7;
        sketch_.path({{x - half, base}, {x + half, base}, {x, tip}}, 0, true, Fill::black);
    }

    // Points, turns and dummies: the wire goes through.
    void draw_pass(int n) {
        const Node& node = scheme_.nodes[n];
        if (!has_stub(layout_.layered, n)) return;
        const LayerHeights& h = layer(n);
        const auto& at = layout_.layered.at[n];
        const bool above = !at[0].empty(), below = !at[1].empty();
        const double x = x_of(n), middle = (h.band + h.lead_below) / 2;
        const double from = above ? h.label_above : node.topmost ? h.end - title_height(node) : middle;
        const double width = std::min(above ? wiring_.width_at(n, 0) : 9, below ? wiring_.width_at(n, 1) : 9);
        sketch_.line(x, from, x, below ? h.end : middle, width, Use::wire, wiring_.net_at(n, above ? 0 : 1));
        if (node.kind == NodeKind::point) draw_point(n, x, middle, above && below);
        if (const int label = node.ports[0].label; label != none && node.kind == NodeKind::dummy) {
            const Edge& edge = scheme_.edges[label];
            lettering_.wire(edge, x, middle - wire_words(ruler_, edge).height / 2);
        }
    }
    void draw_point(int n, double x, double middle, bool passed) {
        const Node& node = scheme_.nodes[n];
        const LayerHeights& h = layer(n);
        if (node.part != none && passed) sketch_.dot(x, middle);
        if (node.ports[0].pin != none) sketch_.picture().pins.push_back(node.ports[0].pin);
        double y = node.topmost ? h.end - title_height(node) - 0.2 : middle - title_height(node) / 2;
        for (const Words& line : node.title) {
            sketch_.words(x - mm::beside - line.width, y + pitch_of(line.type) / 2 + height_of(line.type) / 2, line.type, line.text);
            y += pitch_of(line.type);
        }
        lettering_.probes(node.ports[0].checks, x - mm::beside, h.band - 0.25, false);
        for (const Port& port : node.ports)
            if (port.label != none) draw_label(node, port, x);
    }

    const Ruler& ruler_;
    const Layout& layout_;
    const Scheme& scheme_;
    Sketch sketch_;
    Lettering lettering_;
    Wiring wiring_;
    std::vector<LayerHeights> heights_;
};

} // namespace

Picture paint(const Ruler& ruler, const Layout& layout) {
    Picture picture;
    picture.width = layout.width, picture.height = layout.height;
    Painter(ruler, layout, picture).paint();
    return picture;
}

} // namespace loomsheet::drawing
