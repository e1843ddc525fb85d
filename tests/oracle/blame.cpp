#include "oracle/blame.hpp"
#include <algorithm>
#include <functional>

namespace oracle {
namespace {

// What a run is made of: wires, joints, bolts, fuses, contacts in whatever position.
bool carries(const Branch& branch) {
    return branch.wire != none || branch.gate == Gate::joint || branch.gate == Gate::link || branch.gate == Gate::contact ||
           (branch.gate == Gate::always && branch.element == none && branch.part != none && branch.law == Law::ohms);
}

// The branches on any way from one node to another that passes no node twice: with a branch laid between the two, those of its block.
class Blocks {
public:
    Blocks(const Loom& loom, int from, int to) : beside_(loom.nodes) {
        for (std::size_t i = 0; i < loom.branches.size(); ++i)
            if (carries(loom.branches[i])) join(loom.branches[i].a, loom.branches[i].b, static_cast<int>(i));
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
        if (!carries(each)) continue;
        const bool joint = at.metal == "joint" && std::find(each.pins.begin(), each.pins.end(), at.pin) != each.pins.end();
        const bool wire = at.wire != none && each.wire == at.wire;
        bool part = at.metal != "joint" && at.wire == none && at.part != none && each.part == at.part;
        if (part && !at.pins.empty() && each.element != none) {
            const Element& it = loom.plan.parts[each.part].elements[each.element];
            part = std::find(at.pins.begin(), at.pins.end(), it.a) != at.pins.end();
        }
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
        return plug && (plan.pins[at.pin].part == point.part || (plan.pins[at.pin].mate != none && plan.pins[plan.pins[at.pin].mate].part == point.part));
    }
    if (point.metal == "joint" || at.part == none || point.part == none) return false;
    if (!point.pins.empty()) return point.part == at.part && at.pins == point.pins;
    if (point.metal != "whole") return false;
    return point.part == at.part || plan.parts[at.part].in == point.part;
}

bool Blame::lies_between(const Point& from, const Point& to) const {
    const int a = loom_.node(from), b = loom_.node(to);
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
