#include "faults/between.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

NodeId end_of(const Circuit& circuit, const Graph& graph, const PointRef& point) {
    if (const NodeId node = graph.node_of(point); node != none) return node;
    if (point.pin != none) return graph.wire_end[point.pin];
    if (point.part == none || circuit.parts[point.part].pins.empty()) return none;
    return graph.wire_end[circuit.parts[point.part].pins.front()];
}

// Edges on any way from one node to another that comes to no node twice. With a line laid between the two these are the edges of one
// block: a depth-first tree grown along that line has it as its first branch, and what can come back above the fork stays in.
class Block {
public:
    Block(const Graph& graph, const std::vector<bool>& open, NodeId from, NodeId to)
        : graph_(graph), open_(open), place_(graph.nodes.size(), none), low_(graph.nodes.size(), 0), by_(graph.nodes.size(), none) {
        place_[from] = 0, low_[from] = 0, low_[to] = 0; // the line leads back to the start
        grow(to);
        std::vector<bool> inside(graph.nodes.size());
        for (const NodeId node : order_) { // those above come first
            const NodeId above = by_[node] == none ? none : graph.edges[by_[node]].other(node);
            inside[node] = node == to || (inside[above] && low_[node] < place_[above]);
        }
        inside[from] = true;
        for (int i = 0; i < static_cast<int>(graph.edges.size()); ++i) {
            const Edge& edge = graph.edges[i];
            if (!open[i] || edge.a == edge.b || place_[edge.a] == none || place_[edge.b] == none) continue;
            if (inside[place_[edge.a] > place_[edge.b] ? edge.a : edge.b]) edges.push_back(i); // the one further down says it
        }
    }
    std::vector<int> edges;

private:
    void grow(NodeId first) {
        std::vector<std::pair<NodeId, std::size_t>> line; // a node and the next of its edges
        const auto come = [&](NodeId node, int by) {
            place_[node] = static_cast<int>(order_.size()) + 1;
            low_[node] = by == none ? 0 : place_[node];
            by_[node] = by;
            order_.push_back(node), line.emplace_back(node, 0);
        };
        come(first, none);
        while (!line.empty()) {
            const NodeId here = line.back().first;
            if (line.back().second == graph_.at[here].size()) {
                line.pop_back();
                if (!line.empty()) low_[line.back().first] = std::min(low_[line.back().first], low_[here]);
                continue;
            }
            const int index = graph_.at[here][line.back().second++];
            const NodeId there = graph_.edges[index].other(here);
            if (!open_[index] || index == by_[here] || there == here) continue;
            if (place_[there] == none)
                come(there, index);
            else
                low_[here] = std::min(low_[here], place_[there]);
        }
    }

    const Graph& graph_;
    const std::vector<bool>& open_;
    std::vector<int> place_, low_, by_; // by node: when it was come to, how far up it leads back, over which edge
    std::vector<NodeId> order_;
};

// What conducts while the contacts stand as the nearest way needs them.
std::vector<bool> open_along(const Graph& graph, const std::vector<int>& way) {
    std::vector<bool> open(graph.edges.size());
    for (std::size_t i = 0; i < graph.edges.size(); ++i) {
        const Edge& edge = graph.edges[i];
        open[i] = is_conductor(edge) && edge.kind != EdgeKind::rail;
        if (edge.kind != EdgeKind::contact) continue;
        std::uint64_t needed = ~std::uint64_t{0};
        bool taken = false;
        for (const int step : way) {
            if (graph.edges[step].kind != EdgeKind::contact || graph.edges[step].part != edge.part) continue;
            taken = true, needed &= graph.edges[step].positions;
        }
        open[i] = taken && (needed & edge.positions) != 0;
    }
    for (const int step : way)
        open[step] = true;
    return open;
}

void add_once(std::vector<Suspect>& list, const Suspect& one) {
    if (std::find(list.begin(), list.end(), one) == list.end()) list.push_back(one);
}

PartId splice_at(const Circuit& circuit, const Graph& graph, NodeId node) {
    const PinId pin = graph.nodes[node].pin; // a splice gives its name to what it joins
    const PartId part = pin == none ? PartId{none} : circuit.pins[pin].part;
    return part != none && circuit.parts[part].kind == PartKind::splice ? part : PartId{none};
}

} // namespace

std::vector<Suspect> suspects_between(const Circuit& circuit, const Graph& at_rest, const PointRef& from, const PointRef& to) {
    std::vector<Suspect> suspects;
    const NodeId a = end_of(circuit, at_rest, from), b = end_of(circuit, at_rest, to);
    if (a == none || b == none) return suspects;
    const NodeId start[] = {a};
    const Reach nearest = reach(
        at_rest, start, [](const Edge& edge, NodeId, NodeId) { return is_conductor(edge) || edge.kind == EdgeKind::contact; }, b);
    if (!nearest.has(b)) return suspects;
    const auto take_end = [&](const PointRef& end) {
        if (end.metal == Metal::joint) add_once(suspects, {none, none, end.pin});
    };
    take_end(from);
    if (a != b) {
        const std::vector<bool> open = open_along(at_rest, nearest.way(at_rest, b));
        const auto is_open = [&](const Edge& edge, NodeId, NodeId) { return bool{open[&edge - at_rest.edges.data()]}; };
        const Reach far = reach(at_rest, start, is_open);
        std::vector<int> place(at_rest.nodes.size(), 0); // of the nodes, nearest first
        for (std::size_t i = 0; i < far.order.size(); ++i)
            place[far.order[i]] = static_cast<int>(i);
        std::vector<int> edges = Block(at_rest, open, a, b).edges;
        const auto met = [&](int index) { return std::minmax(place[at_rest.edges[index].a], place[at_rest.edges[index].b]); };
        std::sort(edges.begin(), edges.end(), [&](int one, int other) {
            const std::pair<int, int> first = met(one), second = met(other);
            return first != second ? first < second : one < other;
        });
        for (const int index : edges) {
            const Edge& edge = at_rest.edges[index];
            const NodeId nearer = place[edge.a] < place[edge.b] ? edge.a : edge.b;
            if (const PartId splice = splice_at(circuit, at_rest, nearer); splice != none && nearer != a && nearer != b)
                add_once(suspects, {splice, none, none});
            if (edge.kind == EdgeKind::wire)
                add_once(suspects, {none, edge.wire, none});
            else if (edge.kind == EdgeKind::joint)
                add_once(suspects, {none, none, edge.pin});
            else if (edge.part != none)
                add_once(suspects, {edge.part, none, none});
        }
    }
    take_end(to);
    return suspects;
}

} // namespace loomsheet
