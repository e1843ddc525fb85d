#include "drawing/simplex.hpp"
#include <algorithm>
#include <limits>

namespace loomsheet::drawing {
namespace {

class Simplex {
public:
    Simplex(int count, const std::vector<Spring>& springs)
        : springs_(springs), x_(count + 1, 0), at_(count + 1), in_tree_() {
        for (int i = 0; i < count; ++i)
            springs_.push_back({count, i, 0, 0}); // so that all hangs together
        for (int s = 0; s < static_cast<int>(springs_.size()); ++s)
            at_[springs_[s].from].push_back(s), at_[springs_[s].to].push_back(s);
        in_tree_.assign(springs_.size(), 0);
    }

    std::vector<int> run(const std::vector<int>& near) {
        if (near.empty()) {
            start();
        } else {
            std::copy(near.begin(), near.end(), x_.begin());
            x_.back() = *std::min_element(near.begin(), near.end());
        }
        grow();
        const int most = 60 * static_cast<int>(x_.size()) + 1000;
        for (int round = 0; round < most; ++round) {
            hang();
            weigh();
            const int leaving = worst();
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
    int slack(int s) const { return x_[springs_[s].to] - x_[springs_[s].from] - springs_[s].least; }

    // Everything as far left as it may be.
    void start() {
        std::vector<int> waits(x_.size(), 0), ready;
        for (const Spring& s : springs_)
            ++waits[s.to];
        for (std::size_t i = 0; i < x_.size(); ++i)
            if (waits[i] == 0) ready.push_back(static_cast<int>(i));
        for (std::size_t next = 0; next < ready.size(); ++next)
            for (const int s : at_[ready[next]])
                if (const Spring& spring = springs_[s]; spring.from == ready[next]) {
                    x_[spring.to] = std::max(x_[spring.to], x_[spring.from] + spring.least);
                    if (--waits[spring.to] == 0) ready.push_back(spring.to);
                }
    }

    // A tree of springs without slack.
    void grow() {
        std::vector<char> inside(x_.size(), 0);
        std::vector<int> members{static_cast<int>(x_.size()) - 1};
        inside[members[0]] = 1;
        for (std::size_t next = 0; members.size() < x_.size();) {
            for (; next < members.size(); ++next)
                for (const int s : at_[members[next]]) {
                    const int other = springs_[s].from == members[next] ? springs_[s].to : springs_[s].from;
                    if (inside[other] || slack(s) != 0) continue;
                    inside[other] = 1, in_tree_[s] = 1;
                    members.push_back(other);
                }
            if (members.size() == x_.size()) break;
            int nearest = -1;
            for (int s = 0; s < static_cast<int>(springs_.size()); ++s)
                if (inside[springs_[s].from] != inside[springs_[s].to] && (nearest < 0 || slack(s) < slack(nearest)))
                    nearest = s;
            const int move = inside[springs_[nearest].to] ? -slack(nearest) : slack(nearest);
            for (const int member : members)
                x_[member] += move;
            next = 0;
        }
    }

    // Parents, and the order of leaving a walk through the tree.
    void hang() {
        const int root = static_cast<int>(x_.size()) - 1;
        above_.assign(x_.size(), -1);
        first_.assign(x_.size(), 0);
        last_.assign(x_.size(), 0);
        order_.clear();
        std::vector<std::pair<int, std::size_t>> path{{root, 0}};
        first_[root] = 0;
        while (!path.empty()) {
            auto& [node, next] = path.back();
            if (next == at_[node].size()) {
                last_[node] = static_cast<int>(order_.size());
                order_.push_back(node);
                path.pop_back();
                continue;
            }
            const int s = at_[node][next++];
            if (!in_tree_[s] || s == above_[node]) continue;
            const int other = springs_[s].from == node ? springs_[s].to : springs_[s].from;
            above_[other] = s;
            first_[other] = static_cast<int>(order_.size());
            path.emplace_back(other, 0);
        }
    }
    bool below(int node, int top) const { return first_[top] <= last_[node] && last_[node] <= last_[top]; }

    // What the sum gains for each tree spring that is stretched by one.
    void weigh() {
        std::vector<long long> pull(x_.size(), 0); // weight into the nodes below, less the weight out of them
        for (const Spring& s : springs_)
            pull[s.to] += s.weight, pull[s.from] -= s.weight;
        gain_.assign(springs_.size(), 0);
        for (const int node : order_) {
            const int s = above_[node];
            if (s < 0) continue;
            const int parent = springs_[s].from == node ? springs_[s].to : springs_[s].from;
            gain_[s] = springs_[s].to == node ? pull[node] : -pull[node];
            pull[parent] += pull[node];
        }
    }

    int worst() {
        const int count = static_cast<int>(springs_.size());
        for (int i = 0; i < count; ++i) {
            const int s = (cursor_ + i) % count;
            if (in_tree_[s] && gain_[s] < 0) {
                cursor_ = s + 1;
                return s;
            }
        }
        return -1;
    }

    void exchange(int leaving) {
        const Spring& out = springs_[leaving];
        const int under = above_[out.from] == leaving ? out.from : out.to;
        const bool head_below = under == out.to; // then the part below moves right
        int entering = -1;
        for (int s = 0; s < static_cast<int>(springs_.size()); ++s) {
            if (in_tree_[s]) continue;
            const bool from_below = below(springs_[s].from, under), to_below = below(springs_[s].to, under);
            if (from_below == to_below || from_below != head_below) continue;
            if (entering < 0 || slack(s) < slack(entering)) entering = s;
        }
        if (entering < 0) { // nothing holds it: the sum has no end, which no drawing asks for
            gain_[leaving] = 0;
            springs_[leaving].weight = 0;
            return;
        }
        const int move = head_below ? slack(entering) : -slack(entering);
        for (std::size_t i = 0; i < x_.size(); ++i)
            if (below(static_cast<int>(i), under)) x_[i] += move;
        in_tree_[leaving] = 0, in_tree_[entering] = 1;
    }

    std::vector<Spring> springs_;
    std::vector<int> x_;
    std::vector<std::vector<int>> at_;
    std::vector<char> in_tree_;
    std::vector<int> above_, first_, last_, order_;
    std::vector<long long> gain_;
    int cursor_ = 0;
};

} // namespace

std::vector<int> relax(int count, const std::vector<Spring>& springs, const std::vector<int>& near) {
    if (count == 0) return {};
    return Simplex(count, springs).run(near);
}

} // namespace loomsheet::drawing
