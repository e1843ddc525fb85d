#include "drawing/place/layers.hpp"
#include "drawing/place/simplex.hpp"
#include <algorithm>
#include <numeric>

namespace loomsheet::drawing {
namespace {

// How dearly a wire's length counts (tried on circuits of cars).
int weight_of(const Scheme& scheme, const Edge& edge) {
    const Node &from = scheme.nodes[edge.from], &to = scheme.nodes[edge.to];
    if (edge.thick) return 120;
    if (from.kind == NodeKind::turn || to.kind == NodeKind::turn) return 8;
    if (to.kind == NodeKind::to_page || from.kind == NodeKind::from_page) return 6;
    if (to.kind == NodeKind::ground) return 6;
    if (from.rail) return 4;
    if (to.kind == NodeKind::point) return 3;
    return 2;
}

class LayerMaker {
public:
    LayerMaker(Scheme scheme, bool pressed) : pressed_(pressed) { made_.scheme = std::move(scheme); }

    Layered make() {
        count_ends();
        join_cavities();
        rank();
        split();
        made_.list_segments();
        return std::move(made_);
    }

private:
    Scheme& scheme() { return made_.scheme; }
    int& ends(int node, int port) { return ends_[node][port]; }

    void count_ends() {
        ends_.resize(scheme().nodes.size());
        for (std::size_t n = 0; n < scheme().nodes.size(); ++n)
            ends_[n].assign(scheme().nodes[n].ports.size(), 0);
        for (const Edge& edge : scheme().edges)
            ++ends(edge.from, edge.from_port), ++ends(edge.to, edge.to_port);
        for (std::size_t n = 0; n < scheme().nodes.size(); ++n)
            scheme().nodes[n].topmost = scheme().nodes[n].kind == NodeKind::point && ends_[n][0] == 0;
    }

    // Cavities of one pair share a layer, each that may without a circle.
    void join_cavities() {
        group_.resize(scheme().nodes.size());
        std::iota(group_.begin(), group_.end(), 0);
        for (const std::vector<int>& pair : scheme().parted)
            for (std::size_t i = 1; i < pair.size(); ++i) {
                const int one = group_[pair[0]], other = group_[pair[i]];
                if (one == other || leads(one, other) || leads(other, one)) continue;
                std::replace(group_.begin(), group_.end(), other, one);
            }
    }
    bool leads(int from, int to) {
        std::vector<char> seen(scheme().nodes.size(), 0);
        std::vector<int> next{from};
        seen[from] = 1;
        while (!next.empty()) {
            const int here = next.back();
            next.pop_back();
            for (const Edge& edge : scheme().edges) {
                if (group_[edge.from] != here) continue;
                const int there = group_[edge.to];
                if (there == to) return true;
                if (!seen[there]) seen[there] = 1, next.push_back(there);
            }
        }
        return false;
    }

    // Words find room only where a wire has a stretch of its own.
    bool needs_stretch(const Edge& edge) {
        if (edge.wire == none) return false;
        if (const Node& to = scheme().nodes[edge.to]; to.kind == NodeKind::ground && grounds_of(to.part) > 1) return true; // may be joined
        return (ends(edge.from, edge.from_port) > 1 || is_turn(edge.from)) && (ends(edge.to, edge.to_port) > 1 || is_turn(edge.to));
    }
    long grounds_of(PartId part) {
        return std::count_if(scheme().nodes.begin(), scheme().nodes.end(),
                             [part](const Node& node) { return node.kind == NodeKind::ground && node.part == part; });
    }
    bool is_turn(int node) { return scheme().nodes[node].kind == NodeKind::turn; }

    void rank() {
        const int nodes = static_cast<int>(scheme().nodes.size()), sink = nodes;
        std::vector<Constraint> constraints;
        for (const Edge& edge : scheme().edges)
            constraints.push_back({group_[edge.from], group_[edge.to], needs_stretch(edge) ? 2 : 1, weight_of(scheme(), edge)});
        for (int n = 0; n < nodes; ++n) {
            const NodeKind kind = scheme().nodes[n].kind;
            const bool foot = kind == NodeKind::ground;
            constraints.push_back({group_[n], sink, 0, foot ? 1000 : 0});
        }
        const std::vector<int> layer = network_simplex(nodes + 1, constraints);
        for (int n = 0; n < nodes; ++n)
            scheme().nodes[n].layer = layer[group_[n]];
        if (pressed_) press();
        made_.layers = 0;
        for (const Node& node : scheme().nodes)
            made_.layers = std::max(made_.layers, node.layer + 1);
    }

    bool is_tall(int node) {
        const NodeKind kind = scheme().nodes[node].kind;
        return kind == NodeKind::part || kind == NodeKind::box || kind == NodeKind::cavity;
    }
    // Compaction: a layer whose parts all find room in a neighbouring one that has parts gives them to it; it is then
    // as high as its words.
    void press() {
        int layers = 0;
        for (const Node& node : scheme().nodes)
            layers = std::max(layers, node.layer + 1);
        for (int layer = 1; layer + 1 < layers; ++layer)
            if (!shift(layer, -1)) shift(layer, 1);
    }
    bool shift(int layer, int by) {
        std::vector<char> moves(scheme().nodes.size(), 0);
        bool any = false, meets = false;
        for (std::size_t n = 0; n < moves.size(); ++n) {
            if (!is_tall(static_cast<int>(n))) continue;
            if (scheme().nodes[n].layer == layer) moves[n] = 1, any = true;
            meets = meets || scheme().nodes[n].layer == layer + by;
        }
        if (!any || !meets) return false;
        for (const Edge& edge : scheme().edges) {
            if (moves[edge.from] == moves[edge.to]) continue;
            const int from = scheme().nodes[edge.from].layer + (moves[edge.from] ? by : 0),
                      to = scheme().nodes[edge.to].layer + (moves[edge.to] ? by : 0);
            if (to - from < (needs_stretch(edge) ? 2 : 1)) return false;
        }
        for (std::size_t n = 0; n < moves.size(); ++n)
            if (moves[n]) scheme().nodes[n].layer += by;
        return true;
    }

    void split() {
        const std::size_t edges = scheme().edges.size();
        for (std::size_t e = 0; e < edges; ++e) {
            const Edge edge = scheme().edges[e];
            const int index = static_cast<int>(e);
            const int first = scheme().nodes[edge.from].layer, last = scheme().nodes[edge.to].layer;
            int from = edge.from, from_port = edge.from_port;
            std::vector<int> dummies;
            for (int layer = first + 1; layer < last; ++layer) {
                Node dummy;
                dummy.kind = NodeKind::dummy;
                dummy.layer = layer;
                dummy.ports = {bare_port(true), bare_port(false)};
                const int made = static_cast<int>(scheme().nodes.size());
                scheme().nodes.push_back(std::move(dummy));
                made_.segments.push_back({from, from_port, made, 0, index});
                dummies.push_back(made);
                from = made, from_port = 1;
            }
            made_.segments.push_back({from, from_port, edge.to, edge.to_port, index});
            if (edge.wire != none) place_label(edge, index, dummies);
        }
    }

    void place_label(const Edge& edge, int index, const std::vector<int>& dummies) {
        const auto is_pin = [&](int node) { return scheme().nodes[node].kind != NodeKind::point && !is_turn(node); };
        const bool foot = ends(edge.to, edge.to_port) == 1 && !is_turn(edge.to);
        const bool head = ends(edge.from, edge.from_port) == 1 && !is_turn(edge.from);
        const auto write_at = [&](Port& port) { // the clamp goes where its words are
            port.label = index;
            port.checks.insert(port.checks.end(), edge.checks.begin(), edge.checks.end());
            std::sort(port.checks.begin(), port.checks.end());
            port.checks.erase(std::unique(port.checks.begin(), port.checks.end()), port.checks.end());
            scheme().edges[index].checks.clear();
        };
        if (foot && (is_pin(edge.to) || !head))
            write_at(scheme().nodes[edge.to].ports[edge.to_port]);
        else if (head)
            write_at(scheme().nodes[edge.from].ports[edge.from_port]);
        else if (!dummies.empty())
            scheme().nodes[best_dummy(dummies)].ports[0].label = index;
    }
    // Beside boxes there is height anyway.
    int best_dummy(const std::vector<int>& dummies) {
        for (const int dummy : dummies)
            for (const Node& node : scheme().nodes)
                if (node.layer == scheme().nodes[dummy].layer && (node.kind == NodeKind::part || node.kind == NodeKind::box)) return dummy;
        return dummies.front();
    }

    bool pressed_;
    Layered made_;
    std::vector<std::vector<int>> ends_;
    std::vector<int> group_;
};

} // namespace

void Layered::list_segments() {
    at.assign(scheme.nodes.size(), {});
    for (std::size_t n = 0; n < scheme.nodes.size(); ++n)
        at[n].resize(scheme.nodes[n].ports.size());
    for (std::size_t s = 0; s < segments.size(); ++s) {
        at[segments[s].from][segments[s].from_port].push_back(static_cast<int>(s));
        at[segments[s].to][segments[s].to_port].push_back(static_cast<int>(s));
    }
}

Layered lay_layers(Scheme scheme, bool pressed) { return LayerMaker(std::move(scheme), pressed).make(); }

} // namespace loomsheet::drawing
