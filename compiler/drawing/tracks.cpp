#include "drawing/tracks.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet::drawing {
namespace {

constexpr double near = 1.3;    // wires side by side are farther apart
constexpr double bar_gap = 2.6; // bars in one track
constexpr long conflict_price = 50;

struct Way {
    int net = none;
    std::vector<double> uppers, lowers;
    double low = 1e9, high = -1e9;
    bool bar() const { return high - low > 1e-6; }
};

// What it costs when the bar of `a` lies above that of `b`.
long price(const Way& a, const Way& b, long* crossings = nullptr) {
    long crossed = 0, conflicts = 0;
    if (a.bar())
        for (const double x : b.uppers)
            crossed += x > a.low - 1e-6 && x < a.high + 1e-6;
    if (b.bar())
        for (const double x : a.lowers)
            crossed += x > b.low - 1e-6 && x < b.high + 1e-6;
    for (const double x : a.lowers)
        for (const double y : b.uppers)
            conflicts += std::abs(x - y) < near;
    if (crossings != nullptr) *crossings += crossed;
    return crossed + conflict_price * conflicts;
}

} // namespace

Tracks lay_tracks(const Scheme& scheme, const Columns& columns, const std::vector<Net>& channel) {
    std::vector<Way> ways(channel.size());
    std::vector<int> order;
    for (std::size_t i = 0; i < channel.size(); ++i) {
        Way& way = ways[i];
        way.net = static_cast<int>(i);
        for (const auto& end : channel[i].uppers)
            way.uppers.push_back(columns.at(scheme, end));
        for (const auto& end : channel[i].lowers)
            way.lowers.push_back(columns.at(scheme, end));
        for (const auto* list : {&way.uppers, &way.lowers})
            for (const double x : *list)
                way.low = std::min(way.low, x), way.high = std::max(way.high, x);
    }
    std::vector<int> bars;
    for (const Way& way : ways)
        if (way.bar()) bars.push_back(way.net);
    const auto cost_at = [&](int net, std::size_t place) {
        long sum = 0;
        for (std::size_t i = 0; i < order.size(); ++i)
            sum += i < place ? price(ways[order[i]], ways[net]) : price(ways[net], ways[order[i]]);
        return sum;
    };
    const auto insert = [&](int net) {
        std::size_t best = 0;
        long least = cost_at(net, 0);
        for (std::size_t place = 1; place <= order.size(); ++place)
            if (const long cost = cost_at(net, place); cost < least) least = cost, best = place;
        order.insert(order.begin() + static_cast<long>(best), net);
    };
    for (const int net : bars)
        insert(net);
    for (int round = 0; round < 3; ++round)
        for (const int net : bars) {
            order.erase(std::find(order.begin(), order.end(), net));
            insert(net);
        }

    Tracks tracks;
    tracks.of.assign(channel.size(), none);
    for (std::size_t i = 0; i < order.size(); ++i) {
        const Way& here = ways[order[i]];
        int track = 0;
        for (std::size_t j = 0; j < i; ++j) {
            const Way& above = ways[order[j]];
            const bool meets = above.low < here.high + bar_gap && here.low < above.high + bar_gap;
            if (meets) track = std::max(track, tracks.of[order[j]] + 1);
        }
        tracks.of[order[i]] = track;
        tracks.count = std::max(tracks.count, track + 1);
    }
    for (std::size_t i = 0; i < order.size(); ++i)
        for (std::size_t j = i + 1; j < order.size(); ++j) {
            const Way &a = ways[order[i]], &b = ways[order[j]];
            price(a, b, &tracks.crossings);
            for (std::size_t p = 0; p < a.lowers.size(); ++p)
                for (std::size_t q = 0; q < b.uppers.size(); ++q)
                    if (std::abs(a.lowers[p] - b.uppers[q]) < near)
                        tracks.apart.push_back({channel[a.net].lowers[p], channel[b.net].uppers[q]});
        }
    for (const Way& way : ways)
        if (!way.bar() && !(way.uppers.empty() && way.lowers.empty()))
            for (const int net : bars)
                tracks.crossings += way.low > ways[net].low && way.low < ways[net].high;
    return tracks;
}

} // namespace loomsheet::drawing
