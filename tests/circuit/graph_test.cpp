// What is joined to what, in the car at rest and in set-ups.
#include "circuit/graph.hpp"
#include "model/build.hpp"
#include "syntax/parse.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

Plan built(const std::string& text) {
    Sources sources;
    Findings findings;
    const auto file = sources.add("test.plan", text);
    std::vector<Tree> trees;
    trees.push_back(parse(sources, file, findings));
    Plan plan = build(sources, trees, findings);
    for (const Diagnostic& finding : findings.list())
        CHECK_MESSAGE(severity_of(finding) != Severity::error, finding.says);
    return plan;
}

const std::string fan = R"(plan FAN-01 "Fan"
battery G1 12.6 V
ground XE1
ground XE2, on engine
ground XE3
fuse F1 40 A
splice J1, joins F1.2
switch S1 30/15 closed when key on crank
relay K5 coil 86/85 85 ohm, contact 30/87/87a
module U1 supply 15, ground 31 26, output 47 pulls down 1 A
motor M3 1/2 22 A
connector X30 2 pins, mates X31
connector X21 2 pins, on M3
connector X1 60 pins, on U1
wire W1 G1.+ -> F1.1
wire W2 J1 -> S1.30
wire W3 J1 -> K5.30
wire W4 S1.15 -> K5.86
wire W5 K5.85 -> X1.47
wire W6 K5.87 -> X30.1
wire W7 X31.1 -> X21.1
wire W8 X21.2 -> X31.2
wire W9 X30.2 -> XE1
wire W10 X1.31 -> XE1
wire W11 G1.- -> XE1
wire W12 S1.15 -> X1.15
)";

// The circuit with its plan, and points by their names.
struct Bench {
    explicit Bench(const std::string& items = "")
        : plan(built(fan + (items.empty() ? "" : "setup here: " + items + "\n"))), graph(build_graph(plan.circuit, setup())) {}
    Setup setup() const { return plan.setups.empty() ? Setup{} : plan.setups.front().setup; }
    PinId pin(const std::string& name) const {
        const auto dot = name.find('.');
        const PartId part = plan.circuit.find_part(name.substr(0, dot));
        REQUIRE_MESSAGE(part != none, name);
        return plan.circuit.find_pin(part, dot == std::string::npos ? "" : name.substr(dot + 1));
    }
    NodeId end(const std::string& name) const { return graph.wire_end[pin(name)]; }
    NodeId own(const std::string& name) const { return graph.own[pin(name)]; }
    bool conducts_between(NodeId a, NodeId b) const {
        return reach(graph, std::vector{a}, [](const Edge& edge, NodeId, NodeId) { return conducts(edge); }).has(b);
    }
    bool may_conduct_between(NodeId a, NodeId b) const {
        return reach(graph, std::vector{a}, [](const Edge& edge, NodeId from, NodeId) { return may_conduct(edge, from); }).has(b);
    }
    Plan plan;
    Graph graph;
};

} // namespace

TEST_CASE("a plug's cavity is the wire end of the pin under it; crimp and part are two metals with a joint between") {
    const Bench bench;
    CHECK(bench.end("X21.1") == bench.end("M3.1"));
    CHECK(bench.end("X21.1") != bench.own("M3.1"));
    CHECK(bench.conducts_between(bench.end("X21.1"), bench.own("M3.1")));
    CHECK(bench.end("X30.1") != bench.end("X31.1"));
    CHECK(bench.conducts_between(bench.end("X30.1"), bench.end("X31.1")));
    CHECK(bench.end("K5.30") != bench.own("K5.30"));
}

TEST_CASE("a splice is one piece with all that it joins") {
    const Bench bench;
    CHECK(bench.end("J1") == bench.end("F1.2"));
    CHECK(node_name(bench.plan.circuit, bench.graph.nodes[bench.end("F1.2")]) == "J1");
    CHECK(node_name(bench.plan.circuit, bench.graph.nodes[bench.own("F1.2")]) == "part F1.2");
}

TEST_CASE("two grounds on the body are joined by it; the engine is another metal") {
    const Bench bench;
    CHECK(bench.conducts_between(bench.end("XE1"), bench.end("XE3")));
    CHECK(bench.conducts_between(bench.end("XE1"), bench.graph.body));
    CHECK_FALSE(bench.conducts_between(bench.end("XE1"), bench.end("XE2")));
    CHECK(bench.conducts_between(bench.end("XE2"), bench.graph.engine));
}

TEST_CASE("a set-up takes joints away") {
    CHECK_FALSE(Bench("X21 unplugged").conducts_between(Bench().end("X21.1"), Bench().own("M3.1")));
    CHECK_FALSE(Bench("X30 unplugged").conducts_between(Bench().end("X30.1"), Bench().end("X31.1")));
    CHECK_FALSE(Bench("X31 unplugged").conducts_between(Bench().end("X30.1"), Bench().end("X31.1")));
    CHECK_FALSE(Bench("F1 pulled").conducts_between(Bench().end("F1.1"), Bench().end("F1.2")));
    CHECK(Bench().conducts_between(Bench().end("F1.1"), Bench().end("F1.2")));
    CHECK_FALSE(Bench("G1.- disconnected").conducts_between(Bench().own("G1.-"), Bench().graph.body));
    CHECK(Bench("G1.- disconnected").conducts_between(Bench().own("G1.+"), Bench().end("F1.1")));
}

TEST_CASE("the key, outputs and bridges close what they close") {
    const Bench rest, on("key on"), called("key on, U1.47 on"), bridged("bridge K5.30 to K5.87");
    CHECK_FALSE(rest.conducts_between(rest.end("S1.30"), rest.end("S1.15")));
    CHECK(on.conducts_between(on.end("S1.30"), on.end("S1.15")));
    CHECK(rest.may_conduct_between(rest.end("S1.30"), rest.end("S1.15")));
    CHECK_FALSE(on.conducts_between(on.end("X1.47"), on.end("X1.31")));
    CHECK(called.conducts_between(called.end("X1.47"), called.end("X1.31")));
    CHECK(bridged.conducts_between(bridged.end("K5.30"), bridged.end("K5.87")));
    CHECK_FALSE(rest.conducts_between(rest.end("K5.30"), rest.end("K5.87")));
    CHECK(rest.conducts_between(rest.end("K5.30"), rest.end("K5.87a")));
}

TEST_CASE("a relay pulls in when both ends of its coil are joined to the battery") {
    Bench on("key on"), called("key on, U1.47 on"), keyless("U1.47 on");
    for (Bench* bench : {&on, &called, &keyless})
        pull_in(bench->plan.circuit, bench->graph, bench->setup());
    CHECK_FALSE(on.conducts_between(on.own("K5.30"), on.own("K5.87")));
    CHECK(called.conducts_between(called.own("K5.30"), called.own("K5.87")));
    CHECK_FALSE(called.conducts_between(called.own("K5.30"), called.own("K5.87a"))); // the break contact has opened
    CHECK_FALSE(keyless.conducts_between(keyless.own("K5.30"), keyless.own("K5.87")));
}

TEST_CASE("no way leads through both throws of a change-over contact") {
    const Bench bench;
    CHECK(bench.may_conduct_between(bench.own("K5.30"), bench.own("K5.87")));
    CHECK(bench.may_conduct_between(bench.own("K5.30"), bench.own("K5.87a")));
    CHECK_FALSE(bench.may_conduct_between(bench.own("K5.87"), bench.own("K5.87a")));
}

TEST_CASE("a load does not conduct, and a way is told edge by edge") {
    const Bench bench;
    CHECK_FALSE(bench.may_conduct_between(bench.end("X21.1"), bench.end("X21.2")));
    const Reach there =
        reach(bench.graph, std::vector{bench.own("M3.2")}, [](const Edge& edge, NodeId, NodeId) { return is_conductor(edge); });
    std::vector<std::string> wires;
    for (const int edge : there.way(bench.graph, bench.own("G1.-")))
        if (const WireId wire = bench.graph.edges[edge].wire; wire != none) wires.push_back(bench.plan.circuit.wires[wire].id);
    CHECK(wires == std::vector<std::string>{"W8", "W9", "W11"});
}

TEST_CASE("the pins of an assembly that it does not list are inside, and a bolted case is joined to its ground point") {
    const Plan plan = built(R"(plan ST-01 "Starter"
battery G1 12.6 V
ground XE2, on engine
assembly M1 pins 30 50 31, 31 on XE2
relay K2 in M1, coil 50/31 1.1 ohm, contact 30/45
motor M2 in M1, 45/31 140 A
wire W1 G1.+ -> M1.30
)");
    const Graph graph = build_graph(plan.circuit);
    const PartId starter = plan.circuit.find_part("M1");
    const PinId inside = plan.circuit.find_pin(starter, "45"), outside = plan.circuit.find_pin(starter, "30"),
                bolted = plan.circuit.find_pin(starter, "31");
    CHECK(graph.wire_end[inside] == graph.own[inside]);
    CHECK(graph.wire_end[outside] != graph.own[outside]);
    const Reach metal = reach(graph, std::vector{graph.own[bolted]}, [](const Edge& edge, NodeId, NodeId) { return is_conductor(edge); });
    CHECK(metal.has(graph.engine));
    CHECK_FALSE(metal.has(graph.body));
}

TEST_CASE("a switch stands where the set-up puts it, at first in its first position") {
    const std::string window = R"(plan WIN-01 "Window"
battery G1 12.6 V
switch S4
  at rest 31/A 31/B
  at up 30/A 31/B
wire W1 G1.+ -> S4.30
)";
    for (const std::string position : {"", "up"}) {
        const Plan plan = built(window + (position.empty() ? "" : "setup here: S4 at " + position + "\n"));
        const Graph graph = build_graph(plan.circuit, plan.setups.empty() ? Setup{} : plan.setups.front().setup);
        const PartId s4 = plan.circuit.find_part("S4");
        const auto closed = [&](const char* a, const char* b) {
            return reach(graph, std::vector{graph.own[plan.circuit.find_pin(s4, a)]},
                         [](const Edge& edge, NodeId, NodeId) { return conducts(edge); })
                .has(graph.own[plan.circuit.find_pin(s4, b)]);
        };
        CHECK(closed("31", "B"));
        CHECK(closed("30", "A") == (position == "up"));
        CHECK(closed("31", "A") == position.empty());
    }
}
