// Disjoint sets of the numbers below `count`: union and find.
#pragma once
#include <numeric>
#include <vector>

namespace loomsheet::drawing {

class Sets {
public:
    explicit Sets(std::size_t count) : parent_(count) { std::iota(parent_.begin(), parent_.end(), 0); }
    int root_of(int i) {
        while (parent_[i] != i)
            i = parent_[i] = parent_[parent_[i]];
        return i;
    }
    // The root of `one` becomes the root of both.
    void join(int one, int other) { parent_[root_of(other)] = root_of(one); }

private:
    std::vector<int> parent_;
};

} // namespace loomsheet::drawing
