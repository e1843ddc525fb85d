// Where the columns stand, on drawings of a few nodes; widths are written by hand.
#include "drawing/place/columns.hpp"
#include "hand.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

struct Table { // nodes by layer, in the order of their numbers, each reaching as far as said to both sides
    Layered layered;
    Order order;
    std::vector<Sizes> sizes;

    int add(int layer, double reach, NodeKind kind = NodeKind::dummy) {
        drawing::Node node = hand::node(kind);
        node.layer = layer;
        const int index = layered.scheme.add(node);
        layered.layers = std::max(layered.layers, layer + 1);
        order.rows.resize(static_cast<std::size_t>(layered.layers));
        order.rows[static_cast<std::size_t>(layer)].push_back(index);
        order.block.push_back(index), order.place.push_back(index);
        Sizes made;
        made.extents.resize(1);
        made.extents[0].left = made.extents[0].right = {0, reach, 0};
        sizes.push_back(made);
        return index;
    }
    void join(int from, int to) {
        layered.segments.push_back({from, 1, to, 0, static_cast<int>(layered.segments.size())});
        layered.scheme.edges.push_back(hand::edge(from, to));
    }
    Columns place(double page = 180, const std::vector<Apart>& apart = {}, bool rough = false) {
        layered.list_segments();
        return place_columns(layered, order, sizes, nets_of(layered), apart, page, rough);
    }
};

} // namespace

TEST_CASE("neighbours in a row keep their distance, zone by zone") {
    Table table;
    const int a = table.add(0, 5), b = table.add(0, 7);
    Columns columns = table.place();
    CHECK(columns.x[a][0] == doctest::Approx(5));
    CHECK(columns.x[b][0] - columns.x[a][0] == doctest::Approx(14)); // 5 + 7 + 1.6, in half millimetres
    CHECK(columns.width == doctest::Approx(5 + 14 + 7));
    table.sizes[a].extents[0].right = {20, 0, 0}; // above, where b has nothing
    columns = table.place();
    CHECK(columns.x[b][0] - columns.x[a][0] == doctest::Approx(22)); // 20 + 0 + 1.6
    table.sizes[b].extents[0].left = {0, 0, 30};                     // below, where a has nothing
    columns = table.place();
    CHECK(columns.x[b][0] - columns.x[a][0] == doctest::Approx(32));
}

TEST_CASE("a wire on its own runs straight, its neighbours make room") {
    Table table;
    const int a = table.add(0, 5), b = table.add(0, 5);
    const int c = table.add(1, 12), d = table.add(1, 12);
    table.join(a, c), table.join(b, d);
    const Columns columns = table.place();
    CHECK(columns.x[a][0] == columns.x[c][0]);
    CHECK(columns.x[b][0] == columns.x[d][0]);
    CHECK(columns.x[d][0] - columns.x[c][0] == doctest::Approx(26));
}

TEST_CASE("of two wires that cannot both be straight, one is") {
    Table table;
    const int a = table.add(0, 3), b = table.add(1, 3), c = table.add(1, 3);
    table.join(a, b), table.join(a, c);
    table.layered.scheme.nodes[a].title.push_back({}); // else it is a bar alone
    const Columns columns = table.place();
    CHECK((columns.x[a][0] >= columns.x[b][0] && columns.x[a][0] <= columns.x[c][0]));
}

TEST_CASE("one chain stands in one line whatever it costs") {
    Table table;
    const int a = table.add(0, 3), left = table.add(1, 30), b = table.add(1, 3);
    table.order.block = {0, 1, 0};
    table.order.place = {0, 1};
    table.join(a, b);
    const Columns columns = table.place();
    CHECK(columns.x[a][0] == columns.x[b][0]);
    CHECK(columns.x[b][0] - columns.x[left][0] >= 34.5);
}

TEST_CASE("ends that must not stand above one another do not") {
    Table table;
    const int a = table.add(0, 3), b = table.add(1, 3);
    CHECK(table.place().x[a][0] == table.place().x[b][0]);
    const Columns columns = table.place(180, {{{a, 1}, {b, 0}}});
    CHECK(columns.x[b][0] - columns.x[a][0] >= mm::gap); // in the order of their blocks
    std::swap(table.order.place[a], table.order.place[b]);
    const Columns other = table.place(180, {{{a, 1}, {b, 0}}});
    CHECK(other.x[a][0] - other.x[b][0] >= mm::gap);
}

TEST_CASE("columns of a part keep its pitch, the walls of a box enclose its pins and its title") {
    Table table;
    const int part = table.add(0, 0, NodeKind::part);
    table.layered.scheme.nodes[part].columns = 2;
    table.sizes[part].extents.resize(2);
    table.sizes[part].pitch = {11, 0};
    const int box = table.add(0, 0, NodeKind::box);
    drawing::Node& node = table.layered.scheme.nodes[box];
    node.columns = 2;
    node.ports = {bare_port(true), bare_port(true)};
    node.ports[1].column = 1;
    table.sizes[box].extents.assign(2, {});
    for (Extent& extent : table.sizes[box].extents)
        extent.left = extent.right = {0, 6, 0};
    table.sizes[box].least_width = 40;
    Columns columns = table.place();
    CHECK(columns.x[part][1] - columns.x[part][0] == doctest::Approx(11));
    CHECK(columns.right[box] - columns.left[box] == doctest::Approx(40));
    CHECK(columns.x[box][0] - columns.left[box] >= 6);
    CHECK(columns.right[box] - columns.x[box][1] >= 6);
    CHECK(columns.left[box] - columns.x[part][1] >= 1.5);
    table.sizes[box].least_width = 0;
    table.sizes[box].extents[0].right[0] = 10; // words above the first pin
    columns = table.place();
    CHECK(columns.x[box][1] - columns.x[box][0] == doctest::Approx(12)); // 10 + 1.6
    table.sizes[box].extents[0].right[0] = 0;
    columns = table.place();
    CHECK(columns.x[box][1] - columns.x[box][0] == doctest::Approx(6)); // 6 + 6 - 2 * 5 + 4
    CHECK(columns.right[box] - columns.left[box] == doctest::Approx(18));
}

TEST_CASE("what is wider than the page bends one wire, but not two") {
    Table table;
    std::vector<int> upper, lower;
    for (int i = 0; i < 3; ++i)
        upper.push_back(table.add(0, 30));
    for (int i = 0; i < 3; ++i)
        lower.push_back(table.add(1, 3));
    table.add(1, 60);
    for (int i = 0; i < 3; ++i)
        table.join(upper[i], lower[i]);
    const Columns roomy = table.place(400), tight = table.place(190);
    CHECK(roomy.x[upper[2]][0] == roomy.x[lower[2]][0]);
    CHECK(roomy.width == doctest::Approx(154 + 65 + 60)); // the third straight wire, the wide node behind it
    CHECK(tight.x[lower[1]][0] == tight.x[upper[1]][0]);
    CHECK(tight.x[lower[2]][0] == doctest::Approx(92 + 8)); // as near to the second as may be
    CHECK(tight.width == doctest::Approx(100 + 65 + 60));
}
