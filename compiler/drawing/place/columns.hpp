// Coordinate assignment by network simplex: first few bends, then short bars, then a narrow page.
#pragma once
#include "drawing/place/order.hpp"

namespace loomsheet::drawing {

struct Columns {
    std::vector<std::vector<double>> x; // by node and column, mm from the left of all that is drawn
    std::vector<double> left, right;    // by node: the walls of a box
    double width = 0;
    double at(const Scheme& scheme, std::pair<int, int> end) const {
        return x[end.first][scheme.nodes[end.first].ports[end.second].column];
    }
};
// Two ends, given as node and port, that must not stand above one another.
struct Apart {
    std::pair<int, int> one, other;
};
// Rough: without the rounds that straighten small bends.
Columns place_columns(const Layered& layered, const Order& order, const std::vector<Sizes>& sizes,
                      const std::vector<std::vector<Net>>& nets, const std::vector<Apart>& apart, double page_width, bool rough);

} // namespace loomsheet::drawing
