// Draws into a box. Every text goes through here, so that every character is checked against the faces (LS801) and
// every text that must fit one line against its width (LS802). `at` is where findings point: set it before drawing.
#pragma once
#include "page/axes.hpp"
#include "page/box.hpp"
#include "page/face.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

class Pen {
public:
    Pen(const Faces& faces, const Axes& axes, const TypeSizes& sizes, Findings& findings, Box& box, Span at)
        : axis(axes), faces_(faces), sizes_(sizes), findings_(findings), box_(box), at_(at) {
        box_.at = at;
    }
    const Axes& axis;
    void point_at(Span at) { at_ = at; }

    // --- text: baselines; numbers and their units stay together -----------------------------------------------------
    double leading(const Style& style) const { return sizes_.leading(style); }
    double half_cap(const Style& style) const { return sizes_.half_cap(style); }
    double width(Style style, const std::string& words) const;
    std::vector<std::string> wrap(Style style, double width, const std::string& words) const;
    void text(double x, double baseline, Style style, const std::string& words, page::Ink ink = page::Ink::black);
    void right(double x, double baseline, Style style, const std::string& words);
    void centre(double x, double baseline, Style style, const std::string& words, page::Ink ink = page::Ink::black);
    // One line in `room` mm, else LS802.
    void fit(double x, double baseline, double room, Style style, const std::string& words);
    // Wrapped; returns the number of lines.
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
    // LS802: a text, or a row, that no layout can hold.
    void does_not_fit(const std::string& says, const std::string& help);

private:
    const Faces& faces_;
    const TypeSizes& sizes_;
    Findings& findings_;
    Box& box_;
    Span at_;
};

} // namespace loomsheet
