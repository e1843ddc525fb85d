#include "sheet/card/swatch.hpp"
#include "grammar/colours.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

struct Band {
    double x = 0, y = 0, w = 0, h = 0;
    double right() const { return x + w; }
    double bottom() const { return y + h; }
};

constexpr double pt = stroke::rule;

void across(Pen& pen, const Band& band, double pitch, const std::vector<double>& dash) {
    for (double x = band.x + pitch / 2; x < band.right(); x += pitch)
        pen.line(x, band.y, x, band.bottom(), pt, dash);
}

void along(Pen& pen, const Band& band, double pitch, const std::vector<double>& dash) {
    for (double y = band.y + pitch / 2; y < band.bottom(); y += pitch)
        pen.line(band.x, y, band.right(), y, pt, dash);
}

// Lines at 45 degrees, `pitch` apart, cut at the edges of the band.
void diagonals(Pen& pen, const Band& band, double pitch, bool rising) {
    const double step = pitch * std::sqrt(2.0);
    for (double start = band.x - band.h + step / 2; start < band.right(); start += step) {
        const double from = std::max(start, band.x), to = std::min(start + band.h, band.right());
        if (from >= to) continue;
        const auto height = [&](double x) { return rising ? band.bottom() - (x - start) : band.y + (x - start); };
        pen.line(from, height(from), to, height(to), pt);
    }
}

// Places `pitch` apart, every second row half a pitch on, whole marks of radius `r` only.
template <class Mark>
void staggered(const Band& band, double pitch, double r, Mark mark) {
    const int rows = std::max(1, static_cast<int>(band.h / pitch));
    const double first = band.y + (band.h - (rows - 1) * pitch) / 2;
    for (int row = 0; row < rows; ++row)
        for (double x = band.x + pitch / 2 + (row % 2 == 1 ? pitch / 2 : 0); x + r < band.right(); x += pitch)
            mark(x, first + row * pitch);
}

void dots(Pen& pen, const Band& band, double pitch) {
    constexpr double r = 0.36;
    staggered(band, pitch, r, [&](double x, double y) { pen.circle(x, y, r, 0, page::Ink::black); });
}

void waves(Pen& pen, const Band& band, double pitch) {
    constexpr double length = 2.4, height = 1.2;
    const int rows = std::max(1, static_cast<int>((band.h - height) / pitch) + 1);
    const double first = band.y + (band.h - (rows - 1) * pitch) / 2;
    for (int row = 0; row < rows; ++row) {
        std::vector<page::Point> points;
        bool up = true;
        for (double x = band.x; x <= band.right(); x += length / 2, up = !up)
            points.push_back({x, first + row * pitch + (up ? -height / 2 : height / 2)});
        pen.path(std::move(points), pt, false);
    }
}

void rings(Pen& pen, const Band& band, double pitch) {
    constexpr double r = 0.65;
    staggered(band, pitch, r, [&](double x, double y) { pen.circle(x, y, r, pt); });
}

void crosses(Pen& pen, const Band& band, double pitch) {
    constexpr double half = 0.6;
    staggered(band, pitch, half, [&](double x, double y) {
        pen.line(x - half, y, x + half, y, pt);
        pen.line(x, y - half, x, y + half, pt);
    });
}

void draw(Pen& pen, Band band, const Hatch& hatch) {
    const std::vector<double> dash = hatch.dash > 0 ? std::vector{hatch.dash, hatch.gap} : std::vector<double>();
    band.x += hatch.from, band.w -= hatch.from;
    switch (hatch.kind) {
    case Hatching::blank: return;
    case Hatching::solid: return pen.rect(band.x, band.y, band.w, band.h, 0, page::Ink::black);
    case Hatching::across: return across(pen, band, hatch.pitch, dash);
    case Hatching::along: return along(pen, band, hatch.pitch, dash);
    case Hatching::rising: return diagonals(pen, band, hatch.pitch, true);
    case Hatching::falling: return diagonals(pen, band, hatch.pitch, false);
    case Hatching::dots: return dots(pen, band, hatch.pitch);
    case Hatching::waves: return waves(pen, band, hatch.pitch);
    case Hatching::rings: return rings(pen, band, hatch.pitch);
    case Hatching::crosses: return crosses(pen, band, hatch.pitch);
    }
}

// A shop's own colour is written, not drawn.
void fill(Pen& pen, const Band& band, std::string_view code) {
    const ColourRow* row = find_colour_code(code);
    if (!row)
        return pen.centre(band.x + band.w / 2, band.y + band.h / 2 + pen.half_cap(type::caption_bold), type::caption_bold,
                          std::string(code));
    for (const Hatch& hatch : row->hatches)
        draw(pen, band, hatch);
}

} // namespace

void swatch(Pen& pen, double x, double y, const Colour& colour) {
    const ColourRow* row = find_colour_code(colour.base);
    const bool joined = row && !row->base.empty();
    const std::string_view base = joined ? row->base : colour.base, stripe = joined ? row->stripe : colour.stripe;
    if (stripe.empty()) {
        fill(pen, {x, y, swatch_width, swatch_height}, base);
    } else {
        constexpr double band = 0.38 * swatch_height, side = (swatch_height - band) / 2;
        fill(pen, {x, y, swatch_width, side}, base);
        fill(pen, {x, y + side + band, swatch_width, side}, base);
        fill(pen, {x, y + side, swatch_width, band}, stripe);
        for (const double edge : {y + side, y + side + band})
            pen.line(x, edge, x + swatch_width, edge, stroke::box);
    }
    pen.rect(x, y, swatch_width, swatch_height, stroke::rule);
    for (const double strand : {-1.3, 0.0, 1.3}) {
        const double height = y + swatch_height / 2 + strand;
        pen.line(x + swatch_width, height, x + swatch_width + strand_length, height, stroke::drawing);
    }
}

} // namespace loomsheet
