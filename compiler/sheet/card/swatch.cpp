#include "sheet/card/swatch.hpp"
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

void across(Pen& pen, const Band& band, double pitch, const std::vector<double>& dash = {}) {
    for (double x = band.x + pitch / 2; x < band.right(); x += pitch)
        pen.line(x, band.y, x, band.bottom(), pt, dash);
}

void along(Pen& pen, const Band& band, double pitch, const std::vector<double>& dash = {}) {
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

void waves(Pen& pen, const Band& band) {
    constexpr double length = 2.4, height = 1.2, pitch = 1.3;
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

void rings(Pen& pen, const Band& band) {
    constexpr double r = 0.65;
    staggered(band, 2.4, r, [&](double x, double y) { pen.circle(x, y, r, pt); });
}

void plus_signs(Pen& pen, const Band& band) {
    constexpr double half = 0.6;
    staggered(band, 2.6, half, [&](double x, double y) {
        pen.line(x - half, y, x + half, y, pt);
        pen.line(x, y - half, x, y + half, pt);
    });
}

void black(Pen& pen, const Band& band) { pen.rect(band.x, band.y, band.w, band.h, 0, page::Ink::black); }
void brown(Pen& pen, const Band& band) { diagonals(pen, band, 1.7, true), diagonals(pen, band, 1.7, false); }
void red(Pen& pen, const Band& band) { across(pen, band, 1.5); }
void orange(Pen& pen, const Band& band) {
    across(pen, band, 3), dots(pen, {band.x + 1.5, band.y, band.w - 1.5, band.h}, 3);
}
void yellow(Pen& pen, const Band& band) { dots(pen, band, 1.7); }
void green(Pen& pen, const Band& band) { diagonals(pen, band, 1.5, false); }
void violet(Pen& pen, const Band& band) { diagonals(pen, band, 1.5, true); }
void grey(Pen& pen, const Band& band) { across(pen, band, 1.5), along(pen, band, 1.35); }
void white(Pen&, const Band&) {}
void pink(Pen& pen, const Band& band) { across(pen, band, 1.5, {0.9, 0.9}); }
void turquoise(Pen& pen, const Band& band) { along(pen, band, 1.35, {1.6, 1.2}); }

struct PatternRow {
    std::string_view code;
    void (*draw)(Pen&, const Band&);
};
constexpr PatternRow patterns[] = {
    {"BK", black},  {"BN", brown}, {"RD", red},   {"OG", orange}, {"YE", yellow}, {"GN", green},     {"BU", waves},
    {"VT", violet}, {"GY", grey},  {"WH", white}, {"PK", pink},   {"GD", rings},  {"TQ", turquoise}, {"SR", plus_signs},
};

// A shop's own colour is written, not drawn.
void fill(Pen& pen, const Band& band, const std::string& code) {
    for (const PatternRow& row : patterns)
        if (row.code == code) return row.draw(pen, band);
    pen.centre(band.x + band.w / 2, band.y + band.h / 2 + pen.half_cap(type::caption_bold), type::caption_bold, code);
}

} // namespace

void swatch(Pen& pen, double x, double y, const Colour& colour) {
    const bool joined = colour.base == "GNYE";
    const std::string base = joined ? "GN" : colour.base, stripe = joined ? "YE" : colour.stripe;
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
