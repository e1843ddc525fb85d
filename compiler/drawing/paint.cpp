#include "drawing/paint.hpp"
#include "drawing/signs.hpp"
#include "drawing/sketch.hpp"
#include <algorithm>
#include <numeric>

namespace loomsheet::drawing {
namespace {

// A wire's line by its area, mm².
double line_of(const Circuit& circuit, const Edge& edge) {
    if (edge.wire == none || !circuit.wires[edge.wire].area) return pt::wire;
    const double area = circuit.wires[edge.wire].area->si * 1e6;
    return area >= 16 ? pt::heavy : area >= 4 ? pt::thick : pt::wire;
}

class Painter {
public:
    Painter(const Ruler& ruler, const Layout& layout, Picture& picture)
        : ruler_(ruler), circuit_(ruler.circuit), layout_(layout), scheme_(layout.layered.scheme),
          sketch_(picture, ruler.measure), measure_(ruler.measure), heights_(heights_of(layout)) {}

    void paint() {
        number_nets();
        for (const auto& row : layout_.order.rows)
            for (const int node : row)
                draw_node(node);
        for (std::size_t channel = 0; channel < layout_.nets.size(); ++channel)
            for (std::size_t net = 0; net < layout_.nets[channel].size(); ++net)
                draw_net(channel, net);
        Picture& picture = sketch_.picture();
        std::sort(picture.wires.begin(), picture.wires.end());
        picture.wires.erase(std::unique(picture.wires.begin(), picture.wires.end()), picture.wires.end());
    }

private:
    const LayerHeights& layer(int node) const { return heights_[scheme_.nodes[node].layer]; }
    double x_of(int node, const Port& port) const { return layout_.columns.x[node][port.column]; }
    bool passes(int node) const {
        const NodeKind kind = scheme_.nodes[node].kind;
        return kind == NodeKind::point || kind == NodeKind::turn || kind == NodeKind::dummy;
    }

    // Nets that one wire, or a point, joins have one number.
    void number_nets() {
        const std::size_t segments = layout_.layered.segments.size();
        one_.resize(segments);
        std::iota(one_.begin(), one_.end(), 0);
        const auto join = [&](const std::vector<int>& list) {
            for (std::size_t i = 1; i < list.size(); ++i)
                one_[find(list[i])] = find(list[0]);
        };
        for (std::size_t n = 0; n < scheme_.nodes.size(); ++n) {
            std::vector<int> all;
            for (const auto& port : layout_.layered.at[n]) {
                join(port);
                all.insert(all.end(), port.begin(), port.end());
            }
            if (passes(static_cast<int>(n))) join(all);
        }
    }
    int find(int s) {
        while (one_[s] != s)
            s = one_[s] = one_[one_[s]];
        return s;
    }
    int net_at(int node, int port) {
        const auto& at = layout_.layered.at[node][port];
        return at.empty() ? -2 - node * 16 - port : find(at[0]);
    }
    double line_at(int node, int port) const {
        double most = pt::wire;
        for (const int s : layout_.layered.at[node][port])
            most = std::max(most, line_of(circuit_, scheme_.edges[layout_.layered.segments[s].edge]));
        return most;
    }

    // --- nodes
    // -----------------------------------------------------------------------------------------------------------
    void draw_node(int n) {
        const Node& node = scheme_.nodes[n];
        switch (node.kind) {
        case NodeKind::part: draw_part(n); break;
        case NodeKind::box: draw_box(n); break;
        case NodeKind::cavity: draw_cavity(n); break;
        case NodeKind::ground: draw_ground_node(n); break;
        case NodeKind::to_page:
        case NodeKind::from_page: draw_page(n); break;
        case NodeKind::point:
        case NodeKind::turn:
        case NodeKind::dummy: draw_pass(n); return;
        }
        for (std::size_t p = 0; p < node.ports.size(); ++p)
            draw_port(n, static_cast<int>(p));
    }

    // The lead between the band and the outer edge of the layer, with all that is written beside it.
    void draw_port(int n, int p) {
        const Node& node = scheme_.nodes[n];
        const Port& port = node.ports[p];
        const LayerHeights& h = layer(n);
        const double x = x_of(n, port), inner = port.top ? h.band : h.lead_below,
                     outer = port.top ? h.label_above : h.end;
        const bool wired = !layout_.layered.at[n][p].empty();
        if (port.pin != none) sketch_.picture().pins.push_back(port.pin);
        const bool split = node.kind == NodeKind::cavity; // its names stand inside
        if (!split) {
            const double middle = port.top ? inner - lead_of(node, port) / 2 : inner + lead_of(node, port) / 2;
            double beside = mm::beside;
            if (port.plug) {
                draw_plug(sketch_, x, middle, port.top);
                beside += mm::plug_radius;
                const double gap_from = middle - (port.top ? mm::plug_radius : 2.0),
                             gap_to = middle + (port.top ? 2.0 : mm::plug_radius);
                const int net = net_at(n, p);
                const double pt = line_at(n, p);
                if (port.top)
                    sketch_.line(x, gap_to, x, inner, pt, Use::wire, net),
                        wired ? sketch_.line(x, outer, x, gap_from, pt, Use::wire, net) : void();
                else
                    sketch_.line(x, inner, x, gap_from, pt, Use::wire, net),
                        wired ? sketch_.line(x, gap_to, x, outer, pt, Use::wire, net) : void();
            } else {
                const double end = wired ? outer : inner + (port.top ? -2.4 : 2.4);
                sketch_.line(x, inner, x, end, line_at(n, p), Use::wire, net_at(n, p));
            }
            const double width = measure_.width(Type::small, port.name), baseline = middle + height_of(Type::small) / 2;
            sketch_.words(ruler_.manner.names_left ? x - beside - width : x + beside, baseline, Type::small, port.name);
            const double marks = ruler_.manner.names_left && !port.name.empty() ? x - beside - width - 0.8 : x - beside;
            draw_probes(port.checks, marks, port.top ? inner - 0.25 : inner + 0.25, !port.top);
        } else if (wired) {
            sketch_.line(x, inner, x, outer, line_at(n, p), Use::wire, net_at(n, p));
        }
        if (port.label != none) draw_label(node, port, x);
    }
    void draw_label(const Node& node, const Port& port, double x) {
        const LayerHeights& h = heights_[node.layer];
        const WireWords words = wire_words(ruler_, scheme_.edges[port.label]);
        if (ruler_.manner.names_left) {
            const double middle = port.top ? h.band - lead_of(node, port) / 2 : h.lead_below + lead_of(node, port) / 2;
            draw_wire_words(words, port.plug ? x + mm::plug_radius : x, middle - words.height / 2, port.label);
        } else {
            draw_wire_words(words, x, port.top ? h.lead_above - words.height : h.label_below, port.label);
        }
    }
    // From the band to the wire's own place: the name of the pin stands in its middle.
    double lead_of(const Node& node, const Port& port) const {
        const LayerHeights& h = heights_[node.layer];
        const bool tall = ruler_.manner.names_left && !ruler_.manner.one_line; // two lines of words stand there
        return std::min(port.top ? h.band - h.lead_above : h.label_below - h.lead_below,
                        tall ? mm::colour_line + mm::size_line : mm::plug_lead);
    }
    void draw_wire_words(const WireWords& words, double x, double top, int edge) {
        double y = top;
        if (!words.colour.empty()) {
            sketch_.words(x + mm::beside, y + 0.8 + height_of(Type::colour), Type::colour, words.colour);
            y += mm::colour_line;
        }
        const bool beside = words.size_x > 0;
        sketch_.words(x + mm::beside + words.size_x,
                      beside ? top + 0.8 + height_of(Type::colour) : y + 0.4 + height_of(Type::small), Type::small,
                      words.size);
        sketch_.picture().wires.push_back(scheme_.edges[edge].wire);
        draw_probes(words.checks, x - mm::beside, top, true);
    }
    // Their right edge, and the upper or lower edge of the zone in which they stand.
    void draw_probes(const std::vector<int>& checks, double right, double edge, bool below) {
        if (checks.empty()) return;
        const ProbeMark mark = probe_mark(ruler_, checks);
        const double x = right - mark.width, y = below ? edge : edge - mark.height;
        if (checks.size() == 1 && mark.width <= mm::probe)
            sketch_.ring(x + mark.width / 2, y + mm::probe / 2, mm::probe / 2, pt::probe);
        else
            sketch_.pill(x, y, mark.width, mark.height, pt::probe);
        double baseline = y + mm::probe / 2 + height_of(Type::number) / 2;
        for (const auto& row : mark.rows) {
            double width = -1.6;
            for (const std::string& number : row)
                width += measure_.width(Type::number, number) + 1.6;
            double at = x + (mark.width - width) / 2;
            for (const std::string& number : row) {
                sketch_.words(at, baseline, Type::number, number);
                at += measure_.width(Type::number, number) + 1.6;
            }
            baseline += 4.4;
        }
    }

    void draw_title(const Node& node, double x, double middle, bool centred = false) {
        double y = middle - title_height(node) / 2, baseline = y;
        for (const Words& line : node.title) {
            if (line.y < 0) { // goes on on the line above
                sketch_.words(x + line.x, baseline, line.type, line.text);
                continue;
            }
            const double pitch = pitch_of(line.type);
            baseline = y + pitch / 2 + height_of(line.type) / 2;
            centred ? sketch_.centred(x, baseline, line.type, line.text)
                    : sketch_.words(x + line.x, baseline, line.type, line.text);
            y += pitch;
        }
    }

    void draw_part(int n) {
        const Node& node = scheme_.nodes[n];
        const LayerHeights& h = layer(n);
        const auto& xs = layout_.columns.x[n];
        const double middle = (h.band + h.lead_below) / 2, top = middle - node.grid.height() / 2;
        const Overhang hang = overhang_of(node, measure_);
        const double frame_top = middle - band_height(node) / 2, frame_bottom = middle + band_height(node) / 2;
        const double left = xs.front() - hang.left, right = xs.back() + hang.right;
        for (const Cell& cell : node.grid.cells) {
            const double y = top + node.grid.row_top(cell.row);
            const double side = cell.side == none ? 0 : xs[cell.column + 1];
            draw_sign(sketch_, cell, xs[cell.column], side, y, node.grid.row_height[cell.row]);
            const double x =
                xs[cell.column + cell.columns() - 1] + (cell.columns() == 1 ? half_width_of(cell.sign) : 1.5) + 0.8;
            double baseline = y + node.grid.row_height[cell.row] / 2 - 0.8; // one line stands over the link
            if (cell.label.size() > 1)
                baseline = y + (node.grid.row_height[cell.row] -
                                label_pitch * static_cast<double>(cell.label.size() - 1) + height_of(Type::small)) /
                                   2;
            for (const std::string& line : cell.label) {
                sketch_.words(x, baseline, Type::small, line);
                baseline += label_pitch;
            }
        }
        draw_joints(n, top, h);
        if (node.grid.linked) draw_link(node, xs, top);
        if (node.outlined) {
            sketch_.dashed({{left, frame_top}, {right, frame_top}, {right, frame_bottom}, {left, frame_bottom}},
                           pt::outline, Use::outline, {4, 0.9, 0.9, 0.9}, true);
            sketch_.cover(left, frame_top, right - left, frame_bottom - frame_top);
        } else {
            sketch_.cover(left, top + node.grid.row_top(0), right - left,
                          node.grid.height() - 2 * node.grid.row_top(0));
        }
        draw_title(node, right + mm::title, middle);
    }

    // Inside a part: what joins its elements with one another and with its pins.
    void draw_joints(int n, double top, const LayerHeights& h) {
        const Node& node = scheme_.nodes[n];
        const Grid& grid = node.grid;
        const auto& xs = layout_.columns.x[n];
        struct Touch {
            int joint, column;
            double y;
            bool up, down; // where it goes on from there
        };
        std::vector<Touch> touches;
        for (const Cell& cell : grid.cells) {
            const double y = top + grid.row_top(cell.row), end = y + grid.row_height[cell.row];
            touches.push_back({cell.top, cell.column, y, false, true});
            touches.push_back({cell.bottom, cell.column, end, true, false});
            if (cell.side != none)
                touches.push_back({cell.side, cell.column + 1, cell.side_up ? y : end, !cell.side_up, cell.side_up});
        }
        for (std::size_t i = 0; i < grid.pins.size(); ++i)
            touches.push_back({grid.pins[i].joint, grid.pins[i].column, grid.pins[i].top ? h.band : h.lead_below,
                               grid.pins[i].top, !grid.pins[i].top});
        for (const Bar& bar : grid.bars) {
            const double y = top + grid.bar_y(bar);
            sketch_.line(xs[bar.from], y, xs[bar.to], y, pt::sign);
            for (int c = bar.from; c <= bar.to; ++c) {
                int directions = (c > bar.from) + (c < bar.to);
                for (const Touch& touch : touches)
                    if (touch.joint == bar.joint && touch.column == c) ++directions;
                if (directions > 2) sketch_.dot(xs[c], y);
            }
        }
        for (std::size_t i = 0; i < touches.size(); ++i) { // one vertical a joint and column
            double low = touches[i].y, high = touches[i].y;
            bool first = true;
            for (std::size_t j = 0; j < touches.size(); ++j) {
                if (touches[j].joint != touches[i].joint || touches[j].column != touches[i].column) continue;
                first = first && j >= i;
                low = std::min(low, touches[j].y), high = std::max(high, touches[j].y);
            }
            if (!first) continue;
            for (const Bar& bar : grid.bars)
                if (bar.joint == touches[i].joint)
                    low = std::min(low, top + grid.bar_y(bar)), high = std::max(high, top + grid.bar_y(bar));
            sketch_.line(xs[touches[i].column], low, xs[touches[i].column], high, pt::sign);
        }
    }

    // The dashed link from the coil to the contacts that it moves.
    void draw_link(const Node& node, const std::vector<double>& xs, double top) {
        const Cell* coil = nullptr;
        for (const Cell& cell : node.grid.cells)
            if (cell.sign == Sign::coil && coil == nullptr) coil = &cell;
        const auto middle = [&](const Cell& cell) {
            return top + node.grid.row_top(cell.row) + node.grid.row_height[cell.row] / 2;
        };
        for (const Cell& cell : node.grid.cells) {
            if (cell.sign != Sign::contact && cell.sign != Sign::change_over) continue;
            if (cell.row != coil->row) continue;
            const double blade = xs[cell.column] + (cell.sign == Sign::contact ? -1.4 : 0.9);
            const double from = xs[coil->column], y = middle(*coil);
            double at = from < blade ? from + half_width_of(Sign::coil) : from - half_width_of(Sign::coil);
            // behind what stands between them
            std::vector<const Cell*> between;
            for (const Cell& other : node.grid.cells)
                if (other.row == coil->row && &other != coil && &other != &cell &&
                    (xs[other.column] > std::min(at, blade)) && (xs[other.column] < std::max(at, blade)))
                    between.push_back(&other);
            if (between.empty()) sketch_.dashed({{at, y}, {blade, y}}, pt::link, Use::link, {1.4, 0.9});
            for (std::size_t i = 0; i < between.size(); ++i) {
                const double x = xs[between[i]->column], half = half_width_of(between[i]->sign);
                const double near = from < blade ? x - half : x + half, beyond = from < blade ? x + half : x - half;
                if (i == 0) sketch_.dashed({{at, y}, {near, y}}, pt::link, Use::link, {1.4, 0.9});
                at = beyond;
                if (i + 1 == between.size()) sketch_.dashed({{at, y}, {blade, y}}, pt::link, Use::link, {1.4, 0.9});
            }
        }
    }

    void draw_box(int n) {
        const Node& node = scheme_.nodes[n];
        const LayerHeights& h = layer(n);
        const double middle = (h.band + h.lead_below) / 2, half = band_height(node) / 2;
        const double left = layout_.columns.left[n], right = layout_.columns.right[n];
        sketch_.rect(left, middle - half, right - left, 2 * half, pt::thick);
        sketch_.cover(left, middle - half, right - left, 2 * half);
        bool above = false, below = false;
        for (std::size_t p = 0; p < node.ports.size(); ++p) {
            const Port& port = node.ports[p];
            const double x = x_of(n, port);
            if (port.top)
                sketch_.line(x, h.band, x, middle - half, line_at(n, static_cast<int>(p)), Use::wire,
                             net_at(n, static_cast<int>(p)));
            else
                sketch_.line(x, middle + half, x, h.lead_below, line_at(n, static_cast<int>(p)), Use::wire,
                             net_at(n, static_cast<int>(p)));
            if (port.inside.empty()) continue;
            (port.top ? above : below) = true;
            sketch_.centred(x, port.top ? middle - half + 1 + height_of(Type::small) : middle + half - 1.2, Type::small,
                            port.inside);
        }
        const double shift = (above ? mm::box_line : 0) - (below ? mm::box_line : 0);
        draw_title_in_box(node, (left + right) / 2, middle + shift / 2);
    }
    void draw_title_in_box(const Node& node, double x, double middle) {
        draw_title(node, x - title_width(node) / 2, middle);
    }

    void draw_cavity(int n) {
        const Node& node = scheme_.nodes[n];
        const LayerHeights& h = layer(n);
        const double x = layout_.columns.x[n][0], middle = (h.band + h.lead_below) / 2;
        draw_plug(sketch_, x, middle, true);
        sketch_.cover(x - mm::plug_radius, middle - mm::plug_radius, 2 * mm::plug_radius, mm::plug_radius + 2);
        for (std::size_t p = 0; p < node.ports.size(); ++p) {
            const Port& port = node.ports[p];
            const int net = net_at(n, static_cast<int>(p));
            const double pt = line_at(n, static_cast<int>(p));
            if (port.top)
                sketch_.line(x, h.band, x, middle - mm::plug_radius, pt, Use::wire, net);
            else
                sketch_.line(x, middle + 2, x, h.lead_below, pt, Use::wire, net);
            sketch_.words(x + mm::plug_radius + mm::beside,
                          port.top ? middle - 0.9 : middle + 1.1 + height_of(Type::small), Type::small, port.name);
            draw_probes(port.checks, x - mm::plug_radius - mm::beside, port.top ? middle - 0.1 : middle + 0.1,
                        !port.top);
        }
    }

    void draw_ground_node(int n) {
        const Node& node = scheme_.nodes[n];
        const double x = layout_.columns.x[n][0], y = layer(n).band;
        draw_ground(sketch_, x, y);
        sketch_.cover(x - mm::ground_half, y + 1.2, 2 * mm::ground_half, 2.4);
        draw_title(node, x, y + mm::ground + title_height(node) / 2, true);
    }

    void draw_page(int n) {
        const Node& node = scheme_.nodes[n];
        const LayerHeights& h = layer(n);
        const double x = layout_.columns.x[n][0];
        if (node.kind == NodeKind::to_page) {
            const double base = node.incoming ? h.band + 3 : h.band, tip = node.incoming ? h.band : h.band + 3;
            sketch_.path({{x - 1.7, base}, {x + 1.7, base}, {x, tip}}, 0, true, Fill::black);
            draw_title(node, x, h.band + 3.6 + title_height(node) / 2, true);
        } else {
            sketch_.path({{x - 1.7, h.lead_below - 3}, {x + 1.7, h.lead_below - 3}, {x, h.lead_below}}, 0, true,
                         Fill::black);
            draw_title(node, x, h.lead_below - 3.6 - title_height(node) / 2, true);
        }
    }

    // Points, turns and dummies: the wire goes through.
    void draw_pass(int n) {
        const Node& node = scheme_.nodes[n];
        const LayerHeights& h = layer(n);
        const double x = layout_.columns.x[n][0];
        const auto& at = layout_.layered.at[n];
        if (!has_stub(layout_.layered, n, true)) return;
        const bool above = !at[0].empty(), below = !at[1].empty();
        const double middle = (h.band + h.lead_below) / 2;
        const int net = net_at(n, above ? 0 : 1);
        sketch_.line(x,
                     above        ? h.label_above
                     : node.hangs ? h.end - title_height(node)
                                  : middle,
                     x, below ? h.end : middle, std::min(above ? line_at(n, 0) : 9, below ? line_at(n, 1) : 9),
                     Use::wire, net);
        if (node.kind == NodeKind::point) {
            if (node.part != none && above && below) sketch_.dot(x, middle);
            if (node.ports[0].pin != none) sketch_.picture().pins.push_back(node.ports[0].pin);
            double y = node.hangs ? h.end - title_height(node) - 0.2 : middle - title_height(node) / 2;
            for (const Words& line : node.title) {
                sketch_.words(x - mm::beside - line.width, y + pitch_of(line.type) / 2 + height_of(line.type) / 2,
                              line.type, line.text);
                y += pitch_of(line.type);
            }
            draw_probes(node.ports[0].checks, x - mm::beside, h.band - 0.25, false);
            for (const Port& port : node.ports)
                if (port.label != none) draw_label(node, port, x);
        } else if (const int label = node.ports[0].label; label != none && node.kind == NodeKind::dummy) {
            const WireWords words = wire_words(ruler_, scheme_.edges[label]);
            draw_wire_words(words, x, middle - words.height / 2, label);
        }
    }

    // --- wires between two layers
    // --------------------------------------------------------------------------------------------
    void draw_net(std::size_t channel, std::size_t index) {
        const Net& net = layout_.nets[channel][index];
        const double top = heights_[channel].end, bottom = heights_[channel + 1].label_above;
        const int number = find(net.segments[0]);
        const int track = layout_.tracks[channel].of[index];
        struct Touch {
            double x;
            bool down;
        };
        std::vector<Touch> touches;
        const double y = top + mm::channel + std::max(track, 0) * mm::track;
        double low = 1e9, high = -1e9, least = 9, most = 0;
        for (const int s : net.segments) {
            const double pt = line_of(circuit_, scheme_.edges[layout_.layered.segments[s].edge]);
            least = std::min(least, pt), most = std::max(most, pt);
        }
        const auto vertical = [&](const std::pair<int, int>& end, bool down) {
            const double x = layout_.columns.at(scheme_, end);
            low = std::min(low, x), high = std::max(high, x);
            touches.push_back({x, down});
            const bool alone = layout_.layered.at[end.first][end.second].size() == 1;
            const double pt = alone ? line_at(end.first, end.second) : most;
            if (track == none)
                down ? void() : sketch_.line(x, top, x, bottom, pt, Use::wire, number);
            else
                down ? sketch_.line(x, y, x, bottom, pt, Use::wire, number)
                     : sketch_.line(x, top, x, y, pt, Use::wire, number);
        };
        for (const auto& upper : net.uppers)
            vertical(upper, false);
        for (const auto& lower : net.lowers)
            vertical(lower, true);
        if (track == none) {
            if (net.uppers.empty()) // nothing above: a bar without length
                for (const auto& lower : net.lowers)
                    sketch_.line(layout_.columns.at(scheme_, lower), y, layout_.columns.at(scheme_, lower), bottom,
                                 most, Use::wire, number);
            return;
        }
        sketch_.line(low, y, high, y, net.rail ? pt::rail : net.segments.size() == 1 ? most : least, Use::wire, number);
        for (std::size_t i = 0; i < touches.size(); ++i) {
            int directions = (touches[i].x > low + 1e-6) + (touches[i].x < high - 1e-6);
            bool first = true;
            for (std::size_t j = 0; j < touches.size(); ++j)
                if (touches[j].x == touches[i].x) ++directions, first = first && j >= i;
            if (first && directions > 2) sketch_.dot(touches[i].x, y);
        }
    }

    const Ruler& ruler_;
    const Circuit& circuit_;
    const Layout& layout_;
    const Scheme& scheme_;
    Sketch sketch_;
    const Measure& measure_;
    std::vector<LayerHeights> heights_;
    std::vector<int> one_;
};

} // namespace

Picture paint(const Ruler& ruler, const Layout& layout) {
    Picture picture;
    picture.width = layout.width, picture.height = layout.height;
    Painter(ruler, layout, picture).paint();
    return picture;
}

} // namespace loomsheet::drawing
