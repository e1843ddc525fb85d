#include "drawing/place/bodies.hpp"
#include <algorithm>
#include <numeric>

namespace loomsheet::drawing {

bool can_mirror(const Node& node) {
    return std::none_of(node.grid.cells.begin(), node.grid.cells.end(), [](const Cell& cell) { return cell.side != none; });
}

void mirror(Node& node) {
    node.mirrored = !node.mirrored;
    const int last = node.columns - 1;
    for (Cell& cell : node.grid.cells)
        cell.column = last - cell.column;
    for (GridPin& pin : node.grid.pins)
        pin.column = last - pin.column;
    for (Bar& bar : node.grid.bars)
        std::swap(bar.from, bar.to), bar.from = last - bar.from, bar.to = last - bar.to;
    for (Port& port : node.ports)
        port.column = last - port.column;
}

Bodies::Bodies(const Ruler& ruler, Layered& layered) : nodes_(layered.scheme.nodes), bodies_(nodes_.size()) {
    for (std::size_t n = 0; n < nodes_.size(); ++n) {
        const Node& node = nodes_[n];
        sizes_.push_back(sizes_of(ruler, layered.scheme, node));
        mirrored_sizes_.emplace_back();
        if (node.columns > 1) wide_.push_back(static_cast<int>(n));
        if (node.columns > 1 && node.kind == NodeKind::part && can_mirror(node)) {
            Node mirrored = node;
            mirror(mirrored);
            mirrored_sizes_.back() = sizes_of(ruler, layered.scheme, mirrored);
        }
        bodies_[n].offset.assign(std::max(1, node.columns), 0);
        place_columns_of(static_cast<int>(n));
    }
}

void Bodies::place_columns_of(int n) {
    std::vector<double>& offset = bodies_[n].offset;
    if (nodes_[n].kind == NodeKind::part)
        for (int c = 1; c < nodes_[n].columns; ++c)
            offset[c] = offset[c - 1] + std::max(sizes_[n].pitch[c - 1], words_pitch(n, c - 1, c));
    take_reach(n);
}

double Bodies::words_pitch(int n, int a, int b) const {
    double pitch = 0;
    for (const int zone : {0, 2})
        pitch = std::max(pitch, sizes_[n].extents[a].right[zone] + sizes_[n].extents[b].left[zone] + mm::gap);
    return pitch;
}

void Bodies::take_reach(int n) {
    Body& body = bodies_[n];
    body.left = body.right = 0;
    for (std::size_t c = 0; c < body.offset.size(); ++c)
        for (int zone = 0; zone < 3; ++zone) {
            body.left = std::max(body.left, sizes_[n].extents[c].left[zone] - body.offset[c]);
            body.right = std::max(body.right, sizes_[n].extents[c].right[zone] + body.offset[c]);
        }
    if (nodes_[n].kind == NodeKind::box) body.right = std::max(body.right, sizes_[n].least_width - body.left);
}

void Bodies::arrange_ports(const Blocks& blocks, const Neighbours& neighbours, const std::vector<int>& place) {
    for (const int n : wide_) {
        aim_.clear(); // the mean place of what a port leads to
        for (const auto& port : neighbours[n]) {
            double sum = 0;
            for (const auto& [other, other_port] : port)
                sum += place[blocks.of[other]] + (nodes_[other].columns > 1 ? 0.01 * nodes_[other].ports[other_port].column : 0);
            aim_.push_back(port.empty() ? -1.0 : sum / static_cast<double>(port.size()));
        }
        nodes_[n].kind == NodeKind::box ? arrange_pins(n, aim_) : mirror_where_straighter(n, aim_);
    }
}

void Bodies::arrange_pins(int n, const std::vector<double>& aim) {
    const Node& node = nodes_[n];
    const std::vector<Extent>& extents = sizes_[n].extents;
    for (const bool top : {true, false}) {
        std::vector<std::pair<double, int>> row;
        for (std::size_t p = 0; p < node.ports.size(); ++p)
            if (node.ports[p].top == top) row.emplace_back(aim[p], static_cast<int>(p));
        std::stable_sort(row.begin(), row.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
        double x = 0;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const int column = node.ports[row[i].second].column;
            if (i > 0) {
                const int before = node.ports[row[i - 1].second].column;
                x += std::max(words_pitch(n, before, column), extents[before].right[1] + extents[column].left[1] - 2 * mm::box_margin + 4);
            }
            bodies_[n].offset[column] = x;
        }
    }
    take_reach(n);
}

void Bodies::mirror_where_straighter(int n, const std::vector<double>& aim) {
    Node& node = nodes_[n];
    const std::vector<double>& offset = bodies_[n].offset;
    int ahead = 0, back = 0; // pairs of ports whose wires do not cross as the part stands, and those that do
    for (std::size_t a = 0; a < node.ports.size(); ++a)
        for (std::size_t b = a + 1; b < node.ports.size(); ++b) {
            if (aim[a] < 0 || aim[b] < 0) continue;
            const double lead = (aim[a] - aim[b]) * (offset[node.ports[a].column] - offset[node.ports[b].column]);
            ahead += lead > 0, back += lead < 0;
        }
    if (node.mirrored) std::swap(ahead, back);
    if ((back > ahead) == node.mirrored || !can_mirror(node)) return;
    mirror(node);
    std::swap(sizes_[n], mirrored_sizes_[n]);
    place_columns_of(n);
}

void Bodies::number_pins() {
    for (std::size_t n = 0; n < nodes_.size(); ++n) {
        Node& node = nodes_[n];
        if (node.kind != NodeKind::box) continue;
        std::vector<int> ports(node.ports.size());
        std::iota(ports.begin(), ports.end(), 0);
        std::stable_sort(ports.begin(), ports.end(),
                         [&](int a, int b) { return bodies_[n].offset[node.ports[a].column] < bodies_[n].offset[node.ports[b].column]; });
        std::vector<int> rank(node.columns);
        for (std::size_t i = 0; i < ports.size(); ++i)
            rank[node.ports[ports[i]].column] = static_cast<int>(i);
        for (Port& port : node.ports)
            port.column = rank[port.column];
    }
}

} // namespace loomsheet::drawing
