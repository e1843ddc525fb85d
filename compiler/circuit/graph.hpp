// What is joined to what in one set-up: the circuit's metals and what lies between them. Topology only, no values.
//
// A pin has two metals: its wire end (the crimp in the cavity, the wire side of a socket, the clamp) and the part's own
// metal, with a joint between. Under a plug the wire end of M3.1 is that of X21.1; an in-line pair is two wire ends and
// a joint. A splice is one node with all that it joins; a ground point is one node, bolted to its metal. A case that sits on a
// ground point lies on that metal too, held by that point: when it is loose, neither the case nor a cable has the metal. What the
// set-up takes away (a joint, a fuse, a clamp) is an absent edge.
#pragma once
#include "model/plan.hpp"
#include <functional>
#include <span>
#include <string>
#include <vector>

namespace loomsheet {

using NodeId = int;

struct MetalNode {
    PinId pin = none;              // none for a metal of the car
    Metal metal = Metal::wire_end; // wire_end, part, or body for a metal of the car
    std::string name;              // "body", "engine", "chassis"
};

enum class EdgeKind : std::uint8_t {
    wire,
    joint,
    bolt,
    link,
    rail,
    bridge, // conduct, always; a rail joins the ground pins inside a module
    contact,
    driver, // conduct when `closed`, and may be closed at other times; a driver from a to b
    diode,  // from a to b
    coil,
    load,
    resistor,
    sensor,
    supply,
    pull_up,
    input,
    damper,
    filament, // something that limits the current
    source,   // a is +, b is -
};

struct Edge {
    EdgeKind kind = EdgeKind::wire;
    NodeId a = none, b = none;
    PartId part = none; // what it belongs to; of a joint: what comes off (a plug, a fuse, a battery clamp)
    PinId pin = none;   // of a joint: the pin that names it
    WireId wire = none;
    int element = none;                          // index into the part's elements
    int item = none;                             // bridges and test loads: index into the items of the set-up
    bool closed = true;                          // contacts and drivers: in this set-up, before any relay has moved
    std::uint64_t positions = ~std::uint64_t{0}; // contacts: a bit for each position of the part that closes it
    NodeId other(NodeId node) const { return node == a ? b : a; }
};

struct Graph {
    std::vector<MetalNode> nodes;
    std::vector<Edge> edges;
    std::vector<std::vector<int>> at;  // the edges at each node
    std::vector<NodeId> wire_end, own; // by pin
    NodeId body = none, engine = none, chassis = none;

    NodeId metal(std::string_view name) const; // "body" "engine" "chassis"
    // The node a point names; none for a joint, a wire or a whole part.
    NodeId node_of(const PointRef& point) const;
};

// The pins by which a module is grounded: those of `ground`, and a bolted case.
std::vector<PinId> ground_pins(const Part& part);
Graph build_graph(const Circuit& circuit, const Setup& setup = {});
// "X21.1", "part M3.1", "the body"
std::string node_name(const Circuit& circuit, const MetalNode& node);
// Where the battery's clamps and posts are: + is `a`, - is `b` of each source that gives its volts in this set-up.
std::vector<Edge> sources(const Circuit& circuit, const Graph& graph, const Setup& setup = {});
// Closes every relay contact whose coil may be fed in this set-up: both its ends are joined to a source by what
// conducts.
void pull_in(const Circuit& circuit, Graph& graph, const Setup& setup);

// --- what leads where ----------------------------------------------------------------------------------------------
bool is_conductor(const Edge& edge);             // wires, joints, bolts, fuses, rails, bridges
bool conducts(const Edge& edge);                 // conductors, closed contacts and drivers
bool may_conduct(const Edge& edge, NodeId from); // conductors and all contacts; drivers and diodes the right way round
bool limits_current(const Edge& edge);           // coils, loads, resistors, modules ...

using Admit = std::function<bool(const Edge&, NodeId from, NodeId to)>;

struct Reach {
    std::vector<int> by;       // by node: the edge it was reached by, `start` or `never`
    std::vector<NodeId> order; // nearest first
    static constexpr int start = -1, never = -2;
    bool has(NodeId node) const { return node != none && by[node] != never; }
    // The edges from a start to `node`, in that order.
    std::vector<int> way(const Graph& graph, NodeId node) const;
};
// Breadth first over the edges that `admit` lets through, and never through two contacts of one part, one after the
// other, that no position closes together.
Reach reach(const Graph& graph, std::span<const NodeId> from, const Admit& admit, NodeId until = none);

} // namespace loomsheet
