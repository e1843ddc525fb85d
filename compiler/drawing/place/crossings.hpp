// The wires between two layers while their order is searched: how many cross, each two nets the better way round, and
// what their bars cost.
#pragma once
#include <cstddef>
#include <vector>

namespace loomsheet::drawing {

class Crossings {
public:
    void clear() { nets_.clear(), x_.clear(); }
    // One more net: x of its ends at the upper and at the lower layer.
    void add(const std::vector<double>& uppers, const std::vector<double>& lowers);
    long count() const;
    // The lengths of the bars, each with something on top; a net whose ends stand above one another has none.
    double bar_price() const;

private:
    struct Net {
        double low = 0, high = 0;
        std::size_t upper = 0, upper_end = 0, lower_end = 0; // in the list of all x
        bool bar = false;
    };
    long over(const Net& a, const Net& b) const;
    std::vector<Net> nets_;
    std::vector<double> x_;
};

} // namespace loomsheet::drawing
