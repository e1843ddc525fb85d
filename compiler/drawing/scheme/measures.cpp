#include "drawing/scheme/measures.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

constexpr std::size_t numbers_in_row = 3, many_in_row = 4, many = 6, very_many_in_row = 8, very_many = 16;

// A pin's name, the numbers of its checks left of its wire, the words of the wire right of it.
void add_port(const Ruler& ruler, const Scheme& scheme, const Port& port, Extent& extent, Heights& heights) {
    const int zone = port.top ? 0 : 2;
    const double beside = port.plug ? mm::plug_radius + mm::beside : mm::beside;
    double left = 0, right = 0, lead = 0, label = 0;
    if (!port.name.empty()) {
        const double width = beside + ruler.measure.width(Type::small, port.name);
        (ruler.manner.names_left ? left : right) = width;
        lead = port.plug ? mm::plug_lead : mm::lead;
    }
    double mark_height = 0;
    const auto add_mark = [&](const std::vector<int>& checks) {
        if (checks.empty()) return;
        const ProbeMark mark = probe_mark(ruler, checks);
        left = std::max(left, beside) + mark.width + (left > 0 ? mm::label : 0);
        mark_height = std::max(mark_height, mark.height + 0.5);
    };
    add_mark(port.checks);
    if (port.label != none) {
        const WireWords words = wire_words(ruler, scheme.edges[port.label]);
        right = std::max(right, mm::beside + words.width + (ruler.manner.names_left && port.plug ? mm::plug_radius : 0));
        if (ruler.manner.names_left)
            lead = std::max(lead, words.height);
        else
            label = words.height;
        add_mark(words.checks);
    }
    lead = std::max(lead, mark_height - label);
    extent.left[zone] = std::max(extent.left[zone], left);
    extent.right[zone] = std::max(extent.right[zone], right);
    double &most_lead = port.top ? heights.lead_above : heights.lead_below,
           &most_label = port.top ? heights.label_above : heights.label_below;
    most_lead = std::max(most_lead, lead);
    most_label = std::max(most_label, label);
}

} // namespace

double size_of(Type type) {
    switch (type) {
    case Type::colour: return 13;
    case Type::designator:
    case Type::number: return 12;
    case Type::small:
    case Type::small_bold: return 9;
    }
    return 9;
}
double height_of(Type type) { return size_of(type) * 25.4 / 72 * 0.688; } // capitals of the sheet's faces are 0.688 em
double pitch_of(Type type) { return size_of(type) * 25.4 / 72 * 1.12; }

WireWords wire_words(const Ruler& ruler, const Edge& edge) {
    WireWords words;
    const Wire& wire = ruler.circuit.wires[edge.wire];
    words.colour = wire.colour.code();
    std::string gauge = wire.gauge;
    if (gauge.ends_with(" mm²")) gauge.resize(gauge.size() - std::string(" mm²").size());
    words.size = gauge.empty() ? wire.id : wire.id + "  " + gauge;
    words.checks = edge.checks;
    words.width = ruler.measure.width(Type::small, words.size);
    words.height = mm::size_line;
    if (words.colour.empty()) return words;
    const double colour = ruler.measure.width(Type::colour, words.colour);
    if (ruler.manner.one_line) {
        words.size_x = colour + 1.4;
        words.width += words.size_x;
        words.height = mm::colour_line;
    } else {
        words.width = std::max(words.width, colour);
        words.height += mm::colour_line;
    }
    return words;
}

namespace {
// Where there are many, "3–7" stands for all between.
std::vector<std::string> numbers_of(const std::vector<int>& checks) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < checks.size();) {
        std::size_t last = i;
        while (checks.size() > very_many && last + 1 < checks.size() && checks[last + 1] == checks[last] + 1)
            ++last;
        if (last < i + 2) last = i;
        words.push_back(last == i ? std::to_string(checks[i]) : std::to_string(checks[i]) + "–" + std::to_string(checks[last]));
        i = last + 1;
    }
    return words;
}
} // namespace

ProbeMark probe_mark(const Ruler& ruler, const std::vector<int>& checks) {
    ProbeMark mark;
    const std::vector<std::string> numbers = numbers_of(checks);
    const bool upright = ruler.manner.upright_marks && numbers.size() <= numbers_in_row;
    const std::size_t in_row = upright                      ? 1
                               : numbers.size() > very_many ? very_many_in_row
                               : numbers.size() > many      ? many_in_row
                                                            : numbers_in_row;
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        if (i % in_row == 0) mark.rows.emplace_back();
        mark.rows.back().push_back(numbers[i]);
    }
    for (const auto& row : mark.rows) {
        double width = 0;
        for (const std::string& number : row)
            width += ruler.measure.width(Type::number, number) + mm::probe_between;
        mark.width = std::max(mark.width, width - mm::probe_between + 3);
    }
    if (checks.size() == 1) mark.width = std::max(mm::probe, mark.width - 2);
    mark.height = mm::probe + (static_cast<double>(mark.rows.size()) - 1) * mm::probe_row;
    return mark;
}

double reach_right(const Cell& cell) {
    constexpr double second_column = 1.5;
    return cell.columns() == 1 ? half_width_of(cell.sign) : second_column;
}

double label_width(const Cell& cell, const Measure& measure) {
    double width = 0;
    for (const std::string& line : cell.label)
        width = std::max(width, measure.width(Type::small, line));
    return width;
}

namespace {
double reach_with_label(const Cell& cell, const Measure& measure) {
    return cell.label.empty() ? reach_right(cell) : reach_right(cell) + mm::label + label_width(cell, measure);
}
} // namespace

double title_width(const Node& node) {
    double width = 0;
    for (const Words& line : node.title)
        width = std::max(width, line.x + line.width);
    return width;
}
double title_height(const Node& node) {
    double height = 0;
    for (const Words& line : node.title)
        if (line.y >= 0) height += pitch_of(line.type);
    return height;
}

double band_height(const Node& node) {
    switch (node.kind) {
    case NodeKind::part: return node.grid.height() + (node.outlined ? 2.4 : 0);
    case NodeKind::box: {
        double rows = 0;
        for (const bool top : {true, false})
            if (std::any_of(node.ports.begin(), node.ports.end(),
                            [top](const Port& port) { return port.top == top && !port.inside.empty(); }))
                rows += mm::box_line;
        return std::max(12.0, rows + title_height(node) + 3);
    }
    case NodeKind::cavity: return mm::cavity;
    case NodeKind::ground: return mm::ground + title_height(node) + 0.6;
    case NodeKind::to_page:
    case NodeKind::from_page: return 3.6 + title_height(node);
    case NodeKind::point: return node.title.empty() || node.topmost ? 0 : title_height(node) + 0.4;
    case NodeKind::turn:
    case NodeKind::dummy: return 0;
    }
    return 0;
}

Overhang overhang_of(const Node& node, const Measure& measure) {
    Overhang overhang;
    for (const Cell& cell : node.grid.cells) {
        if (cell.column == 0) overhang.left = std::max(overhang.left, half_width_of(cell.sign));
        if (cell.column + cell.columns() == node.columns) overhang.right = std::max(overhang.right, reach_with_label(cell, measure));
    }
    if (node.outlined) overhang.left += mm::outline, overhang.right += mm::outline;
    return overhang;
}

namespace {

void size_part(const Ruler& ruler, const Node& node, Sizes& sizes) {
    const Overhang overhang = overhang_of(node, ruler.measure);
    sizes.extents.front().left[1] = overhang.left;
    sizes.extents.back().right[1] = overhang.right + (node.title.empty() ? 0 : mm::title + title_width(node));
    sizes.heights.band = std::max(sizes.heights.band, title_height(node) + 0.8);
    sizes.pitch.assign(node.columns, 0);
    constexpr double line_half = 0.6; // of a column where nothing but a line stands
    std::vector<double> right(node.columns, line_half), left(node.columns, line_half);
    for (const Cell& cell : node.grid.cells) {
        left[cell.column] = std::max(left[cell.column], half_width_of(cell.sign));
        const int outer = cell.column + cell.columns() - 1;
        right[outer] = std::max(right[outer], reach_with_label(cell, ruler.measure));
        if (cell.columns() > 1) sizes.pitch[cell.column] = std::max(sizes.pitch[cell.column], mm::contact_pitch);
    }
    for (int c = 0; c + 1 < node.columns; ++c)
        sizes.pitch[c] = std::max(sizes.pitch[c], right[c] + left[c + 1] + mm::gap);
}

void size_box(const Ruler& ruler, const Node& node, Sizes& sizes) {
    sizes.least_width = title_width(node) + 4;
    for (const Port& port : node.ports) {
        const double half = std::max(1.0, ruler.measure.width(Type::small, port.inside) / 2);
        Extent& extent = sizes.extents[port.column];
        extent.left[1] = extent.right[1] = std::max(mm::box_margin, half + 1.2);
    }
}

void size_cavity(const Ruler& ruler, const Scheme& scheme, const Node& node, Sizes& sizes) {
    Extent& extent = sizes.extents.front();
    constexpr double beside = mm::plug_radius + mm::beside;
    for (const Port& port : node.ports) {
        extent.right[1] = std::max(extent.right[1], beside + ruler.measure.width(Type::small, port.name));
        extent.left[1] = std::max(extent.left[1], mm::plug_radius);
        if (!port.checks.empty()) {
            const ProbeMark mark = probe_mark(ruler, port.checks);
            extent.left[1] = std::max(extent.left[1], beside + mark.width);
            sizes.heights.band = std::max(sizes.heights.band, 2 * mark.height + 0.5);
        }
        Port words = port;
        words.name.clear(), words.checks.clear();
        add_port(ruler, scheme, words, extent, sizes.heights);
    }
}

void size_dummy(const Ruler& ruler, const Scheme& scheme, const Node& node, Sizes& sizes) {
    const int label = node.ports[0].label;
    if (label == none) return;
    const WireWords words = wire_words(ruler, scheme.edges[label]);
    sizes.extents.front().right[1] = mm::beside + words.width;
    sizes.heights.band = words.height + 0.8;
    if (words.checks.empty()) return;
    const ProbeMark mark = probe_mark(ruler, words.checks);
    sizes.extents.front().left[1] = mm::beside + mark.width;
    sizes.heights.band = std::max(sizes.heights.band, mark.height + 0.6);
}

} // namespace

Sizes sizes_of(const Ruler& ruler, const Scheme& scheme, const Node& node) {
    Sizes sizes;
    sizes.extents.resize(std::max(1, node.columns));
    Heights& heights = sizes.heights;
    heights.band = band_height(node);
    if (node.kind != NodeKind::cavity && node.kind != NodeKind::dummy)
        for (const Port& port : node.ports)
            add_port(ruler, scheme, port, sizes.extents[port.column], heights);
    Extent& first = sizes.extents.front();
    switch (node.kind) {
    case NodeKind::part: size_part(ruler, node, sizes); break;
    case NodeKind::box: size_box(ruler, node, sizes); break;
    case NodeKind::cavity: size_cavity(ruler, scheme, node, sizes); break;
    case NodeKind::ground:
    case NodeKind::to_page:
    case NodeKind::from_page: first.left[1] = first.right[1] = std::max(mm::ground_half, title_width(node) / 2); break;
    case NodeKind::point:
        if (node.title.empty()) break;
        first.left[node.topmost ? 2 : 1] = mm::beside + title_width(node);
        if (node.topmost) heights.lead_below = std::max(heights.lead_below, title_height(node) + 0.4);
        break;
    case NodeKind::dummy: size_dummy(ruler, scheme, node, sizes); break;
    case NodeKind::turn: break;
    }
    return sizes;
}

} // namespace loomsheet::drawing
