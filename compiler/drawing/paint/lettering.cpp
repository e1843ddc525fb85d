#include "drawing/paint/lettering.hpp"

namespace loomsheet::drawing {

void Lettering::wire(const Edge& edge, double x, double top) {
    const WireWords words = wire_words(ruler_, edge);
    const double colour_base = top + 0.8 + height_of(Type::colour);
    const bool beside = words.size_x > 0; // the size stands on the line of the colour
    const double size_top = words.colour.empty() ? top : top + mm::colour_line;
    sketch_.words(x + mm::beside, colour_base, Type::colour, words.colour);
    sketch_.words(x + mm::beside + words.size_x, beside ? colour_base : size_top + 0.4 + height_of(Type::small), Type::small, words.size);
    sketch_.picture().wires.push_back(edge.wire);
    probes(words.checks, x - mm::beside, top, true);
}

void Lettering::probes(const std::vector<int>& checks, double right, double edge, bool below) {
    if (checks.empty()) return;
    const ProbeMark mark = probe_mark(ruler_, checks);
    const double x = right - mark.width, y = below ? edge : edge - mark.height;
    if (checks.size() == 1 && mark.width <= mm::probe)
        sketch_.ring(x + mark.width / 2, y + mm::probe / 2, mm::probe / 2, pt::probe);
    else
        sketch_.pill(x, y, mark.width, mark.height, pt::probe);
    double baseline = y + mm::probe / 2 + height_of(Type::number) / 2;
    for (const auto& row : mark.rows) {
        double width = -mm::probe_between;
        for (const std::string& number : row)
            width += ruler_.measure.width(Type::number, number) + mm::probe_between;
        double at = x + (mark.width - width) / 2;
        for (const std::string& number : row) {
            sketch_.words(at, baseline, Type::number, number);
            at += ruler_.measure.width(Type::number, number) + mm::probe_between;
        }
        baseline += mm::probe_row;
    }
}

void Lettering::title(const Node& node, double x, double middle) {
    double y = middle - title_height(node) / 2, baseline = y;
    for (const Words& line : node.title) {
        if (line.y >= 0) { // else it goes on on the line above
            baseline = y + pitch_of(line.type) / 2 + height_of(line.type) / 2;
            y += pitch_of(line.type);
        }
        sketch_.words(x + line.x, baseline, line.type, line.text);
    }
}

void Lettering::title_centred(const Node& node, double x, double middle) {
    double y = middle - title_height(node) / 2;
    for (const Words& line : node.title) {
        sketch_.centred(x, y + pitch_of(line.type) / 2 + height_of(line.type) / 2, line.type, line.text);
        y += pitch_of(line.type);
    }
}

} // namespace loomsheet::drawing
