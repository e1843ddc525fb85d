// The rows of a drawing on graphs of a few nodes.
#include "drawing/place/layers.hpp"
#include "hand.hpp"
#include <algorithm>
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

Scheme scheme_of(const std::vector<NodeKind>& kinds, const std::vector<drawing::Edge>& edges) {
    Scheme scheme;
    for (const NodeKind kind : kinds)
        scheme.add(hand::node(kind));
    scheme.edges = edges;
    return scheme;
}
std::vector<int> layers(const Layered& layered, std::size_t count) {
    std::vector<int> list;
    for (std::size_t n = 0; n < count; ++n)
        list.push_back(layered.scheme.nodes[n].layer);
    return list;
}
// Every segment leads to the next layer, every edge is a chain of segments, every port knows its segments.
void is_proper(const Layered& layered, const Scheme& from) {
    std::vector<int> pieces(from.edges.size(), 0);
    for (std::size_t s = 0; s < layered.segments.size(); ++s) {
        const Segment& segment = layered.segments[s];
        CHECK(layered.scheme.nodes[segment.to].layer == layered.scheme.nodes[segment.from].layer + 1);
        const auto lists = [&](int node, int port) {
            const auto& at = layered.at[node][port];
            return std::count(at.begin(), at.end(), static_cast<int>(s)) == 1;
        };
        CHECK(lists(segment.from, segment.from_port));
        CHECK(lists(segment.to, segment.to_port));
        ++pieces[segment.edge];
    }
    for (std::size_t e = 0; e < from.edges.size(); ++e)
        CHECK(pieces[e] == layered.scheme.nodes[from.edges[e].to].layer - layered.scheme.nodes[from.edges[e].from].layer);
    for (const drawing::Node& node : layered.scheme.nodes)
        CHECK((node.layer >= 0 && node.layer < layered.layers));
}
int labels_of(const Layered& layered, int edge) {
    int count = 0;
    for (const drawing::Node& node : layered.scheme.nodes)
        for (const Port& port : node.ports)
            count += port.label == edge;
    return count;
}

constexpr NodeKind part = NodeKind::part, point = NodeKind::point, ground = NodeKind::ground, turn = NodeKind::turn;

} // namespace

TEST_CASE("a chain lies in layers one below the other, its grounds in the last") {
    const Scheme scheme = scheme_of({part, part, ground, ground}, {hand::edge(0, 1), hand::edge(1, 2), hand::edge(0, 3)});
    const Layered layered = lay_layers(scheme, false);
    CHECK(layers(layered, 4) == std::vector<int>{0, 1, 2, 2});
    CHECK(layered.layers == 3);
    CHECK(layered.scheme.nodes.size() == 5); // one dummy where the second wire to ground passes
    CHECK(layered.scheme.nodes[4].kind == NodeKind::dummy);
    CHECK(layered.scheme.nodes[4].layer == 1);
    is_proper(layered, scheme);
}

TEST_CASE("what may lie high or low lies where its dear wires are short") {
    // 1 lies between 0 and 4, three layers apart; a wire to a point costs 3, one to a part 2.
    const Scheme to_point = scheme_of({part, part, part, part, point},
                                      {hand::edge(0, 2), hand::edge(2, 3), hand::edge(3, 4), hand::edge(0, 1), hand::edge(1, 4)});
    CHECK(layers(lay_layers(to_point, false), 5)[1] == 2); // near the point
    Scheme rail = to_point;
    rail.nodes[0].rail = true; // from a rail: 4
    CHECK(layers(lay_layers(rail, false), 5)[1] == 1);
    Scheme thick = to_point;
    thick.edges[3].thick = true; // 120
    CHECK(layers(lay_layers(thick, false), 5)[1] == 1);
    Scheme page = to_point;
    page.nodes[0].kind = NodeKind::from_page; // 6
    CHECK(layers(lay_layers(page, false), 5)[1] == 1);
    Scheme turned = to_point;
    turned.nodes[4].kind = turn; // 8 against 6
    turned.nodes[0].kind = NodeKind::from_page;
    CHECK(layers(lay_layers(turned, false), 5)[1] == 2);
    Scheme to_ground = to_point;
    to_ground.nodes[4].kind = ground; // 6 against 4
    to_ground.nodes[0].rail = true;
    CHECK(layers(lay_layers(to_ground, false), 5)[1] == 2);
}

TEST_CASE("the words of a wire stand at the pin where it ends alone, below before above") {
    const Scheme scheme = scheme_of({part, part}, {hand::edge(0, 1, 3)});
    const Layered layered = lay_layers(scheme, false);
    CHECK(layered.scheme.nodes[1].ports[0].label == 0);
    CHECK(labels_of(layered, 0) == 1);
    // Where two meet below, at the upper end.
    const Layered meeting = lay_layers(scheme_of({part, part, part}, {hand::edge(0, 2, 3), hand::edge(1, 2, 4)}), false);
    CHECK(meeting.scheme.nodes[0].ports[1].label == 0);
    CHECK(meeting.scheme.nodes[1].ports[1].label == 1);
    // A pin before a point.
    const Layered to_point = lay_layers(scheme_of({part, point}, {hand::edge(0, 1, 3)}), false);
    CHECK(to_point.scheme.nodes[0].ports[1].label == 0);
}

TEST_CASE("between two junctions a wire gets a stretch of its own for its words") {
    // 0 and 1 meet in point 2; from point 3, 4 and 5 go on; 2 -> 3 has no end alone.
    const Scheme scheme = scheme_of({part, part, point, point, part, part}, {hand::edge(0, 2), hand::edge(1, 2), hand::edge(2, 3, 7),
                                                                             hand::edge(3, 4), hand::edge(3, 5), hand::edge(2, 5)});
    Scheme doubled = scheme;
    doubled.edges.push_back(hand::edge(0, 3)); // now two end at 3 as well
    const Layered layered = lay_layers(doubled, false);
    CHECK(layers(layered, 6)[3] - layers(layered, 6)[2] == 2);
    CHECK(labels_of(layered, 2) == 1);
    is_proper(layered, doubled);
    Scheme wireless = doubled;
    wireless.edges[2].wire = none;
    CHECK(layers(lay_layers(wireless, false), 6)[3] - layers(lay_layers(wireless, false), 6)[2] == 1);
}

TEST_CASE("a wire to a ground that has several symbols has a stretch too: they may be joined") {
    Scheme scheme = scheme_of({part, part, ground, ground}, {hand::edge(0, 2, 1), hand::edge(1, 3, 2)});
    scheme.nodes[2].part = scheme.nodes[3].part = 5;
    CHECK(lay_layers(scheme, false).layers == 3);
    scheme.nodes[3].part = 6;
    CHECK(lay_layers(scheme, false).layers == 2);
}

TEST_CASE("a clamp's number goes where the words of its wire are") {
    Scheme scheme = scheme_of({part, part}, {hand::edge(0, 1, 3)});
    scheme.edges[0].checks = {4, 2};
    scheme.nodes[1].ports[0].checks = {3, 4};
    const Layered layered = lay_layers(scheme, false);
    CHECK(layered.scheme.nodes[1].ports[0].checks == std::vector<int>{2, 3, 4});
    CHECK(layered.scheme.edges[0].checks.empty());
}

TEST_CASE("cavities of one pair lie in one layer, unless one leads to the other") {
    Scheme scheme =
        scheme_of({part, NodeKind::cavity, part, part, NodeKind::cavity}, {hand::edge(0, 1), hand::edge(2, 3), hand::edge(3, 4)});
    scheme.parted = {{1, 4}};
    CHECK(layers(lay_layers(scheme, false), 5)[1] == layers(lay_layers(scheme, false), 5)[4]);
    scheme.edges.push_back(hand::edge(1, 2));
    const std::vector<int> apart = layers(lay_layers(scheme, false), 5);
    CHECK(apart[4] > apart[1]);
}

TEST_CASE("a point with nothing above it is topmost, others are not") {
    const Layered layered =
        lay_layers(scheme_of({point, part, point, turn}, {hand::edge(0, 1), hand::edge(1, 2), hand::edge(3, 2)}), false);
    CHECK(layered.scheme.nodes[0].topmost);
    CHECK_FALSE(layered.scheme.nodes[2].topmost);
    CHECK_FALSE(layered.scheme.nodes[3].topmost);
}

TEST_CASE("pressed, a layer's figures go to a neighbour where no wire is in the way") {
    // 0 -> 1 -> (point) -> 3, and a lone part 4 that a long wire keeps in the layer of the point.
    const Scheme scheme = scheme_of({part, part, point, part, part, part}, {hand::edge(0, 1), hand::edge(1, 2), hand::edge(2, 3),
                                                                            hand::edge(0, 4), hand::edge(4, 5), hand::edge(5, 3)});
    const Layered roomy = lay_layers(scheme, false), pressed = lay_layers(scheme, true);
    is_proper(roomy, scheme);
    is_proper(pressed, scheme);
    const auto layers_with_figures = [](const Layered& layered) {
        std::vector<char> tall(layered.layers, 0);
        for (const drawing::Node& node : layered.scheme.nodes)
            if (node.kind == NodeKind::part) tall[node.layer] = 1;
        return std::count(tall.begin(), tall.end(), 1);
    };
    CHECK(layers_with_figures(pressed) <= layers_with_figures(roomy));
}

TEST_CASE("generated graphs: every edge leads down, every wire with an end alone has its words once") {
    hand::Chance chance(21);
    for (int round = 0; round < 40; ++round) {
        CAPTURE(round);
        Scheme scheme;
        constexpr int count = 9;
        for (int n = 0; n < count; ++n)
            scheme.add(hand::node(chance.below(3) == 0 ? point : part));
        for (int i = 0; i < 13; ++i) {
            const int from = chance.below(count - 1);
            scheme.edges.push_back(hand::edge(from, from + 1 + chance.below(count - 1 - from), i));
        }
        for (const bool pressed : {false, true}) {
            const Layered layered = lay_layers(scheme, pressed);
            is_proper(layered, scheme);
            for (std::size_t e = 0; e < scheme.edges.size(); ++e)
                CHECK(labels_of(layered, static_cast<int>(e)) == 1);
        }
    }
}
