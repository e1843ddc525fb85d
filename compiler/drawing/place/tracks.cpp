#include "drawing/place/tracks.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet::drawing {
namespace {

constexpr double side_by_side = 1.3; // mm: verticals are at least so far apart
constexpr double bar_gap = 2.6;      // mm between bars in one track
constexpr double same_x = 1e-6;      // mm
constexpr long overlap_price = 50;   // in crossings
constexpr int reinsertions = 3;

struct Trunk { // a net's bar, with x of its verticals
    std::vector<double> uppers, lowers;
    double low = 1e9, high = -1e9;
    bool has_length() const { return high - low > same_x; }
};

Trunk trunk_of(const Scheme& scheme, const Columns& columns, const Net& net) {
    Trunk trunk;
    for (const auto& end : net.uppers)
        trunk.uppers.push_back(columns.at(scheme, end));
    for (const auto& end : net.lowers)
        trunk.lowers.push_back(columns.at(scheme, end));
    for (const auto* list : {&trunk.uppers, &trunk.lowers})
        for (const double x : *list)
            trunk.low = std::min(trunk.low, x), trunk.high = std::max(trunk.high, x);
    return trunk;
}

bool overlap(double lower_of_upper, double upper_of_lower) { return std::abs(lower_of_upper - upper_of_lower) < side_by_side; }

// What it costs when `a` lies above `b`: crossings, and verticals that lie on one another.
long price(const Trunk& a, const Trunk& b) {
    const auto within = [](double x, const Trunk& trunk) { return x > trunk.low - same_x && x < trunk.high + same_x; };
    long crossed = 0, overlaps = 0;
    for (const double x : b.uppers)
        crossed += within(x, a);
    for (const double x : a.lowers)
        crossed += within(x, b);
    for (const double x : a.lowers)
        for (const double y : b.uppers)
            overlaps += overlap(x, y);
    return crossed + overlap_price * overlaps;
}

// From top to bottom: each trunk is inserted, and then again some reinsertions, where it costs least.
std::vector<int> order_of(const std::vector<Trunk>& trunks) {
    std::vector<int> order, all;
    for (int i = 0; i < static_cast<int>(trunks.size()); ++i)
        if (trunks[i].has_length()) all.push_back(i);
    const auto cost_at = [&](int trunk, std::size_t place) {
        long sum = 0;
        for (std::size_t i = 0; i < order.size(); ++i)
            sum += i < place ? price(trunks[order[i]], trunks[trunk]) : price(trunks[trunk], trunks[order[i]]);
        return sum;
    };
    const auto insert = [&](int trunk) {
        std::size_t best = 0;
        long least = cost_at(trunk, 0);
        for (std::size_t place = 1; place <= order.size(); ++place)
            if (const long cost = cost_at(trunk, place); cost < least) least = cost, best = place;
        order.insert(order.begin() + static_cast<long>(best), trunk);
    };
    for (const int trunk : all)
        insert(trunk);
    for (int round = 0; round < reinsertions; ++round)
        for (const int trunk : all) {
            order.erase(std::find(order.begin(), order.end(), trunk));
            insert(trunk);
        }
    return order;
}

} // namespace

Tracks lay_tracks(const Scheme& scheme, const Columns& columns, const std::vector<Net>& channel) {
    std::vector<Trunk> trunks;
    for (const Net& net : channel)
        trunks.push_back(trunk_of(scheme, columns, net));
    const std::vector<int> order = order_of(trunks);
    Tracks tracks;
    tracks.of.assign(channel.size(), none);
    for (std::size_t i = 0; i < order.size(); ++i) {
        const Trunk& here = trunks[order[i]];
        int& track = tracks.of[order[i]] = 0;
        for (std::size_t j = 0; j < i; ++j) {
            const Trunk& above = trunks[order[j]];
            const bool meets = above.low < here.high + bar_gap && here.low < above.high + bar_gap;
            if (meets) track = std::max(track, tracks.of[order[j]] + 1);
        }
        tracks.count = std::max(tracks.count, track + 1);
    }
    for (std::size_t i = 0; i < order.size(); ++i)
        for (std::size_t j = i + 1; j < order.size(); ++j) {
            const Trunk &a = trunks[order[i]], &b = trunks[order[j]];
            for (std::size_t p = 0; p < a.lowers.size(); ++p)
                for (std::size_t q = 0; q < b.uppers.size(); ++q)
                    if (overlap(a.lowers[p], b.uppers[q]))
                        tracks.apart.push_back({channel[order[i]].lowers[p], channel[order[j]].uppers[q]});
        }
    return tracks;
}

} // namespace loomsheet::drawing
