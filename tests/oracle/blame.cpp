#include "oracle/blame.hpp"
#include <algorithm>
#include <functional>

namespace oracle {
namespace {

// The nearest way, by the number of its branches; empty where nothing leads there.
std::vector<int> nearest(const Loom& loom, int from, int to) {
    std::vector<int> by(loom.nodes, none), queue{from};
    std::vector<char> met(loom.nodes);
    met[from] = 1;
    for (std::size_t next = 0; next < queue.size() && !met[to]; ++next)
        for (std::size_t i = 0; i < loom.branches.size(); ++i) {
            const Branch& each = loom.branches[i];
            if (!each.carries() || (each.a != queue[next] && each.b != queue[next])) continue;
            const int there = each.a == queue[next] ? each.b : each.a;
            if (met[there]) continue;
            met[there] = 1, by[there] = static_cast<int>(i), queue.push_back(there);
        }
    std::vector<int> way;
    for (int at = to; met[to] && at != from;) {
        way.push_back(by[at]);
        const Branch& each = loom.branches[by[at]];
        at = each.a == at ? each.b : each.a;
    }
    return way;
}

// Whether two contacts of one part are ever closed at once.
bool together(const Loom& loom, const Branch& one, const Branch& other) {
    const Part& part = loom.plan.parts[one.part];
    if (part.kind == "relay") return one.make == other.make;
    const auto closed = [&](const TableRow& position, const Branch& contact) {
        const Element& it = part.elements[contact.element];
        const std::pair<int, int> ends{it.a, contact.make ? it.b : it.c}, turned{ends.second, ends.first};
        return std::any_of(position.closed.begin(), position.closed.end(),
                           [&](const auto& each) { return each == ends || each == turned; });
    };
    return part.positions.empty() || std::any_of(part.positions.begin(), part.positions.end(),
                                                 [&](const TableRow& each) { return closed(each, one) && closed(each, other); });
}

// The nearest way from one node to another, and what lies side by side with it: every branch on a way that passes no node twice, over
// contacts that are closed with those of the nearest. With a branch laid between the two nodes, those of its block.
class Blocks {
public:
    Blocks(const Loom& loom, int from, int to) : beside_(loom.nodes) {
        const std::vector<int> way = nearest(loom, from, to);
        if (way.empty()) return;
        for (std::size_t i = 0; i < loom.branches.size(); ++i) {
            const Branch& each = loom.branches[i];
            const auto of_part = [&](int step) {
                return loom.branches[step].gate == Gate::contact && loom.branches[step].part == each.part;
            };
            const bool stands = each.gate != Gate::contact ||
                                (std::any_of(way.begin(), way.end(), of_part) && std::all_of(way.begin(), way.end(), [&](int step) {
                                     return !of_part(step) || together(loom, each, loom.branches[step]);
                                 }));
            if (each.carries() && stands) join(each.a, each.b, static_cast<int>(i));
        }
        join(from, to, laid);
        depth_.assign(loom.nodes, -1), low_.assign(loom.nodes, 0);
        visit(from, -2, 0);
    }
    const std::vector<int>& between() const { return block_; }

private:
    static constexpr int laid = -1;
    struct Edge {
        int to, branch;
    };
    std::vector<std::vector<Edge>> beside_;
    std::vector<int> depth_, low_, stack_, block_;

    void join(int a, int b, int branch) {
        if (a == b) return;
        beside_[a].push_back({b, branch}), beside_[b].push_back({a, branch});
    }
    void visit(int node, int by, int depth) {
        depth_[node] = low_[node] = depth;
        for (const Edge& edge : beside_[node]) {
            if (edge.branch == by) continue;
            if (depth_[edge.to] >= 0) {
                if (depth_[edge.to] < depth) stack_.push_back(edge.branch), low_[node] = std::min(low_[node], depth_[edge.to]);
                continue;
            }
            const std::size_t start = stack_.size();
            stack_.push_back(edge.branch);
            visit(edge.to, edge.branch, depth + 1);
            low_[node] = std::min(low_[node], low_[edge.to]);
            if (low_[edge.to] < depth) continue;
            const std::vector<int> one(stack_.begin() + static_cast<std::ptrdiff_t>(start), stack_.end());
            stack_.resize(start);
            if (std::find(one.begin(), one.end(), laid) != one.end()) block_ = one;
        }
    }
};

} // namespace

Blame::Blame(const Loom& loom, const Fault& fault) : loom_(loom), fault_(fault) {
    const Point& at = fault.at;
    for (std::size_t i = 0; i < loom.branches.size(); ++i) {
        const Branch& each = loom.branches[i];
        if (!each.carries()) continue;
        const bool joint = at.metal == "joint" && std::find(each.pins.begin(), each.pins.end(), at.pin) != each.pins.end();
        const bool wire = at.wire != none && each.wire == at.wire;
        const bool part = at.metal != "joint" && at.wire == none && at.part != none && each.part == at.part;
        if (joint || wire || part) branches_.push_back(static_cast<int>(i));
    }
}

bool Blame::names(const Point& point) const {
    const Plan& plan = loom_.plan;
    const Point& at = fault_.at;
    if (point.wire != none || at.wire != none) return point.wire == at.wire;
    if (at.metal == "joint") {
        if (point.metal == "joint") return point.pin == at.pin || plan.pins[point.pin].mate == at.pin;
        const bool plug = point.metal == "whole" && point.part != none && plan.parts[point.part].kind == "connector";
        return plug && (plan.pins[at.pin].part == point.part ||
                        (plan.pins[at.pin].mate != none && plan.pins[plan.pins[at.pin].mate].part == point.part));
    }
    if (point.metal == "joint" || at.part == none || point.part == none) return false;
    if (!point.pins.empty()) return point.part == at.part && at.pins == point.pins;
    if (point.metal != "whole") return false;
    return point.part == at.part || plan.parts[at.part].in == point.part;
}

bool Blame::lies_between(const Point& from, const Point& to) const {
    const int a = loom_.node(from), b = loom_.node(to);
    const auto end = [&](const Point& point) { return point.metal == "joint" && names(point); };
    if (end(from) || end(to)) return true;
    if (a == none || b == none || a == b) return false;
    const Blocks blocks(loom_, a, b);
    return std::any_of(branches_.begin(), branches_.end(), [&](int each) {
        return std::find(blocks.between().begin(), blocks.between().end(), each) != blocks.between().end();
    });
}

bool Blame::by(const Verdict& verdict) const {
    return std::any_of(verdict.blames.begin(), verdict.blames.end(), [&](const Point& each) { return names(each); }) ||
           std::any_of(verdict.runs.begin(), verdict.runs.end(), [&](const auto& run) { return lies_between(run.first, run.second); });
}

bool Blame::by(const Target& target) const {
    if (target.between.size() == 2) return lies_between(target.between[0], target.between[1]);
    return std::any_of(target.left.begin(), target.left.end(), [&](const Point& each) { return names(each); });
}

} // namespace oracle
