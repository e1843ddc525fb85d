#include "circuit/elimination.hpp"
#include <algorithm>
#include <cstdint>
#include <functional>
#include <numeric>
#include <queue>
#include <utility>

namespace loomsheet {

Pattern::Pattern(int nodes, std::span<const Branch> branches, int red, int black) : red_(red), black_(black), place_(nodes), below_(nodes) {
    choose_order(branches);
    find_fill(branches);
    lay_fronts(branches);
    below_.clear();
}

Pattern::Pattern(const Pattern& like, std::span<const Branch> branches)
    : red_(like.red_), black_(like.black_), order_(like.order_), place_(like.place_), below_(order_.size()) {
    find_fill(branches);
    lay_fronts(branches);
    below_.clear();
}

void Pattern::choose_order(std::span<const Branch> branches) {
    const int nodes = static_cast<int>(place_.size());
    std::vector<std::vector<int>> near(nodes); // sorted
    const auto join = [&](int a, int b) {
        const auto at = std::lower_bound(near[a].begin(), near[a].end(), b);
        if (at == near[a].end() || *at != b) near[a].insert(at, b);
    };
    for (const Branch& branch : branches)
        if (branch.a != branch.b) join(branch.a, branch.b), join(branch.b, branch.a);

    // A chain is cheap to shorten anywhere: so its ends do not go before its middle, and the tree stays flat.
    std::vector<int> height(nodes, 0);
    // By rank, the least first; what has changed since it was put in is there again, and is passed over the first time.
    using Rank = std::pair<std::uint64_t, std::uint64_t>;
    const auto rank = [&](int node) {
        const std::uint64_t degree = near[node].size();
        return Rank{std::max(degree, std::uint64_t{2}) << 32 | static_cast<std::uint32_t>(height[node]),
                    degree << 32 | static_cast<std::uint32_t>(node)};
    };
    const auto is_port = [&](int node) { return node == red_ || node == black_; };
    std::vector<Rank> first;
    for (int node = 0; node < nodes; ++node)
        if (!is_port(node)) first.push_back(rank(node));
    std::priority_queue<Rank, std::vector<Rank>, std::greater<>> waiting(std::greater<>(), std::move(first));

    std::vector<char> gone(nodes, 0);
    const auto take = [&](int node) {
        gone[node] = 1;
        place_[node] = static_cast<int>(order_.size());
        order_.push_back(node);
        const std::vector<int> left = std::move(near[node]);
        for (const int other : left) {
            near[other].erase(std::lower_bound(near[other].begin(), near[other].end(), node));
            for (const int third : left)
                if (third != other) join(other, third);
            height[other] = std::max(height[other], height[node] + 1);
            if (!is_port(other)) waiting.push(rank(other));
        }
    };
    while (!waiting.empty()) {
        const Rank least = waiting.top();
        waiting.pop();
        const int node = static_cast<int>(least.second & 0xffffffff);
        if (!gone[node] && rank(node) == least) take(node);
    }
    if (red_ != black_ && red_ >= 0) take(red_);
    if (black_ >= 0) take(black_);
}

// The neighbours that each node has when it goes: its own that go later, and those that fell to it when an earlier one went.
void Pattern::find_fill(std::span<const Branch> branches) {
    for (const Branch& branch : branches)
        if (branch.a != branch.b) {
            const auto [first, second] = std::minmax(place_[branch.a], place_[branch.b]);
            below_[first].push_back(second);
        }
    for (std::vector<int>& after : below_) {
        std::sort(after.begin(), after.end());
        after.erase(std::unique(after.begin(), after.end()), after.end());
        if (after.size() < 2) continue;
        std::vector<int>& heir = below_[after.front()];
        heir.insert(heir.end(), after.begin() + 1, after.end());
    }
}

namespace {
// The pair (i, j), i < j, of a front's neighbours: after its `degree` own entries, row by row.
int pair_at(int degree, int i, int j) { return degree + i * degree - i * (i + 1) / 2 + (j - i - 1); }
} // namespace

void Pattern::lay_fronts(std::span<const Branch> branches) {
    const int nodes = static_cast<int>(place_.size());
    fronts_.resize(nodes);
    std::vector<std::vector<int>> children(nodes);
    for (int place = 0; place < nodes; ++place) {
        Front& front = fronts_[place];
        front.degree = static_cast<int>(below_[place].size());
        front.entries = entries_;
        front.neighbours = static_cast<int>(neighbours_.size());
        entries_ += front.degree + front.degree * (front.degree - 1) / 2;
        neighbours_.insert(neighbours_.end(), below_[place].begin(), below_[place].end());
        (front.degree ? joined_ : alone_).push_back(place);
        if (front.degree == 0) continue;
        front.parent = below_[place].front();
        children[front.parent].push_back(place);
    }
    for (int place = 0; place < nodes; ++place) {
        fronts_[place].children = static_cast<int>(children_.size());
        fronts_[place].child_count = static_cast<int>(children[place].size());
        children_.insert(children_.end(), children[place].begin(), children[place].end());
    }
    const auto neighbour_at = [&](int place, int other) {
        const std::vector<int>& list = below_[place];
        return static_cast<int>(std::lower_bound(list.begin(), list.end(), other) - list.begin());
    };
    for (int place = 0; place < nodes; ++place) { // where each pair of a child lies in its parent's front
        Front& front = fronts_[place];
        front.targets = static_cast<int>(targets_.size());
        for (int i = 0; i < front.degree; ++i)
            for (int j = i + 1; j < front.degree; ++j) {
                const Front& parent = fronts_[front.parent];
                const int second = neighbour_at(front.parent, below_[place][j]);
                const int at = i == 0 ? second : pair_at(parent.degree, neighbour_at(front.parent, below_[place][i]), second);
                targets_.push_back(parent.entries + at);
            }
    }
    in_entry_.assign(entries_ + 1, 0);
    slot_.assign(branches.size(), -1), first_.assign(branches.size(), -1), turned_.assign(branches.size(), 0);
    for (std::size_t i = 0; i < branches.size(); ++i) {
        if (branches[i].a == branches[i].b) continue;
        const int a = place_[branches[i].a], b = place_[branches[i].b];
        turned_[i] = b < a;
        first_[i] = std::min(a, b);
        slot_[i] = fronts_[first_[i]].entries + neighbour_at(first_[i], std::max(a, b));
        ++in_entry_[slot_[i]];
    }
    // Counts become ends, and these beginnings while the list is filled from the back.
    std::partial_sum(in_entry_.begin(), in_entry_.end(), in_entry_.begin());
    branch_list_.resize(in_entry_.back());
    for (int i = static_cast<int>(branches.size()) - 1; i >= 0; --i)
        if (slot_[i] >= 0) branch_list_[--in_entry_[slot_[i]]] = i;
}

int Pattern::way_of(int branch) const {
    int count = 0;
    for (int place = first_[branch]; place >= 0; place = fronts_[place].parent)
        ++count;
    return count;
}

Elimination::Elimination(const Pattern& pattern)
    : pattern_(&pattern), given_(pattern.slot_.size()), entry_(pattern.entries_), pivot_(pattern.order_.size()),
      marked_(pattern.order_.size()), put_in_(pattern.entries_) {}

void Elimination::eliminate_node(int place) {
    const Pattern::Front& front = pattern_->fronts_[place];
    const int degree = front.degree;
    Admittance* const own = entry_.data() + front.entries;
    for (int i = 0; i < degree; ++i) {
        Admittance sum;
        const int entry = front.entries + i;
        for (int at = pattern_->in_entry_[entry]; at < pattern_->in_entry_[entry + 1]; ++at) {
            const int branch = pattern_->branch_list_[at];
            sum.g += given_[branch].g;
            sum.f += pattern_->turned_[branch] ? -given_[branch].f : given_[branch].f;
        }
        own[i] = sum;
    }
    std::fill(own + degree, own + degree + degree * (degree - 1) / 2, Admittance{});
    for (int c = 0; c < front.child_count; ++c) {
        const Pattern::Front& child = pattern_->fronts_[pattern_->children_[front.children + c]];
        const Admittance* pair = entry_.data() + child.entries + child.degree;
        const int* target = pattern_->targets_.data() + child.targets;
        for (int left = child.degree * (child.degree - 1) / 2; left > 0; --left, ++pair, ++target) {
            entry_[*target].g += pair->g;
            entry_[*target].f += pair->f;
        }
    }
    double sum = 0;
    for (int i = 0; i < degree; ++i)
        sum += own[i].g;
    pivot_[place] = sum;
    if (sum == 0) return;
    Admittance* pair = own + degree;
    for (int i = 0; i + 1 < degree; ++i) {
        const double share = own[i].g / sum, driven = own[i].f / sum;
        for (int j = i + 1; j < degree; ++j, ++pair) {
            pair->g += share * own[j].g;
            pair->f += share * own[j].f - driven * own[j].g;
        }
    }
}

void Elimination::eliminate() {
    for (const int place : pattern_->joined_)
        eliminate_node(place);
}

// Its way to the port, as far as it is not on the path yet.
void Elimination::mark(int branch) {
    for (int place = pattern_->first_[branch]; place >= 0 && !marked_[place]; place = pattern_->fronts_[place].parent)
        marked_[place] = 1, path_.push_back(place);
}

void Elimination::update(std::span<const int> branches) {
    path_.clear();
    for (const int branch : branches)
        mark(branch);
    if (branches.size() > 1) std::sort(path_.begin(), path_.end());
    for (const int place : path_)
        marked_[place] = 0, eliminate_node(place);
}

Admittance Elimination::port() const {
    if (pattern_->red_ == pattern_->black_ || pattern_->red_ < 0) return {};
    const Pattern::Front& front = pattern_->fronts_[pattern_->place_[pattern_->red_]];
    return front.degree ? entry_[front.entries] : Admittance{};
}

// From the port back to where the elimination began; `amps` of a place and its entry are what the EMFs drive there.
template <class Amps>
void Elimination::back(double red_volts, std::span<double> volts, const Amps& amps) const {
    for (const int place : pattern_->alone_)
        volts[pattern_->order_[place]] = 0;
    if (pattern_->red_ >= 0 && pattern_->red_ != pattern_->black_) volts[pattern_->red_] = red_volts;
    for (auto at = pattern_->joined_.rbegin(); at != pattern_->joined_.rend(); ++at) {
        const int place = *at, node = pattern_->order_[place];
        if (node == pattern_->red_ && node != pattern_->black_) continue;
        if (node == pattern_->black_ || pivot_[place] == 0) {
            volts[node] = 0;
            continue;
        }
        const Pattern::Front& front = pattern_->fronts_[place];
        double sum = 0;
        for (int i = 0; i < front.degree; ++i) {
            const int entry = front.entries + i;
            sum += entry_[entry].g * volts[pattern_->order_[pattern_->neighbours_[front.neighbours + i]]];
            sum -= amps(place, entry);
        }
        volts[node] = sum / pivot_[place];
    }
}

void Elimination::solve(double red_volts, std::span<double> volts, bool passive) const {
    if (passive)
        back(red_volts, volts, [](int, int) { return 0.0; });
    else
        back(red_volts, volts, [&](int, int entry) { return entry_[entry].f; });
}

void Elimination::answer(std::span<const Along> along, double siemens, std::span<double> volts) {
    path_.clear();
    for (const Along& each : along)
        mark(each.branch);
    std::sort(path_.begin(), path_.end());
    for (const int place : path_) {
        const Pattern::Front& front = pattern_->fronts_[place];
        std::fill_n(put_in_.begin() + front.entries, front.degree + front.degree * (front.degree - 1) / 2, 0.0);
    }
    for (const Along& each : along)
        if (const int slot = pattern_->slot_[each.branch]; slot >= 0)
            put_in_[slot] -= pattern_->turned_[each.branch] ? -each.weight : each.weight;
    for (const int place : path_) { // as `eliminate_node`, of the amperes only; what lies beside the path has none
        const Pattern::Front& front = pattern_->fronts_[place];
        if (pivot_[place] == 0 || front.degree < 2) continue;
        const Admittance* const own = entry_.data() + front.entries;
        const double* const put = put_in_.data() + front.entries;
        const int* target = pattern_->targets_.data() + front.targets;
        const double* pair = put + front.degree;
        for (int i = 0; i + 1 < front.degree; ++i) {
            const double share = own[i].g / pivot_[place], driven = put[i] / pivot_[place];
            for (int j = i + 1; j < front.degree; ++j, ++pair, ++target)
                put_in_[*target] += share * put[j] - driven * own[j].g + *pair;
        }
    }
    double red_volts = 0;
    if (pattern_->red_ >= 0 && pattern_->red_ != pattern_->black_) {
        const int place = pattern_->place_[pattern_->red_];
        const Pattern::Front& front = pattern_->fronts_[place];
        const double all = (front.degree ? entry_[front.entries].g : 0) + siemens;
        if (all > 0 && front.degree && marked_[place]) red_volts = -put_in_[front.entries] / all;
    }
    back(red_volts, volts, [&](int place, int entry) { return marked_[place] ? put_in_[entry] : 0.0; });
    for (const int place : path_)
        marked_[place] = 0;
}

void Elimination::islands(std::span<int> island) const {
    for (int place = static_cast<int>(pivot_.size()) - 1; place >= 0; --place) {
        const int node = pattern_->order_[place];
        island[node] = node;
        const Pattern::Front& front = pattern_->fronts_[place];
        for (int i = 0; i < front.degree; ++i)
            if (entry_[front.entries + i].g != 0) {
                island[node] = island[pattern_->order_[pattern_->neighbours_[front.neighbours + i]]];
                break;
            }
    }
}

} // namespace loomsheet
