#include "drawing/paint/sketch.hpp"
#include <cmath>
#include <numbers>
#include <utility>

namespace loomsheet::drawing {

void Sketch::line(double x1, double y1, double x2, double y2, double pt, Use use, int net) {
    if (std::abs(x1 - x2) < 1e-9 && std::abs(y1 - y2) < 1e-9) return;
    Stroke stroke;
    stroke.through = {{x1, y1}, {x2, y2}};
    stroke.pt = pt, stroke.use = use, stroke.net = net;
    picture_.strokes.push_back(std::move(stroke));
}

void Sketch::path(std::vector<Spot> through, double pt, bool closed, Fill fill) {
    Stroke stroke;
    stroke.through = std::move(through);
    stroke.pt = pt, stroke.closed = closed, stroke.fill = fill;
    picture_.strokes.push_back(std::move(stroke));
}

void Sketch::dashed(std::vector<Spot> through, double pt, Use use, std::vector<double> dash, bool closed) {
    Stroke stroke;
    stroke.through = std::move(through);
    stroke.pt = pt, stroke.use = use, stroke.closed = closed;
    stroke.dash = std::move(dash);
    picture_.strokes.push_back(std::move(stroke));
}

void Sketch::rect(double x, double y, double w, double h, double pt, Fill fill) {
    path({{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, pt, true, fill);
}

void Sketch::ring(double x, double y, double r, double pt, Fill fill) { picture_.rings.push_back({x, y, r, pt, fill}); }

void Sketch::arc(double x, double y, double r, double from, double to, double pt) {
    constexpr int pieces = 12;
    std::vector<Spot> through;
    for (int i = 0; i <= pieces; ++i) {
        const double angle = (from + (to - from) * i / pieces) * std::numbers::pi / 180;
        through.push_back({x + r * std::cos(angle), y - r * std::sin(angle)});
    }
    path(std::move(through), pt);
}

void Sketch::pill(double x, double y, double w, double h, double pt) { picture_.pills.push_back({x, y, w, h, pt}); }

void Sketch::words(double x, double baseline, Type type, const std::string& text) {
    if (!text.empty()) picture_.words.push_back({x, baseline, measure_.width(type, text), type, text, false});
}

void Sketch::centred(double x, double baseline, Type type, const std::string& text, bool white) {
    if (text.empty()) return;
    words(x - measure_.width(type, text) / 2, baseline, type, text);
    picture_.words.back().white = white;
}

void Sketch::cover(double x, double y, double w, double h) { picture_.covers.push_back({x, y, w, h}); }

} // namespace loomsheet::drawing
