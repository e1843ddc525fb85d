#include "page/pen.hpp"
#include <fmt/format.h>

namespace loomsheet {

double Pen::width(Style style, const std::string& words) const {
    return faces_.runs_width(style.face, sizes_.pt(style), hold_units(words));
}

std::vector<std::string> Pen::wrap(Style style, double room, const std::string& words) const {
    return faces_.wrap(style.face, sizes_.pt(style), room, hold_units(words));
}

void Pen::text(double x, double baseline, Style style, const std::string& words, page::Ink ink) {
    for (const char32_t missing : faces_.missing(words))
        findings_.add(
            finding::character_without_typeface, at_,
            fmt::format("the character U+{:04X} is in none of the typefaces, it cannot be printed", static_cast<std::uint32_t>(missing)),
            "write it in letters; for those of East Asia install the package fonts-droid-fallback");
    for (page::Text& run : faces_.runs(x, baseline, style.face, sizes_.pt(style), hold_units(words), ink))
        box_.marks.emplace_back(std::move(run));
}

void Pen::right(double x, double baseline, Style style, const std::string& words) { text(x - width(style, words), baseline, style, words); }

void Pen::centre(double x, double baseline, Style style, const std::string& words, page::Ink ink) {
    text(x - width(style, words) / 2, baseline, style, words, ink);
}

void Pen::fit(double x, double baseline, double room, Style style, const std::string& words) {
    const double needs = width(style, words);
    if (needs > room)
        does_not_fit(fmt::format("\"{}\" is {:.0f} mm long in print, its place on the sheet is {:.0f} mm", words, needs, room),
                     "shorten it");
    text(x, baseline, style, words);
}

int Pen::lines(double x, double baseline, double room, Style style, const std::string& words) {
    int count = 0;
    for (const std::string& one : wrap(style, room, words))
        text(x, baseline + leading(style) * count++, style, one);
    return count;
}

void Pen::line(double x1, double y1, double x2, double y2, double pt, std::vector<double> dash) {
    box_.marks.emplace_back(page::Line{x1, y1, x2, y2, pt, std::move(dash)});
}

void Pen::rect(double x, double y, double w, double h, double pt, page::Ink fill, double round) {
    box_.marks.emplace_back(page::Rect{x, y, w, h, pt, fill, round});
}

void Pen::circle(double x, double y, double r, double pt, page::Ink fill) { box_.marks.emplace_back(page::Circle{x, y, r, pt, fill}); }

void Pen::path(std::vector<page::Point> points, double pt, bool closed, page::Ink fill) {
    box_.marks.emplace_back(page::Path{std::move(points), pt, closed, fill, {}});
}

void Pen::link(double x, double y, double w, double h, std::size_t page) { box_.marks.emplace_back(page::Link{x, y, w, h, page}); }

void Pen::later(std::string anchor, std::function<void(Pen&, std::size_t page)> draw) {
    box_.later.push_back({std::move(anchor), std::move(draw)});
}

void Pen::region(page::Role role, double x, double y, double w, double h, std::string name) {
    box_.regions.push_back({role, x, y, w, h, std::move(name)});
}

void Pen::does_not_fit(const std::string& says, const std::string& help) { findings_.add(finding::too_wide_for_place, at_, says, help); }

} // namespace loomsheet
