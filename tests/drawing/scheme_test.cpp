// A circuit as nodes and edges that lead down, on circuits of a few parts.
#include "drawing/scheme/cycles.hpp"
#include "drawing/scheme/scheme.hpp"
#include "drawing/scheme/volts.hpp"
#include "hand.hpp"
#include <algorithm>
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

const std::string car = "battery G1 12.6 V\nground XE1, at \"left wing\"\nwire W90 G1.- -> XE1\n";

struct Drawn {
    explicit Drawn(const std::string& lines, const Extract& shown = {}, const Probes& probes = {})
        : circuit(hand::circuit(lines)), volts(volts_of_pins(circuit)),
          scheme(make_scheme(circuit, volts, probes, hand::measure(), shown)) {}
    Circuit circuit;
    std::vector<double> volts;
    Scheme scheme;

    int count(NodeKind kind) const {
        return static_cast<int>(
            std::count_if(scheme.nodes.begin(), scheme.nodes.end(), [kind](const drawing::Node& node) { return node.kind == kind; }));
    }
    int node_of(const std::string& part) const {
        for (std::size_t n = 0; n < scheme.nodes.size(); ++n)
            if (scheme.nodes[n].part != none && circuit.parts[scheme.nodes[n].part].id == part) return static_cast<int>(n);
        FAIL("no node of " << part);
        return none;
    }
    const drawing::Edge& edge_of(const std::string& wire) const {
        const WireId id = circuit.find_wire(wire);
        for (const drawing::Edge& edge : scheme.edges)
            if (edge.wire == id) return edge;
        FAIL("no edge of " << wire);
        return scheme.edges.front();
    }
};

// No edge can be followed back to where it began.
bool leads_down(const Scheme& scheme) {
    std::vector<int> into(scheme.nodes.size(), 0), ready;
    for (const drawing::Edge& edge : scheme.edges)
        ++into[edge.to];
    for (std::size_t n = 0; n < into.size(); ++n)
        if (into[n] == 0) ready.push_back(static_cast<int>(n));
    for (std::size_t next = 0; next < ready.size(); ++next)
        for (const drawing::Edge& edge : scheme.edges)
            if (edge.from == ready[next] && --into[edge.to] == 0) ready.push_back(edge.to);
    return ready.size() == scheme.nodes.size();
}
// Every edge leaves a lower port and enters an upper one.
void keeps_ports(const Scheme& scheme) {
    for (const drawing::Edge& edge : scheme.edges) {
        CHECK_FALSE(scheme.nodes[edge.from].ports[edge.from_port].top);
        CHECK(scheme.nodes[edge.to].ports[edge.to_port].top);
    }
}

} // namespace

TEST_CASE("a wire leads from the part of high volts to that of low volts, whichever way it is written") {
    for (const char* wire : {"wire W2 F1.2 -> E1.1\n", "wire W2 E1.1 -> F1.2\n"}) {
        const Drawn drawn(car + "fuse F1 10 A\nlamp E1 1/2 21 W\nwire W1 G1.+ -> F1.1\n" + wire + "wire W3 E1.2 -> XE1\n");
        CHECK(drawn.edge_of("W2").from == drawn.node_of("F1"));
        CHECK(drawn.edge_of("W2").to == drawn.node_of("E1"));
        keeps_ports(drawn.scheme);
    }
}

TEST_CASE("each wire to ground has a symbol of its own, with name and place") {
    const Drawn drawn(car + "lamp E1 1/2 21 W\nwire W1 G1.+ -> E1.1\nwire W3 E1.2 -> XE1\n");
    CHECK(drawn.count(NodeKind::ground) == 2);
    const drawing::Node& ground = drawn.scheme.nodes[drawn.edge_of("W3").to];
    CHECK(ground.kind == NodeKind::ground);
    REQUIRE(ground.title.size() == 2);
    CHECK(ground.title[0].text == "XE1");
    CHECK(ground.title[0].type == Type::designator);
    CHECK(ground.title[1].text == "left wing");
}

TEST_CASE("a bolted case leads to the symbol of what it is bolted to") {
    const Drawn to_point(car + "lamp E1 1/2 21 W, 2 on XE1\nwire W1 G1.+ -> E1.1\n");
    CHECK(to_point.count(NodeKind::ground) == 2);
    CHECK(std::any_of(to_point.scheme.edges.begin(), to_point.scheme.edges.end(), [&](const drawing::Edge& edge) {
        return edge.from == to_point.node_of("E1") && to_point.scheme.nodes[edge.to].kind == NodeKind::ground;
    }));
}

TEST_CASE("a splice is one point where its wires meet; what it joins is joined without a wire") {
    const Drawn drawn(car + "splice J1 \"Joint\", joins E2.1\nlamp E1 1/2 5 W\nlamp E2 1/2 5 W\nfuse F1 10 A\n"
                            "wire W0 G1.+ -> F1.1\nwire W1 F1.2 -> J1\nwire W2 J1 -> E1.1\nwire W3 E1.2 -> XE1\nwire W4 E2.2 -> XE1\n");
    CHECK(drawn.count(NodeKind::point) == 1);
    const int point = drawn.node_of("J1");
    CHECK(drawn.edge_of("W1").to == point);
    CHECK(drawn.edge_of("W2").from == point);
    CHECK(drawn.edge_of("W1").to_port == 0);   // a point's upper side
    CHECK(drawn.edge_of("W2").from_port == 1); // its lower side
    CHECK(std::any_of(drawn.scheme.edges.begin(), drawn.scheme.edges.end(), [&](const drawing::Edge& edge) {
        return edge.from == point && edge.to == drawn.node_of("E2") && edge.wire == none;
    }));
    CHECK(drawn.scheme.nodes[point].title[0].text == "J1");
    const Drawn idle(car + "splice J1 \"Joint\"\nlamp E1 1/2 5 W\nwire W1 G1.+ -> E1.1\n");
    CHECK(idle.count(NodeKind::point) == 0);
}

TEST_CASE("two wires at the plus of a battery, which leads up, turn round in a thick rail") {
    const Drawn drawn(car + "lamp E1 1/2 5 W\nlamp E2 1/2 5 W\nwire W1 G1.+ -> E1.1\nwire W2 G1.+ -> E2.1\n"
                            "wire W3 E1.2 -> XE1\nwire W4 E2.2 -> XE1\n");
    REQUIRE(drawn.count(NodeKind::point) == 1);
    int rails = 0;
    for (const drawing::Edge& edge : drawn.scheme.edges)
        if (edge.thick) {
            ++rails;
            CHECK(drawn.scheme.nodes[edge.from].rail);
            CHECK(edge.to == drawn.node_of("G1"));
        }
    CHECK(rails == 1);
    CHECK(drawn.edge_of("W1").from == drawn.edge_of("W2").from);
    const Drawn one(car + "lamp E1 1/2 5 W\nwire W1 E1.1 -> G1.+\nwire W3 E1.2 -> XE1\n");
    CHECK(one.count(NodeKind::turn) == 1); // one wire turns above both: the words stand at the lamp
    CHECK(one.edge_of("W1").to == one.node_of("E1"));
    CHECK(one.scheme.nodes[one.edge_of("W1").from].rail);
}

TEST_CASE("wires from one lower pin to two upper ones need no point between") {
    const Drawn drawn(car + "fuse F1 10 A\nlamp E1 1/2 5 W\nlamp E2 1/2 5 W\nwire W1 G1.+ -> F1.1\n"
                            "wire W2 F1.2 -> E1.1\nwire W3 F1.2 -> E2.1\nwire W4 E1.2 -> XE1\nwire W5 E2.2 -> XE1\n");
    CHECK(drawn.count(NodeKind::point) == 0);
    CHECK(drawn.edge_of("W2").from == drawn.node_of("F1"));
    CHECK(drawn.edge_of("W3").from == drawn.node_of("F1"));
}

TEST_CASE("two lower pins turn round below, a wire from a pin to itself turns as well") {
    const Drawn drawn("lamp E1 1/2 5 W\nlamp E2 1/2 5 W\nwire W1 E1.1 -> E2.1\nwire W2 E1.2 -> E1.2\n");
    keeps_ports(drawn.scheme);
    CHECK(leads_down(drawn.scheme));
    CHECK(drawn.count(NodeKind::turn) == 2);
}

TEST_CASE("the halves of an in-line pair are one node a pin, the fed half above, and lie in one layer") {
    const Drawn drawn(car + "connector X1, 3 pins, mates X2\nlamp E1 1/2 5 W\nwire W1 G1.+ -> X2.1\n"
                            "wire W2 X1.1 -> E1.1\nwire W3 E1.2 -> X1.2\nwire W4 X2.2 -> XE1\n");
    CHECK(drawn.count(NodeKind::cavity) == 2); // the third pin has no wire
    CHECK(drawn.scheme.nodes[drawn.edge_of("W1").to].ports[0].name == "X2.1");
    CHECK(drawn.scheme.nodes[drawn.edge_of("W1").to].ports[1].name == "X1.1");
    CHECK(drawn.scheme.nodes[drawn.edge_of("W3").to].ports[0].name == "X1.2");
    REQUIRE(drawn.scheme.parted.size() == 1);
    CHECK(drawn.scheme.parted[0].size() == 2);
}

TEST_CASE("checks stand at the pins and wires that they probe, sorted, each once") {
    const std::string lines = car + "lamp E1 1/2 5 W\nconnector X1, 2 pins, on E1\nwire W1 G1.+ -> X1.1\n"
                                    "wire W3 X1.2 -> XE1\n";
    const Circuit circuit = hand::circuit(lines);
    Probes probes;
    probes.pins[hand::pin(circuit, "X1.1")] = {2, 5};
    probes.pins[hand::pin(circuit, "E1.1")] = {1, 5};
    probes.wires[circuit.find_wire("W3")] = {4};
    const Drawn drawn(lines, {}, probes);
    const drawing::Node& lamp = drawn.scheme.nodes[drawn.node_of("E1")];
    CHECK(lamp.ports[0].checks == std::vector<int>{1, 2, 5});
    CHECK(lamp.ports[1].checks.empty());
    CHECK(drawn.edge_of("W3").checks == std::vector<int>{4});
    CHECK(drawn.edge_of("W1").checks.empty());
}

TEST_CASE("a page shows its own parts and wires, and marks what goes on") {
    const std::string lines = car + "fuse F1 10 A\nlamp E1 1/2 5 W\nwire W1 G1.+ -> F1.1\nwire W2 F1.2 -> E1.1\n"
                                    "wire W3 E1.2 -> XE1\n";
    const Circuit circuit = hand::circuit(lines);
    Extract shown;
    shown.parts.assign(circuit.parts.size(), 0), shown.wires.assign(circuit.wires.size(), 0);
    shown.parts[circuit.find_part("E1")] = 1;
    shown.wires[circuit.find_wire("W2")] = shown.wires[circuit.find_wire("W3")] = 1;
    shown.from[hand::pin(circuit, "F1.2")] = "F1.2\nfrom 1";
    const Drawn drawn(lines, shown);
    CHECK(drawn.count(NodeKind::part) == 1);
    CHECK(drawn.count(NodeKind::ground) == 1);
    CHECK(drawn.count(NodeKind::point) == 1);
    REQUIRE(drawn.count(NodeKind::from_page) == 1);
    for (const drawing::Node& node : drawn.scheme.nodes)
        if (node.kind == NodeKind::from_page) {
            REQUIRE(node.title.size() == 2);
            CHECK(node.title[0].text == "F1.2");
            CHECK(node.title[0].type == Type::small_bold);
            CHECK(node.title[1].text == "from 1");
            CHECK(node.title[1].type == Type::small);
            CHECK(node.incoming);
        }
    Extract onward = shown;
    onward.from.clear();
    onward.to[hand::pin(circuit, "E1.2")] = "E1.2\nto 3";
    const Drawn leaving(lines, onward);
    CHECK(leaving.count(NodeKind::to_page) == 1);
    CHECK(leaving.count(NodeKind::from_page) == 0);
}

TEST_CASE("cycles are cut with two turns, and nothing else is") {
    Scheme ring;
    for (int i = 0; i < 3; ++i)
        ring.add(hand::node(NodeKind::part));
    ring.nodes[1].ports[0].volts = 1; // the walk begins here
    ring.edges = {hand::edge(0, 1, 7), hand::edge(1, 2, 8), hand::edge(2, 0, 9)};
    remove_cycles(ring);
    CHECK(leads_down(ring));
    CHECK(ring.nodes.size() == 5);
    CHECK(ring.edges.size() == 5);
    keeps_ports(ring);
    // 0 -> 1 leads back up to where the walk began: its wire keeps its upper end and turns round below it.
    CHECK(ring.edges[0].from == 0);
    CHECK(ring.nodes[ring.edges[0].to].kind == NodeKind::turn);
    CHECK(ring.edges[0].wire == 7);
    CHECK(ring.edges[3].to == 1);
    CHECK(ring.edges[3].wire == none);
    CHECK(ring.edges[4].to == ring.edges[0].to);
    CHECK(ring.edges[4].from == ring.edges[3].from);

    Scheme diamond;
    for (int i = 0; i < 4; ++i)
        diamond.add(hand::node(NodeKind::part));
    diamond.edges = {hand::edge(0, 1), hand::edge(0, 2), hand::edge(1, 3), hand::edge(2, 3)};
    remove_cycles(diamond);
    CHECK(diamond.nodes.size() == 4);
    CHECK(diamond.edges.size() == 4);
}

TEST_CASE("generated graphs have no cycle left") {
    hand::Chance chance(11);
    for (int round = 0; round < 50; ++round) {
        Scheme scheme;
        for (int i = 0; i < 8; ++i) {
            scheme.add(hand::node(NodeKind::part));
            scheme.nodes.back().ports[0].volts = chance.below(10);
        }
        for (int i = 0; i < 14; ++i) {
            const int from = chance.below(8), to = (from + 1 + chance.below(7)) % 8;
            scheme.edges.push_back(hand::edge(from, to));
        }
        remove_cycles(scheme);
        CHECK(leads_down(scheme));
        keeps_ports(scheme);
    }
}
