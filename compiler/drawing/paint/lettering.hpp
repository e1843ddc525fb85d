// What is written beside wires and parts: a wire's colour and size, the numbers of checks, titles.
#pragma once
#include "drawing/paint/sketch.hpp"
#include "drawing/scheme/measures.hpp"

namespace loomsheet::drawing {

class Lettering {
public:
    // Both outlive it.
    Lettering(Sketch& sketch, const Ruler& ruler) : sketch_(sketch), ruler_(ruler) {}
    // Right of the wire at `x`, with the checks that clamp it left of it.
    void wire(const Edge& edge, double x, double top);
    // Numbers whose right edge is `right`, below `edge` or above it.
    void probes(const std::vector<int>& checks, double right, double edge, bool below);
    // From `x` on, its middle at `middle`.
    void title(const Node& node, double x, double middle);
    void title_centred(const Node& node, double x, double middle);

private:
    Sketch& sketch_;
    const Ruler& ruler_;
};

} // namespace loomsheet::drawing
