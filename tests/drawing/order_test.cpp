// Crossing reduction: orders against all orders of small drawings, and what they are made of.
#include "drawing/place/blocks.hpp"
#include "drawing/place/order.hpp"
#include "drawing/place/packing.hpp"
#include "hand.hpp"
#include <algorithm>
#include <doctest/doctest.h>
#include <numeric>
#include <set>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

const Circuit& no_circuit() {
    static const Circuit empty;
    return empty;
}
Ruler ruler() { return {no_circuit(), hand::measure(), {}}; }

// Layers of points, joined by edges between neighbouring layers.
Layered points(const std::vector<int>& layer, const std::vector<std::pair<int, int>>& edges) {
    Layered layered;
    for (const int each : layer) {
        drawing::Node node = hand::node(NodeKind::point);
        node.layer = each;
        layered.scheme.add(node);
        layered.layers = std::max(layered.layers, each + 1);
    }
    for (const auto& [from, to] : edges) {
        layered.segments.push_back({from, 1, to, 0, static_cast<int>(layered.scheme.edges.size())});
        layered.scheme.edges.push_back(hand::edge(from, to));
    }
    layered.list_segments();
    return layered;
}
// Two layers of three parts each, none to be mirrored: every part has two ports towards the other layer. Wires join
// lower ports of 0, 1, 2 with upper ports of 3, 4, 5, each port once.
Layered ladder(const std::vector<int>& lower_of_upper) {
    Layered layered;
    for (int n = 0; n < 6; ++n) {
        drawing::Node part;
        part.kind = NodeKind::part;
        part.layer = n / 3;
        part.columns = 2;
        Cell cell;
        cell.sign = Sign::change_over, cell.top = 0, cell.bottom = 1, cell.side = 2, cell.column = 0;
        part.grid.cells = {cell};
        part.grid.rows = 1, part.grid.columns = 2;
        part.grid.row_height = {8}, part.grid.tracks = {0, 0};
        for (int c = 0; c < 2; ++c) {
            part.ports.push_back(bare_port(n >= 3));
            part.ports.back().column = c;
        }
        layered.scheme.add(part);
    }
    for (int upper = 0; upper < 6; ++upper) {
        const int lower = lower_of_upper[static_cast<std::size_t>(upper)];
        layered.segments.push_back({upper / 2, upper % 2, 3 + lower / 2, lower % 2, upper});
        layered.scheme.edges.push_back({upper / 2, 3 + lower / 2, upper % 2, lower % 2, none, false, {}});
    }
    layered.layers = 2;
    layered.list_segments();
    return layered;
}
// Pairs of wires that cross when each runs straight from port to port.
int crossings_of(const Layered& layered, const std::vector<std::vector<int>>& rows) {
    std::vector<int> place(layered.scheme.nodes.size(), 0);
    for (const auto& row : rows)
        for (std::size_t i = 0; i < row.size(); ++i)
            place[static_cast<std::size_t>(row[i])] = 10 * static_cast<int>(i);
    const auto at = [&](int node, int port) {
        return place[static_cast<std::size_t>(node)] +
               layered.scheme.nodes[static_cast<std::size_t>(node)].ports[static_cast<std::size_t>(port)].column;
    };
    int count = 0;
    for (const Segment& a : layered.segments)
        for (const Segment& b : layered.segments)
            count += at(a.from, a.from_port) < at(b.from, b.from_port) && at(a.to, a.to_port) > at(b.to, b.to_port);
    return count;
}
std::vector<std::vector<int>> start_of(const Layered& layered) {
    const Blocks blocks = blocks_of(layered);
    std::vector<std::vector<int>> rows(static_cast<std::size_t>(layered.layers));
    for (const int block : depth_first(layered, blocks, neighbours_of(layered)))
        for (const int node : blocks.members[static_cast<std::size_t>(block)])
            rows[static_cast<std::size_t>(layered.scheme.nodes[static_cast<std::size_t>(node)].layer)].push_back(node);
    return rows;
}

} // namespace

TEST_CASE("blocks are chains: they end where wires meet and at parts of several columns") {
    // 0 - 1 - 2, then 2 to 3 and 4; 5 stands alone
    Layered layered = points({0, 1, 2, 3, 3, 0}, {{0, 1}, {1, 2}, {2, 3}, {2, 4}});
    Blocks blocks = blocks_of(layered);
    CHECK(blocks.of[0] == blocks.of[1]);
    CHECK(blocks.of[1] == blocks.of[2]);
    CHECK(blocks.of[2] != blocks.of[3]);
    CHECK(blocks.of[3] != blocks.of[4]);
    CHECK(blocks.count() == 4);
    CHECK(blocks.members[static_cast<std::size_t>(blocks.of[0])] == std::vector<int>{0, 1, 2});
    layered.scheme.nodes[1].columns = 2;
    blocks = blocks_of(layered);
    CHECK(blocks.of[0] != blocks.of[1]);
    CHECK(blocks.count() == 6);
}

TEST_CASE("the battery's block is kept left, the others keep their order") {
    Layered layered = points({0, 0, 0, 0}, {});
    layered.scheme.nodes[2].kind = NodeKind::part;
    layered.scheme.nodes[2].grid.cells.resize(1);
    layered.scheme.nodes[2].grid.cells[0].sign = Sign::battery;
    const Blocks blocks = blocks_of(layered);
    std::vector<int> order{3, 1, 2, 0};
    blocks.keep_fixed_left(order);
    CHECK(order == std::vector<int>{2, 3, 1, 0});
    CHECK(depth_first(layered, blocks, neighbours_of(layered)).front() == 2);
}

TEST_CASE("the search begins depth first, from the top") {
    // 1 and 2 lie below 0; 3 below 1; 4 is a root of its own, named last
    const Layered layered = points({1, 2, 2, 3, 0, 2}, {{0, 1}, {0, 2}, {1, 3}, {2, 3}, {4, 0}, {4, 0}, {0, 5}});
    const Blocks blocks = blocks_of(layered);
    std::vector<int> nodes;
    for (const int block : depth_first(layered, blocks, neighbours_of(layered)))
        nodes.push_back(blocks.members[static_cast<std::size_t>(block)].front());
    CHECK(nodes == std::vector<int>{4, 0, 1, 3, 2, 5});
}

TEST_CASE("neighbours are the other ends of a port's segments") {
    const Layered layered = points({0, 1, 1}, {{0, 1}, {0, 2}});
    const Neighbours near = neighbours_of(layered);
    CHECK(near[0][1] == std::vector<std::pair<int, int>>{{1, 0}, {2, 0}});
    CHECK(near[2][0] == std::vector<std::pair<int, int>>{{0, 1}});
    CHECK(near[0][0].empty());
}

TEST_CASE("blocks are packed side by side and drawn to the median of their neighbours") {
    // Three points above, one below that is joined to all: packed it stands left, swept it stands in the middle.
    Layered layered = points({0, 0, 0, 1}, {{0, 3}, {1, 3}, {2, 3}});
    const Blocks blocks = blocks_of(layered);
    const Neighbours near = neighbours_of(layered);
    const Bodies bodies(ruler(), layered);
    Packing packing(layered, blocks, bodies, near);
    const std::vector<int> order{0, 1, 2, 3};
    packing.pack(order);
    CHECK(packing.x_of(0, 1) == doctest::Approx(0));
    CHECK(packing.x_of(1, 1) == doctest::Approx(mm::gap)); // points have no width of their own
    CHECK(packing.x_of(2, 1) == doctest::Approx(2 * mm::gap));
    CHECK(packing.x_of(3, 0) == doctest::Approx(0));
    CHECK(packing.width() == doctest::Approx(3 * mm::gap));
    packing.sweep(order);
    for (int n = 0; n < 2; ++n) // in order, and apart
        CHECK(packing.x_of(n + 1, 1) >= packing.x_of(n, 1) + mm::gap - 1e-9);
    CHECK(packing.x_of(3, 0) >= packing.x_of(0, 1));
    CHECK(packing.x_of(3, 0) <= packing.x_of(2, 1));
    CHECK(packing.width() <= 3 * mm::gap + 1e-9);
}

TEST_CASE("parts that stand in the wrong order change places") {
    Layered layered = ladder({2, 3, 4, 5, 0, 1});
    const Order order = find_order(ruler(), layered, 180, 1000);
    CHECK(crossings_of(layered, order.rows) == 0);
}

TEST_CASE("small drawings: no more crossings than the start, nearly always the least of all orders") {
    std::vector<int> wires{0, 1, 2, 3, 4, 5};
    hand::Chance chance(9);
    int best = 0, total = 0, first = 0;
    constexpr int rounds = 40;
    for (int round = 0; round < rounds; ++round) {
        for (int i = 5; i > 0; --i)
            std::swap(wires[static_cast<std::size_t>(i)], wires[static_cast<std::size_t>(chance.below(i + 1))]);
        Layered layered = ladder(wires);
        const int start = crossings_of(layered, start_of(layered));
        const Order order = find_order(ruler(), layered, 180, 2000);
        const int found = crossings_of(layered, order.rows);
        CHECK(found <= start);
        std::vector<int> upper{0, 1, 2};
        int least = 1000;
        do {
            std::vector<int> lower{3, 4, 5};
            do
                least = std::min(least, crossings_of(layered, {upper, lower}));
            while (std::next_permutation(lower.begin(), lower.end()));
        } while (std::next_permutation(upper.begin(), upper.end()));
        CHECK(found >= least);
        best += found == least;
        total += found, first += start;
    }
    MESSAGE(best << " of " << rounds << " are the best of all; " << total << " crossings, " << first << " at first");
    CHECK(best >= 36);
}

TEST_CASE("an order has every node in its layer once, the same each time") {
    hand::Chance chance(3);
    std::vector<int> layer;
    for (int n = 0; n < 20; ++n)
        layer.push_back(n / 5);
    std::vector<std::pair<int, int>> edges;
    for (int i = 0; i < 30; ++i) {
        const int from = chance.below(15);
        edges.emplace_back(from, 5 * (from / 5 + 1) + chance.below(5));
    }
    Layered one = points(layer, edges), other = points(layer, edges);
    const Order order = find_order(ruler(), one, 100, 500);
    REQUIRE(order.rows.size() == 4);
    for (int row = 0; row < 4; ++row) {
        std::vector<int> nodes = order.rows[static_cast<std::size_t>(row)];
        std::sort(nodes.begin(), nodes.end());
        std::vector<int> wanted(5);
        std::iota(wanted.begin(), wanted.end(), 5 * row);
        CHECK(nodes == wanted);
    }
    CHECK(find_order(ruler(), other, 100, 500).rows == order.rows);
}

TEST_CASE("a box's pins follow what they lead to") {
    // A box with three pins below, joined crosswise to three points: its pins change, not the points.
    Layered layered;
    drawing::Node box;
    box.kind = NodeKind::box;
    box.columns = 3;
    for (int c = 0; c < 3; ++c) {
        box.ports.push_back(bare_port(false));
        box.ports.back().column = c;
    }
    layered.scheme.add(box);
    for (int n = 0; n < 3; ++n) {
        layered.scheme.add(hand::node(NodeKind::point));
        layered.scheme.nodes.back().layer = 1;
        layered.segments.push_back({0, n, 3 - n, 0, n});
        layered.scheme.edges.push_back({0, 3 - n, n, 0, none, false, {}});
    }
    layered.layers = 2;
    layered.list_segments();
    Bodies bodies(ruler(), layered);
    const Blocks blocks = blocks_of(layered);
    std::vector<int> place(static_cast<std::size_t>(blocks.count()));
    std::iota(place.begin(), place.end(), 0);
    bodies.arrange_ports(blocks, neighbours_of(layered), place);
    bodies.number_pins();
    const auto& ports = layered.scheme.nodes[0].ports;
    CHECK(ports[0].column == 2);
    CHECK(ports[1].column == 1);
    CHECK(ports[2].column == 0);
}

TEST_CASE("a part is mirrored where more of its wires then run straight, and back") {
    Layered layered;
    drawing::Node part;
    part.kind = NodeKind::part;
    part.columns = 2;
    for (int c = 0; c < 2; ++c) {
        Cell cell;
        cell.top = 2 * c, cell.bottom = 2 * c + 1, cell.column = c;
        part.grid.cells.push_back(cell);
        part.ports.push_back(bare_port(false));
        part.ports.back().column = c;
    }
    part.grid.rows = 1, part.grid.columns = 2;
    part.grid.row_height = {8}, part.grid.tracks = {0, 0};
    layered.scheme.add(part);
    for (int n = 0; n < 2; ++n) {
        layered.scheme.add(hand::node(NodeKind::point));
        layered.scheme.nodes.back().layer = 1;
        layered.segments.push_back({0, n, 1 + n, 0, n});
        layered.scheme.edges.push_back({0, 1 + n, n, 0, none, false, {}});
    }
    layered.layers = 2;
    layered.list_segments();
    Bodies bodies(ruler(), layered);
    const Blocks blocks = blocks_of(layered);
    const Neighbours near = neighbours_of(layered);
    const drawing::Node& node = layered.scheme.nodes[0];
    bodies.arrange_ports(blocks, near, {0, 1, 2});
    CHECK_FALSE(node.mirrored);
    bodies.arrange_ports(blocks, near, {0, 2, 1});
    CHECK(node.mirrored);
    CHECK(node.ports[0].column == 1);
    CHECK(node.grid.cells[0].column == 1);
    bodies.arrange_ports(blocks, near, {0, 2, 1}); // stays
    CHECK(node.mirrored);
    bodies.arrange_ports(blocks, near, {0, 1, 2});
    CHECK_FALSE(node.mirrored);
    bodies.arrange_ports(blocks, near, {0, 1, 1}); // both lead to one place
    CHECK_FALSE(node.mirrored);
    layered.scheme.nodes[0].grid.cells[0].side = 3; // a second throw is right of its first
    CHECK_FALSE(can_mirror(node));
    bodies.arrange_ports(blocks, near, {0, 2, 1});
    CHECK_FALSE(node.mirrored);
}

TEST_CASE("grounds of one point that stand side by side become one, and keep one number each") {
    // Two fuses over two dummies over two symbols of one ground, and one of another.
    Layered layered;
    const auto add = [&](NodeKind kind, int layer, PartId part) {
        drawing::Node node = hand::node(kind);
        node.layer = layer, node.part = part;
        return layered.scheme.add(node);
    };
    for (int i = 0; i < 3; ++i) {
        const int top = add(NodeKind::part, 0, i), middle = add(NodeKind::dummy, 1, none), ground = add(NodeKind::ground, 2, i < 2 ? 7 : 8),
                  edge = i;
        layered.scheme.nodes[static_cast<std::size_t>(ground)].ports[0].label = edge;
        layered.scheme.nodes[static_cast<std::size_t>(ground)].ports[0].checks = {5};
        layered.scheme.edges.push_back(hand::edge(top, ground, i));
        layered.segments.push_back({top, 1, middle, 0, edge});
        layered.segments.push_back({middle, 1, ground, 0, edge});
    }
    layered.layers = 3;
    layered.list_segments();
    Order order;
    order.rows = {{0, 3, 6}, {1, 4, 7}, {2, 5, 8}};
    Layered apart = layered;
    Order parted = order;
    join_grounds(layered, order);
    CHECK(order.rows[2] == std::vector<int>{2, 8});
    CHECK(layered.at[2][0].size() == 2);
    CHECK(layered.scheme.nodes[1].ports[0].label == 0); // the words are now with the dummies
    CHECK(layered.scheme.nodes[4].ports[0].label == 1);
    CHECK(layered.scheme.nodes[2].ports[0].label == none);
    CHECK(layered.scheme.nodes[8].ports[0].label == 2);
    CHECK(layered.scheme.nodes[2].ports[0].checks == std::vector<int>{5});
    parted.rows[2] = {2, 8, 5}; // another between them
    join_grounds(apart, parted);
    CHECK(parted.rows[2].size() == 3);
    CHECK(apart.scheme.nodes[2].ports[0].checks == std::vector<int>{5}); // the first symbol has them
    CHECK(apart.scheme.nodes[5].ports[0].checks.empty());
}

TEST_CASE("wires that share a port are one net; a bare point is left out of it") {
    const Layered layered = points({0, 0, 1, 1, 1}, {{0, 2}, {0, 3}, {1, 4}});
    const std::vector<std::vector<Net>> nets = nets_of(layered);
    REQUIRE(nets.size() == 1);
    REQUIRE(nets[0].size() == 2);
    CHECK(nets[0][0].segments == std::vector<int>{0, 1});
    CHECK(nets[0][0].lowers.size() == 2);
    CHECK(nets[0][0].uppers.empty()); // 0 has no name and nothing above it: its bar is all there is to see
    CHECK(nets[0][1].uppers.size() == 1);
    Layered named = layered;
    named.scheme.nodes[0].title.push_back({});
    CHECK(nets_of(named)[0][0].uppers.size() == 1);
    CHECK_FALSE(nets_of(named)[0][0].rail);
    named.scheme.nodes[0].rail = true;
    CHECK(nets_of(named)[0][0].rail);
}
