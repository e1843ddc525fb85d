// Draws into a box. Every text goes through here, so that every character is held against the faces (LS801) and every
// text that has one line only against its width (LS802). Places are findings' places: set `at` before drawing.
#pragma once
#include "page/axes.hpp"
#include "page/face.hpp"
#include "page/box.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

class Pen {
public:
    Pen(const Faces& faces, Findings& findings, Box& box, Span at)
        : faces_(faces), findings_(findings), box_(box), at_(at) {
        box_.at = at;
    }
    void point_at(Span at) { at_ = at; }

    // --- text: baselines; the pen's words hold numbers and units together --------------------------------------------
    double width(Style style, const std::string& words) const;
    std::vector<std::string> wrap(Style style, double width, const std::string& words) const;
    void text(double x, double baseline, Style style, const std::string& words, page::Ink ink = page::Ink::black);
    void right(double x, double baseline, Style style, const std::string& words);
    void centre(double x, double baseline, Style style, const std::string& words, page::Ink ink = page::Ink::black);
    // One line in `room` mm, else LS802.
    void fit(double x, double baseline, double room, Style style, const std::string& words);
    // Wrapped; gives the number of lines.
    int lines(double x, double baseline, double room, Style style, const std::string& words);

    // --- lines and shapes --------------------------------------------------------------------------------------------
    void line(double x1, double y1, double x2, double y2, double pt, std::vector<double> dash = {});
    void rect(double x, double y, double w, double h, double pt, page::Ink fill = page::Ink::none, double round = 0);
    void circle(double x, double y, double r, double pt, page::Ink fill = page::Ink::none);
    void path(std::vector<page::Point> points, double pt, bool closed, page::Ink fill = page::Ink::none);
    void link(double x, double y, double w, double h, std::size_t page);
    // Drawn when the page of `anchor` is known.
    void later(std::string anchor, std::function<void(Pen&, std::size_t page)> draw);
    void region(page::Role role, double x, double y, double w, double h, std::string name);

    Box& box() { return box_; }
    // A text, or a row, that no layout can hold.
    void does_not_fit(const std::string& says, const std::string& help);

private:
    const Faces& faces_;
    Findings& findings_;
    Box& box_;
    Span at_;
};

} // namespace loomsheet
