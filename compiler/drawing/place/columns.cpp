#include "drawing/place/columns.hpp"
#include "drawing/place/simplex.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet::drawing {
namespace {

constexpr double units = 2; // a millimetre
constexpr int bend_weight = 80, branch_weight = 10, stretch_weight = 5, width_weight = 2, over_weight = 90;
constexpr int reweighings = 2;

int up(double mm) { return static_cast<int>(std::ceil(mm * units - 1e-9)); }

class Placer {
public:
    Placer(const Layered& layered, const Order& order, const std::vector<Sizes>& sizes, const std::vector<std::vector<Net>>& nets,
           const std::vector<Apart>& apart, double page_width, bool rough)
        : rough_(rough), layered_(layered), nodes_(layered.scheme.nodes), order_(order), sizes_(sizes), nets_(nets),
          page_width_(page_width) {
        number_columns();
        for (const auto& row : order.rows)
            keep_row(row);
        for (const Apart& pair : apart)
            keep_apart(pair);
        keep_page();
        list_bends();
    }

    Columns run() {
        std::vector<int> x;
        for (int round = 0; round <= (rough_ ? 0 : reweighings); ++round) {
            std::vector<Constraint> constraints = constraints_;
            int count = variables_;
            for (const Bend& bend : bends_) {
                constraints.push_back({count, bend.a, 0, bend.weight});
                constraints.push_back({count, bend.b, 0, bend.weight});
                ++count;
            }
            x = network_simplex(count, constraints, x);
            for (Bend& bend : bends_)
                if (bend.single) bend.weight = std::max(10, static_cast<int>(240 / (2 + std::abs(x[bend.a] - x[bend.b]) / units)));
        }
        return result(x);
    }

private:
    int variable(int node, int column) const { return first_[node] + column; }
    int variable(std::pair<int, int> end) const { return variable(end.first, nodes_[end.first].ports[end.second].column); }

    // Nodes of one chain share their column.
    void number_columns() {
        first_.assign(nodes_.size(), none);
        std::vector<int> of_block(order_.place.size(), none);
        for (std::size_t n = 0; n < nodes_.size(); ++n) {
            const Node& node = nodes_[n];
            int& shared = of_block[order_.block[n]];
            if (node.columns == 1 && node.kind != NodeKind::box && shared != none) {
                first_[n] = shared;
                continue;
            }
            first_[n] = variables_;
            if (node.columns == 1 && node.kind != NodeKind::box) shared = variables_;
            variables_ += std::max(1, node.columns) + (node.kind == NodeKind::box ? 2 : 0);
        }
        left_ = variables_++, right_ = variables_++, over_ = variables_++;
    }
    int left_wall(int n) const { return first_[n] + nodes_[n].columns; }
    int right_wall(int n) const { return left_wall(n) + 1; }

    void keep(int from, int to, double least, int weight = 0) {
        if (from != to) constraints_.push_back({from, to, up(least), weight});
    }

    struct Outermost { // the outermost column in a zone, and how far it reaches
        int variable = none;
        double reach = 0;
    };
    Outermost outermost(int n, int zone, bool right) const {
        const Node& node = nodes_[n];
        const Sizes& sizes = sizes_[n];
        if (node.kind == NodeKind::box) {
            int found = none;
            if (zone != 1)
                for (const Port& port : node.ports)
                    if (port.top == (zone == 0) && (found == none || (right ? port.column > found : port.column < found)))
                        found = port.column;
            if (found == none) return {right ? right_wall(n) : left_wall(n), 0};
            return {variable(n, found), right ? sizes.extents[found].right[zone] : sizes.extents[found].left[zone]};
        }
        const int column = right ? std::max(0, node.columns - 1) : 0;
        return {variable(n, column), right ? sizes.extents[column].right[zone] : sizes.extents[column].left[zone]};
    }

    void keep_row(const std::vector<int>& row) {
        for (std::size_t i = 0; i < row.size(); ++i) {
            keep_node(row[i]);
            for (int zone = 0; zone < 3; ++zone) {
                const Outermost first = outermost(row[i], zone, false), last = outermost(row[i], zone, true);
                keep(left_, first.variable, first.reach);
                keep(last.variable, right_, last.reach);
                if (i + 1 < row.size()) {
                    const Outermost next = outermost(row[i + 1], zone, false);
                    keep(last.variable, next.variable, last.reach + next.reach + mm::gap);
                }
            }
        }
    }
    void keep_node(int n) {
        const Node& node = nodes_[n];
        const Sizes& sizes = sizes_[n];
        if (node.kind == NodeKind::part) {
            for (int c = 0; c + 1 < node.columns; ++c) {
                double pitch = sizes.pitch[c];
                for (const int zone : {0, 2})
                    pitch = std::max(pitch, sizes.extents[c].right[zone] + sizes.extents[c + 1].left[zone] + mm::gap);
                keep(variable(n, c), variable(n, c + 1), pitch, stretch_weight);
            }
            for (const Bar& bar : node.grid.bars)
                keep(variable(n, bar.from), variable(n, bar.to), 0, branch_weight);
            return;
        }
        if (node.kind != NodeKind::box) return;
        keep(left_wall(n), right_wall(n), sizes.least_width, stretch_weight);
        for (const bool top : {true, false}) {
            std::vector<int> row;
            for (const Port& port : node.ports)
                if (port.top == top) row.push_back(port.column);
            std::sort(row.begin(), row.end());
            for (std::size_t i = 0; i < row.size(); ++i) {
                const Extent& here = sizes.extents[row[i]];
                keep(left_wall(n), variable(n, row[i]), here.left[1]);
                keep(variable(n, row[i]), right_wall(n), here.right[1]);
                if (i + 1 == row.size()) break;
                const Extent& next = sizes.extents[row[i + 1]];
                const int zone = top ? 0 : 2;
                keep(variable(n, row[i]), variable(n, row[i + 1]),
                     std::max(here.right[zone] + next.left[zone] + mm::gap, here.right[1] + next.left[1] - 2 * mm::box_margin + 4));
            }
        }
    }
    void keep_apart(const Apart& pair) {
        const int one = order_.place[order_.block[pair.one.first]], other = order_.place[order_.block[pair.other.first]];
        if (one == other) return;
        const int a = variable(pair.one), b = variable(pair.other);
        one < other ? keep(a, b, mm::gap) : keep(b, a, mm::gap);
    }
    void keep_page() {
        keep(left_, right_, 0, width_weight);
        keep(left_, over_, 0, over_weight);
        constraints_.push_back({right_, over_, -static_cast<int>(page_width_ * units), 0});
    }

    struct Bend {
        int a = none, b = none, weight = 0;
        bool single = false; // a wire on its own, not a branch
    };
    void list_bends() {
        for (const auto& channel : nets_)
            for (const Net& net : channel) {
                if (net.uppers.size() == 1 && net.lowers.size() == 1) {
                    bend(variable(net.uppers[0]), variable(net.lowers[0]), bend_weight, true);
                } else if (net.uppers.empty() || net.lowers.empty()) {
                    const auto& ends = net.uppers.empty() ? net.lowers : net.uppers;
                    for (std::size_t i = 1; i < ends.size(); ++i)
                        bend(variable(ends[i - 1]), variable(ends[i]), branch_weight, false);
                } else {
                    for (const auto& upper : net.uppers)
                        for (const auto& lower : net.lowers)
                            bend(variable(upper), variable(lower), branch_weight, false);
                }
            }
    }
    void bend(int a, int b, int weight, bool single) {
        if (a != b) bends_.push_back({a, b, weight, single});
    }

    Columns result(const std::vector<int>& x) const {
        Columns made;
        made.x.resize(nodes_.size());
        made.left.assign(nodes_.size(), 0), made.right.assign(nodes_.size(), 0);
        const auto place = [&](int v) { return (x[v] - x[left_]) / units; };
        for (std::size_t n = 0; n < nodes_.size(); ++n) {
            for (int c = 0; c < std::max(1, nodes_[n].columns); ++c)
                made.x[n].push_back(place(first_[n] + c));
            if (nodes_[n].kind == NodeKind::box)
                made.left[n] = place(left_wall(static_cast<int>(n))), made.right[n] = place(right_wall(static_cast<int>(n)));
        }
        made.width = place(right_);
        return made;
    }

    bool rough_;
    const Layered& layered_;
    const std::vector<Node>& nodes_;
    const Order& order_;
    const std::vector<Sizes>& sizes_;
    const std::vector<std::vector<Net>>& nets_;
    double page_width_;
    std::vector<int> first_;
    int variables_ = 0, left_ = 0, right_ = 0, over_ = 0;
    std::vector<Constraint> constraints_;
    std::vector<Bend> bends_;
};

} // namespace

Columns place_columns(const Layered& layered, const Order& order, const std::vector<Sizes>& sizes,
                      const std::vector<std::vector<Net>>& nets, const std::vector<Apart>& apart, double page_width, bool rough) {
    return Placer(layered, order, sizes, nets, apart, page_width, rough).run();
}

} // namespace loomsheet::drawing
