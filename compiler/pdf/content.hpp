// What is drawn on one page, as PDF operators (ISO 32000-1, annex A). Coordinates are hundredths of a point, y upwards;
// a state that is already set is not set again, and equal strokes that follow each other are one path.
#pragma once
#include "page/page.hpp"
#include "pdf/font.hpp"
#include <array>
#include <string>
#include <vector>

namespace loomsheet {

using FontUses = std::array<FontUse, page::face_count>; // in the order of page::Face

class Content {
public:
    Content(double page_height, FontUses& fonts) : height_(page_height), fonts_(fonts) {}
    // Throws PdfTrouble for a number that is not finite, bad UTF-8, a missing character, a dash of no length. A Link
    // draws nothing.
    void add(const page::Mark& mark);
    // All operators; nothing can be added afterwards.
    std::string take();

private:
    struct Style {
        long width = 0; // 0 = no stroke
        page::Ink fill = page::Ink::none;
        std::vector<long> dash;
        friend bool operator==(const Style&, const Style&) = default;
    };
    double height_;
    FontUses& fonts_;
    std::string out_;
    // as set in the PDF so far
    page::Ink ink_ = page::Ink::black;
    long width_ = 100;
    std::vector<long> dash_;
    int font_ = -1;
    long size_ = 0;
    // what is open
    bool in_text_ = false;
    long text_x_ = 0, text_y_ = 0;
    bool in_path_ = false;
    Style path_style_;

    void draw(const page::Text& mark);
    void draw(const page::Line& mark);
    void draw(const page::Rect& mark);
    void draw(const page::Circle& mark);
    void draw(const page::Path& mark);
    void draw(const page::Link&) {}
    void draw(const page::Code& mark);

    void number(long hundredths);
    void point(double x, double y); // mm, y downwards
    void put(std::string_view op);
    void line_to(double x, double y);
    void curve(double x1, double y1, double x2, double y2, double x3, double y3);
    void set_ink(page::Ink ink);
    // False when there is nothing to draw. `joins`: may be one path with equal marks before it.
    bool begin_path(double pt, page::Ink fill, const std::vector<double>& dash, bool joins);
    void end_path();
    void end_text();
};

} // namespace loomsheet
