#include "drawing/place/crossings.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

constexpr double per_bar = 4;  // on top of its length
constexpr double straight = 1; // mm: so little is no bar

} // namespace

void Crossings::add(const std::vector<double>& uppers, const std::vector<double>& lowers) {
    Net net;
    net.upper = x_.size();
    x_.insert(x_.end(), uppers.begin(), uppers.end());
    net.upper_end = x_.size();
    x_.insert(x_.end(), lowers.begin(), lowers.end());
    net.lower_end = x_.size();
    net.low = 1e9, net.high = -1e9;
    for (std::size_t i = net.upper; i < net.lower_end; ++i)
        net.low = std::min(net.low, x_[i]), net.high = std::max(net.high, x_[i]);
    net.bar = net.high - net.low > straight;
    nets_.push_back(net);
}

double Crossings::bar_price() const {
    double sum = 0;
    for (const Net& net : nets_)
        if (net.bar) sum += net.high - net.low + per_bar;
    return sum;
}

long Crossings::count() const {
    long count = 0;
    for (std::size_t i = 0; i < nets_.size(); ++i)
        for (std::size_t j = i + 1; j < nets_.size(); ++j) {
            const Net &a = nets_[i], &b = nets_[j];
            if ((!a.bar && !b.bar) || a.high < b.low || b.high < a.low) continue;
            count += std::min(over(a, b), over(b, a));
        }
    return count;
}

// When the bar of `a` lies above that of `b`.
long Crossings::over(const Net& a, const Net& b) const {
    long count = 0;
    if (a.bar)
        for (std::size_t i = b.upper; i < b.upper_end; ++i)
            count += x_[i] > a.low && x_[i] < a.high;
    if (b.bar)
        for (std::size_t i = a.upper_end; i < a.lower_end; ++i)
            count += x_[i] > b.low && x_[i] < b.high;
    return count;
}

} // namespace loomsheet::drawing
