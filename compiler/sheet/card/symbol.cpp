#include "sheet/card/symbol.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr double tab_margin = 1.2; // black beside a long number

Style tab_style(double size, const std::string& number) {
    const bool wide = number.size() > 1;
    if (size >= tab_size) return wide ? type::number_wide : type::number;
    return wide ? type::destination_wide : type::destination;
}

} // namespace

void tick_box(Pen& pen, double x, double y, std::string name) {
    pen.rect(x, y, tick_size, tick_size, stroke::box);
    pen.region(page::Role::tick, x, y, tick_size, tick_size, std::move(name));
}

void pass_mark(Pen& pen, double x, double y) { pen.circle(x, y, mark_size / 2, stroke::mark); }

void fail_mark(Pen& pen, double x, double y) {
    constexpr double half = mark_size / 2;
    pen.path({{x, y - half}, {x + half, y}, {x, y + half}, {x - half, y}}, stroke::mark, true);
}

double tab_width(const Pen& pen, double size, const std::string& number) {
    return std::max(size, pen.width(tab_style(size, number), number) + 2 * tab_margin);
}

void tab(Pen& pen, double x, double y, double size, const std::string& number) {
    const Style style = tab_style(size, number);
    const double width = tab_width(pen, size, number);
    pen.rect(x, y, width, size, 0, page::Ink::black);
    pen.centre(x + width / 2, y + size / 2 + pen.half_cap(style), style, number, page::Ink::white);
}

double pennant_width(const Pen& pen, double height, const std::string& letter) {
    return std::max(1.25 * height, pen.width(tab_style(height, letter), letter) + 2 * tab_margin + 0.42 * height);
}

void pennant(Pen& pen, double x, double y, double height, const std::string& letter) {
    const Style style = tab_style(height, letter);
    const double width = pennant_width(pen, height, letter), shoulder = x + width - 0.42 * height;
    pen.path({{x, y}, {shoulder, y}, {x + width, y + height / 2}, {shoulder, y + height}, {x, y + height}}, 0, true, page::Ink::black);
    pen.centre((x + shoulder) / 2 + 0.3, y + height / 2 + pen.half_cap(style), style, letter, page::Ink::white);
}

void arrow(Pen& pen, double x1, double x2, double y) {
    constexpr double head = 2.6, half = 1.2;
    pen.line(x1, y, x2 - head + 0.2, y, stroke::box);
    pen.path({{x2, y}, {x2 - head, y - half}, {x2 - head, y + half}}, 0, true, page::Ink::black);
}

void warning_sign(Pen& pen, double x, double y, double size) {
    const double height = size * 0.88, middle = x + size / 2;
    pen.path({{middle, y}, {x + size, y + height}, {x, y + height}}, stroke::mark, true);
    pen.rect(middle - 0.06 * size, y + 0.32 * height, 0.12 * size, 0.33 * height, 0, page::Ink::black);
    pen.circle(middle, y + 0.81 * height, 0.07 * size, 0, page::Ink::black);
}

void pill(Pen& pen, double x, double y, double w, double h, Style style, const std::string& words, bool solid) {
    pen.rect(x, y, w, h, stroke::heavy, solid ? page::Ink::black : page::Ink::none);
    pen.centre(x + w / 2, y + h / 2 + pen.half_cap(style), style, words, solid ? page::Ink::white : page::Ink::black);
}

double dial_sign(Pen& pen, double x, double y, const Dial& dial) {
    if (!dial.knob) return x;
    constexpr double radius = 3.6;
    const double middle = x + radius;
    pen.circle(middle, y, radius, stroke::mark);
    pen.path({{middle, y - 2.7}, {middle + 1, y + 1}, {middle, y + 1.8}, {middle - 1, y + 1}}, 0, true, page::Ink::black);
    double next = x + 2 * radius + 2.2;
    pen.text(next, y + pen.half_cap(type::unit), type::unit, dial.function);
    next += pen.width(type::unit, dial.function) + 0.9;
    if (dial.symbol == Symbol::direct) {
        pen.line(next, y - 0.7, next + 4.4, y - 0.7, stroke::box);
        for (int i = 0; i < 3; ++i)
            pen.line(next + 1.65 * i, y + 0.7, next + 1.65 * i + 1.1, y + 0.7, stroke::box);
        next += 5;
    }
    if (dial.symbol == Symbol::alternating) {
        pen.path({{next, y + 0.3},
                  {next + 0.6, y - 0.6},
                  {next + 1.3, y - 0.7},
                  {next + 3.1, y + 0.7},
                  {next + 3.8, y + 0.6},
                  {next + 4.4, y - 0.3}},
                 stroke::box, false);
        next += 5;
    }
    return next + 1.6;
}

void field(Pen& pen, double x, double y, double w, double h, const std::string& caption, const std::string& unit) {
    constexpr double margin = 1.5;
    pen.rect(x, y, w, h, stroke::heavy);
    if (!caption.empty()) pen.lines(x + margin, y + 3.6, w - 2 * margin, type::caption, caption);
    if (!unit.empty()) pen.right(x + w - margin - 0.5, y + h - 2, type::unit, unit);
}

} // namespace loomsheet
