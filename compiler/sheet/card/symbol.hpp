// The signs of the sheet. Square = where to go, circle = where to touch or pass, diamond = fail, pennant = a verdict.
#pragma once
#include "page/pen.hpp"
#include "sheet/card/dial.hpp"

namespace loomsheet {

inline constexpr double tick_size = 7; // 6 to 8 mm: gloves and a greasy pencil (common practice)
inline constexpr double mark_size = 8;
inline constexpr double tab_size = 11.5;

void tick_box(Pen& pen, double x, double y, std::string name);
void pass_mark(Pen& pen, double x, double y);
void fail_mark(Pen& pen, double x, double y);
// A square tab with a white number, `size` mm high, its right or left edge at x; wider than high for long numbers.
double tab_width(const Pen& pen, double size, const std::string& number);
void tab(Pen& pen, double x, double y, double size, const std::string& number);
// The flag of a verdict: `height` high, 1.25 as long and longer for two letters, point to the right.
double pennant_width(const Pen& pen, double height, const std::string& letter);
void pennant(Pen& pen, double x, double y, double height, const std::string& letter);
void arrow(Pen& pen, double x1, double x2, double y);
void warning_sign(Pen& pen, double x, double y, double size);
void pill(Pen& pen, double x, double y, double w, double h, Style style, const std::string& words, bool solid);
// The knob with what the dial says, starting at x, on the middle line y; returns where the next text may start.
double dial_sign(Pen& pen, double x, double y, const Dial& dial);
// A frame to write in: caption at the upper left, unit at the lower right.
void field(Pen& pen, double x, double y, double w, double h, const std::string& caption, const std::string& unit);

} // namespace loomsheet
