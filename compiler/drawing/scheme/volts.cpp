#include "drawing/scheme/volts.hpp"
#include "circuit/elimination.hpp"
#include "circuit/graph.hpp"
#include <cmath>

namespace loomsheet::drawing {
namespace {

// Siemens by kind of edge: what feeds stands high, what drains stands low.
double siemens(EdgeKind kind) {
    switch (kind) {
    case EdgeKind::wire: return 1 / 0.01;
    case EdgeKind::joint:
    case EdgeKind::bolt:
    case EdgeKind::rail:
    case EdgeKind::bridge: return 1 / 0.001;
    case EdgeKind::link: return 1 / 0.1;
    case EdgeKind::contact:
    case EdgeKind::driver:
    case EdgeKind::diode: return 1;
    case EdgeKind::coil: return 1 / 80.0;
    case EdgeKind::load:
    case EdgeKind::resistor:
    case EdgeKind::filament: return 1 / 20.0;
    case EdgeKind::sensor: return 1 / 200.0;
    case EdgeKind::supply: return 1 / 100.0;
    case EdgeKind::pull_up:
    case EdgeKind::input: return 1 / 1000.0;
    case EdgeKind::damper: return 1 / 5000.0;
    case EdgeKind::source: return 1 / 0.001;
    }
    return 1;
}

} // namespace

std::vector<double> volts_of_pins(const Circuit& circuit) {
    const Graph graph = build_graph(circuit);
    std::vector<loomsheet::Branch> branches;
    int ground = graph.body;
    bool grounded = false;
    for (const loomsheet::Edge& edge : graph.edges) {
        branches.push_back({edge.a, edge.b});
        grounded = grounded || edge.kind == EdgeKind::bolt;
    }
    for (const loomsheet::Edge& edge : graph.edges) // without a body the first battery's minus is down
        if (edge.kind == EdgeKind::source && !grounded) ground = edge.b, grounded = true;
    for (const NodeId metal : {graph.engine, graph.chassis})
        branches.push_back({graph.body, metal});
    const Pattern pattern(static_cast<int>(graph.nodes.size()), branches, ground, ground);
    Elimination elimination(pattern);
    for (std::size_t i = 0; i < branches.size(); ++i) {
        const bool strap = i >= graph.edges.size();
        const double g = strap ? 1000 : siemens(graph.edges[i].kind);
        const bool source = !strap && graph.edges[i].kind == EdgeKind::source;
        elimination.set(static_cast<int>(i), {g, source ? -g : 0});
    }
    elimination.eliminate();
    std::vector<double> volts(graph.nodes.size(), 0);
    elimination.solve(0, volts);
    std::vector<double> by_pin(circuit.pins.size(), 0);
    for (std::size_t pin = 0; pin < circuit.pins.size(); ++pin) {
        const NodeId own = graph.own[pin] != none ? graph.own[pin] : graph.wire_end[pin];
        if (own != none && std::isfinite(volts[own])) by_pin[pin] = volts[own];
    }
    return by_pin;
}

} // namespace loomsheet::drawing
