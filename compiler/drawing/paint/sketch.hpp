// Puts strokes, circles and words into a picture.
#pragma once
#include "drawing/scheme/picture.hpp"

namespace loomsheet::drawing {

class Sketch {
public:
    Sketch(Picture& picture, const Measure& measure) : picture_(picture), measure_(measure) {}
    void line(double x1, double y1, double x2, double y2, double pt, Use use = Use::symbol, int net = none);
    void path(std::vector<Spot> through, double pt, bool closed = false, Fill fill = Fill::none);
    void dashed(std::vector<Spot> through, double pt, Use use, std::vector<double> dash, bool closed = false);
    void rect(double x, double y, double w, double h, double pt, Fill fill = Fill::none);
    void ring(double x, double y, double r, double pt, Fill fill = Fill::none);
    void dot(double x, double y) { ring(x, y, 0.75, 0, Fill::black); }
    // A part of a circle from one angle to another, degrees, 0 = right, 90 = up.
    void arc(double x, double y, double r, double from, double to, double pt);
    void pill(double x, double y, double w, double h, double pt);
    void words(double x, double baseline, Type type, const std::string& text);
    void centred(double x, double baseline, Type type, const std::string& text, bool white = false);
    void cover(double x, double y, double w, double h);
    Picture& picture() { return picture_; }
    const Measure& measure() const { return measure_; }

private:
    Picture& picture_;
    const Measure& measure_;
};

} // namespace loomsheet::drawing
