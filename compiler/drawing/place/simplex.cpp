#include "drawing/place/simplex.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

class Simplex {
public:
    Simplex(int count, const std::vector<Constraint>& constraints) : edges_(constraints), x_(count + 1, 0), at_(count + 1) {
        for (int i = 0; i < count; ++i)
            edges_.push_back({count, i, 0, 0}); // from a root, so that the graph is connected
        for (int e = 0; e < static_cast<int>(edges_.size()); ++e)
            at_[edges_[e].tail].push_back(e), at_[edges_[e].head].push_back(e);
        in_tree_.assign(edges_.size(), 0);
    }

    std::vector<int> run(const std::vector<int>& near) {
        if (near.empty()) {
            place_left();
        } else {
            std::copy(near.begin(), near.end(), x_.begin());
            x_.back() = *std::min_element(near.begin(), near.end());
        }
        make_tight_tree();
        const int most = 60 * static_cast<int>(x_.size()) + 1000; // so that it ends
        for (int round = 0; round < most; ++round) {
            number_tree();
            find_cut_values();
            const int leaving = leave_edge();
            if (leaving < 0) break;
            exchange(leaving);
        }
        const int low = *std::min_element(x_.begin(), x_.end() - 1);
        x_.pop_back();
        for (int& x : x_)
            x -= low;
        return x_;
    }

private:
    int slack(int e) const { return x_[edges_[e].head] - x_[edges_[e].tail] - edges_[e].length; }

    // Everything as far left as it may be.
    void place_left() {
        std::vector<int> waits(x_.size(), 0), ready;
        for (const Constraint& edge : edges_)
            ++waits[edge.head];
        for (std::size_t i = 0; i < x_.size(); ++i)
            if (waits[i] == 0) ready.push_back(static_cast<int>(i));
        for (std::size_t next = 0; next < ready.size(); ++next)
            for (const int e : at_[ready[next]])
                if (const Constraint& edge = edges_[e]; edge.tail == ready[next]) {
                    x_[edge.head] = std::max(x_[edge.head], x_[edge.tail] + edge.length);
                    if (--waits[edge.head] == 0) ready.push_back(edge.head);
                }
    }

    // A spanning tree of edges without slack.
    void make_tight_tree() {
        std::vector<char> inside(x_.size(), 0);
        std::vector<int> members{static_cast<int>(x_.size()) - 1};
        inside[members[0]] = 1;
        for (std::size_t next = 0; members.size() < x_.size();) {
            for (; next < members.size(); ++next)
                for (const int e : at_[members[next]]) {
                    const int other = edges_[e].tail == members[next] ? edges_[e].head : edges_[e].tail;
                    if (inside[other] || slack(e) != 0) continue;
                    inside[other] = 1, in_tree_[e] = 1;
                    members.push_back(other);
                }
            if (members.size() == x_.size()) break;
            int nearest = -1;
            for (int e = 0; e < static_cast<int>(edges_.size()); ++e)
                if (inside[edges_[e].tail] != inside[edges_[e].head] && (nearest < 0 || slack(e) < slack(nearest))) nearest = e;
            const int move = inside[edges_[nearest].head] ? -slack(nearest) : slack(nearest);
            for (const int member : members)
                x_[member] += move;
            next = 0;
        }
    }

    // Parents, and the postorder numbers of a walk through the tree.
    void number_tree() {
        const int root = static_cast<int>(x_.size()) - 1;
        parent_edge_.assign(x_.size(), -1);
        low_.assign(x_.size(), 0);
        number_.assign(x_.size(), 0);
        postorder_.clear();
        std::vector<std::pair<int, std::size_t>> path{{root, 0}};
        while (!path.empty()) {
            auto& [node, next] = path.back();
            if (next == at_[node].size()) {
                number_[node] = static_cast<int>(postorder_.size());
                postorder_.push_back(node);
                path.pop_back();
                continue;
            }
            const int e = at_[node][next++];
            if (!in_tree_[e] || e == parent_edge_[node]) continue;
            const int other = edges_[e].tail == node ? edges_[e].head : edges_[e].tail;
            parent_edge_[other] = e;
            low_[other] = static_cast<int>(postorder_.size());
            path.emplace_back(other, 0);
        }
    }
    bool is_below(int node, int top) const { return low_[top] <= number_[node] && number_[node] <= number_[top]; }

    // What the sum gains for each tree edge that is made longer by one.
    void find_cut_values() {
        std::vector<long long> pull(x_.size(), 0); // weight into the nodes below, less the weight out of them
        for (const Constraint& edge : edges_)
            pull[edge.head] += edge.weight, pull[edge.tail] -= edge.weight;
        cut_value_.assign(edges_.size(), 0);
        for (const int node : postorder_) {
            const int e = parent_edge_[node];
            if (e < 0) continue;
            const int parent = edges_[e].tail == node ? edges_[e].head : edges_[e].tail;
            cut_value_[e] = edges_[e].head == node ? pull[node] : -pull[node];
            pull[parent] += pull[node];
        }
    }

    // The next tree edge of negative cut value, searched cyclically.
    int leave_edge() {
        const int count = static_cast<int>(edges_.size());
        for (int i = 0; i < count; ++i) {
            const int e = (cursor_ + i) % count;
            if (in_tree_[e] && cut_value_[e] < 0) {
                cursor_ = e + 1;
                return e;
            }
        }
        return -1;
    }

    void exchange(int leaving) {
        const Constraint& out = edges_[leaving];
        const int under = parent_edge_[out.tail] == leaving ? out.tail : out.head;
        const bool head_below = under == out.head; // then the part below moves right
        int entering = -1;
        for (int e = 0; e < static_cast<int>(edges_.size()); ++e) {
            if (in_tree_[e]) continue;
            const bool tail_below = is_below(edges_[e].tail, under);
            if (tail_below == is_below(edges_[e].head, under) || tail_below != head_below) continue;
            if (entering < 0 || slack(e) < slack(entering)) entering = e;
        }
        if (entering < 0) { // nothing holds it: the sum has no end, which no drawing asks for
            edges_[leaving].weight = 0;
            return;
        }
        const int move = head_below ? slack(entering) : -slack(entering);
        for (int i = 0; i < static_cast<int>(x_.size()); ++i)
            if (is_below(i, under)) x_[i] += move;
        in_tree_[leaving] = 0, in_tree_[entering] = 1;
    }

    std::vector<Constraint> edges_;
    std::vector<int> x_;
    std::vector<std::vector<int>> at_; // edges by node
    std::vector<char> in_tree_;
    std::vector<int> parent_edge_, low_, number_, postorder_;
    std::vector<long long> cut_value_;
    int cursor_ = 0;
};

} // namespace

std::vector<int> network_simplex(int count, const std::vector<Constraint>& constraints, const std::vector<int>& near) {
    if (count == 0) return {};
    return Simplex(count, constraints).run(near);
}

} // namespace loomsheet::drawing
