#include "pdf/content.hpp"
#include "page/code.hpp"
#include "page/face_utf8.hpp"
#include "pdf/trouble.hpp"
#include "source/text.hpp"
#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <iterator>

namespace loomsheet {

using page::Ink;

namespace {

// Whole hundredths of a point.
long hundredths(double points) { return std::lround(points * 100); }

long from_mm(double mm) {
    constexpr double most = 5080; // 200 inches (ISO 32000-1, annex C)
    if (!(std::abs(mm) <= most)) throw PdfTrouble(fmt::format("a mark lies at {} mm, which is on no page.", mm));
    return hundredths(mm / mm_per_pt);
}

long line_width(double pt) {
    if (!(pt >= 0 && pt <= 1000)) throw PdfTrouble(fmt::format("a line is {} pt wide.", pt));
    return hundredths(pt);
}

long type_size(double pt) {
    if (!(pt > 0 && pt <= 1000)) throw PdfTrouble(fmt::format("a text is {} pt high.", pt));
    return hundredths(pt);
}

// Where the control points of a quarter circle lie, over its radius: 4/3 (sqrt 2 - 1).
constexpr double quarter = 0.5522847498;

} // namespace

void Content::number(long hundredths) {
    if (hundredths < 0) out_ += '-';
    const long size = std::abs(hundredths), whole = size / 100, part = size % 100;
    std::array<char, 24> figures;
    if (whole > 0 || part == 0) out_.append(figures.data(), std::to_chars(figures.begin(), figures.end(), whole).ptr);
    if (part > 0) {
        out_ += '.';
        out_ += static_cast<char>('0' + part / 10);
        if (part % 10 > 0) out_ += static_cast<char>('0' + part % 10);
    }
    out_ += ' ';
}

void Content::point(double x, double y) {
    number(from_mm(x));
    number(from_mm(height_ - y));
}

void Content::put(std::string_view op) {
    out_ += op;
    out_ += '\n';
}

void Content::line_to(double x, double y) {
    point(x, y);
    put("l");
}

void Content::curve(double x1, double y1, double x2, double y2, double x3, double y3) {
    point(x1, y1);
    point(x2, y2);
    point(x3, y3);
    put("c");
}

void Content::set_ink(Ink ink) {
    if (ink == Ink::none || ink == ink_) return;
    put(ink == Ink::white ? "1 g" : "0 g");
    ink_ = ink;
}

void Content::end_text() {
    if (in_text_) put("ET");
    in_text_ = false;
}

void Content::end_path() {
    if (in_path_) put(path_style_.width == 0 ? "f" : path_style_.fill == Ink::none ? "S" : "B");
    in_path_ = false;
}

bool Content::begin_path(double pt, Ink fill, const std::vector<double>& dash, bool joins) {
    Style style{line_width(pt), fill, {}};
    if (style.width == 0 && fill == Ink::none) return false;
    std::transform(dash.begin(), dash.end(), std::back_inserter(style.dash), from_mm);
    if (!dash.empty() &&
        (*std::min_element(style.dash.begin(), style.dash.end()) < 0 || *std::max_element(style.dash.begin(), style.dash.end()) == 0)) {
        throw PdfTrouble("a dashed line has dashes of no length.");
    }
    if (in_path_ && joins && style == path_style_) return true;
    end_text();
    end_path();
    set_ink(fill);
    if (style.width > 0 && style.width != width_) {
        number(style.width);
        put("w");
        width_ = style.width;
    }
    if (style.width > 0 && style.dash != dash_) {
        out_ += '[';
        for (const long length : style.dash)
            number(length);
        put("] 0 d");
        dash_ = style.dash;
    }
    in_path_ = true;
    path_style_ = std::move(style);
    return true;
}

void Content::draw(const page::Text& mark) {
    if (first_bad_utf8(mark.utf8) != std::string_view::npos) {
        throw PdfTrouble(fmt::format("the text at {:.2f}, {:.2f} mm is no valid UTF-8.", mark.x, mark.y));
    }
    if (mark.ink == Ink::none || mark.utf8.empty()) return;
    end_path();
    set_ink(mark.ink);
    const long x = from_mm(mark.x), y = from_mm(height_ - mark.y), size = type_size(mark.pt);
    if (!in_text_) {
        put("BT");
        in_text_ = true;
        text_x_ = text_y_ = 0;
    }
    const int font = static_cast<int>(mark.face);
    if (font != font_ || size != size_) {
        fmt::format_to(std::back_inserter(out_), "/F{} ", font);
        number(size);
        put("Tf");
        font_ = font;
        size_ = size;
    }
    number(x - text_x_);
    number(y - text_y_);
    put("Td");
    text_x_ = x;
    text_y_ = y;
    FontUse& use = fonts_.at(static_cast<std::size_t>(font));
    out_ += '<';
    for (std::string_view rest = mark.utf8; !rest.empty();) {
        const char32_t character = take_character(rest);
        if (is_unseen(character)) continue;
        const std::uint16_t code = use.code(character);
        for (int shift = 12; shift >= 0; shift -= 4)
            out_ += "0123456789ABCDEF"[(code >> shift) & 0xF];
    }
    put("> Tj");
}

void Content::draw(const page::Line& mark) {
    if (!begin_path(mark.pt, Ink::none, mark.dash, true)) return;
    point(mark.x1, mark.y1);
    put("m");
    line_to(mark.x2, mark.y2);
}

void Content::draw(const page::Rect& mark) {
    // Rectangles all run the same way round, so that fills in one path add up.
    if (!begin_path(mark.pt, mark.fill, {}, mark.fill == Ink::none || mark.pt <= 0)) return;
    const double left = std::min(mark.x, mark.x + mark.w), right = std::max(mark.x, mark.x + mark.w);
    const double top = std::min(mark.y, mark.y + mark.h), bottom = std::max(mark.y, mark.y + mark.h);
    if (mark.round <= 0) {
        const long x = from_mm(left), y = from_mm(height_ - bottom);
        number(x);
        number(y);
        number(from_mm(right) - x);
        number(from_mm(height_ - top) - y);
        put("re");
        return;
    }
    const double r = std::min({mark.round, (right - left) / 2, (bottom - top) / 2});
    const double k = r * (1 - quarter);
    const bool wide = right - left > 2 * r, high = bottom - top > 2 * r; // else there is no straight part
    point(left + r, bottom);
    put("m");
    if (wide) line_to(right - r, bottom);
    curve(right - k, bottom, right, bottom - k, right, bottom - r);
    if (high) line_to(right, top + r);
    curve(right, top + k, right - k, top, right - r, top);
    if (wide) line_to(left + r, top);
    curve(left + k, top, left, top + k, left, top + r);
    if (high) line_to(left, bottom - r);
    curve(left, bottom - k, left + k, bottom, left + r, bottom);
    put("h");
}

// Drawn around a shifted origin: equal circles are equal text, which compresses well.
void Content::draw(const page::Circle& mark) {
    if (!begin_path(mark.pt, mark.fill, {}, false)) return;
    out_ += "q 1 0 0 1 ";
    point(mark.x, mark.y);
    put("cm");
    const long r = from_mm(mark.r), k = std::lround(quarter * static_cast<double>(r));
    const auto arc = [&](std::initializer_list<long> numbers) {
        for (const long one : numbers)
            number(one);
        put("c");
    };
    number(r);
    put("0 m");
    arc({r, k, k, r, 0, r});
    arc({-k, r, -r, k, -r, 0});
    arc({-r, -k, -k, -r, 0, -r});
    arc({k, -r, r, -k, r, 0});
    out_ += "h ";
    end_path();
    put("Q");
}

void Content::draw(const page::Path& mark) {
    if (mark.points.size() < 2 || !begin_path(mark.pt, mark.fill, mark.dash, mark.fill == Ink::none)) return;
    const char* step = "m";
    for (const page::Point& at : mark.points) {
        point(at.x, at.y);
        put(step);
        step = "l";
    }
    if (mark.closed) put("h");
}

// In modules from the top left corner, so that they meet exactly.
void Content::draw(const page::Code& mark) {
    if (mark.side == 0 || !begin_path(0, Ink::black, {}, false)) return;
    const double module = static_cast<double>(from_mm(mark.size)) / 100 / static_cast<double>(mark.side);
    fmt::format_to(std::back_inserter(out_), "q {:.5f} 0 0 {:.5f} ", module, -module);
    point(mark.x, mark.y);
    put("cm");
    for (const BlackModules& run : black_modules(mark)) {
        for (const std::size_t count : {run.column, run.row, run.columns, run.rows})
            number(100 * static_cast<long>(count));
        put("re");
    }
    end_path();
    put("Q");
}

void Content::add(const page::Mark& mark) {
    std::visit([this](const auto& one) { draw(one); }, mark);
}

std::string Content::take() {
    end_text();
    end_path();
    return std::move(out_);
}

} // namespace loomsheet
