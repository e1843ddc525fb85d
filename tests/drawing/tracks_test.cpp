// Channel routing on channels of a few nets.
#include "drawing/place/tracks.hpp"
#include "hand.hpp"
#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

struct Channel { // nets by the x of their ends above and below; each end is a node of its own
    Scheme scheme;
    Columns columns;
    std::vector<Net> nets;

    void add(const std::vector<double>& uppers, const std::vector<double>& lowers) {
        Net net;
        for (const auto* list : {&uppers, &lowers})
            for (const double x : *list) {
                (list == &uppers ? net.uppers : net.lowers).emplace_back(scheme.add(hand::node(NodeKind::dummy)), 0);
                columns.x.push_back({x});
            }
        nets.push_back(net);
    }
    Tracks lay() const { return lay_tracks(scheme, columns, nets); }
    double x(const std::pair<int, int>& end) const { return columns.x[static_cast<std::size_t>(end.first)][0]; }
    std::pair<double, double> span(const Net& net) const {
        double low = 1e9, high = -1e9;
        for (const auto* list : {&net.uppers, &net.lowers})
            for (const auto& end : *list)
                low = std::min(low, x(end)), high = std::max(high, x(end));
        return {low, high};
    }
};

} // namespace

TEST_CASE("a wire that runs straight has no track") {
    Channel channel;
    channel.add({5}, {5});
    const Tracks tracks = channel.lay();
    CHECK(tracks.of == std::vector<int>{none});
    CHECK(tracks.count == 0);
    CHECK(tracks.apart.empty());
}

TEST_CASE("bars side by side share a track, bars that meet or nearly do not") {
    Channel channel;
    channel.add({0}, {10});
    channel.add({13}, {20});
    CHECK(channel.lay().count == 1);
    Channel near;
    near.add({0}, {10});
    near.add({12.5}, {20}); // 2.5 mm between
    CHECK(near.lay().count == 2);
}

TEST_CASE("of two bars, that lies higher which then crosses less") {
    Channel channel;
    channel.add({0}, {10}); // goes down at 10
    channel.add({20}, {5}); // goes down at 5, comes down at 20
    const Tracks tracks = channel.lay();
    // With the first above, its vertical at 10 crosses the second's bar (5 .. 20); with the second above, its vertical
    // at 5 crosses the first's (0 .. 10): both ways once. Now an end that only one of the orders crosses:
    CHECK(tracks.count == 2);
    Channel one_way;
    one_way.add({0}, {10});
    one_way.add({5}, {15}); // comes down at 5 through the first one's bar, if that lies above
    CHECK(one_way.lay().of == std::vector<int>{1, 0});
    Channel other_way;
    other_way.add({10}, {0});
    other_way.add({15}, {5});
    CHECK(other_way.lay().of == std::vector<int>{0, 1});
}

TEST_CASE("verticals that would lie on one another decide the order before any crossing") {
    // The lower end of one stands where the upper end of the other does: it must lie below.
    Channel channel;
    channel.add({0, 20}, {10}); // down at 10
    channel.add({10}, {30});    // from above at 10: its bar has to lie above
    const Tracks tracks = channel.lay();
    CHECK(tracks.of[1] < tracks.of[0]);
    CHECK(tracks.apart.empty());
}

TEST_CASE("what lies on one another in both orders is named") {
    Channel channel;
    channel.add({0}, {10});
    channel.add({10}, {0}); // each ends where the other begins
    const Tracks tracks = channel.lay();
    REQUIRE(tracks.apart.size() == 1);
    const auto& [one, other] = tracks.apart[0];
    CHECK(std::abs(channel.x(one) - channel.x(other)) < 1.3);
    Channel wide;
    wide.add({0}, {10});
    wide.add({11.4}, {-1.4}); // just so far that they do not
    CHECK(wide.lay().apart.empty());
}

TEST_CASE("generated channels: no bar lies on a bar of another net, no vertical on a vertical but those named") {
    hand::Chance chance(6);
    for (int round = 0; round < 100; ++round) {
        CAPTURE(round);
        Channel channel;
        for (int n = 0; n < 2 + chance.below(6); ++n) {
            std::vector<double> uppers, lowers;
            for (int i = 0; i < 1 + chance.below(2); ++i)
                uppers.push_back(2 * chance.below(30));
            for (int i = 0; i < 1 + chance.below(3); ++i)
                lowers.push_back(2 * chance.below(30));
            channel.add(uppers, lowers);
        }
        const Tracks tracks = channel.lay();
        std::size_t on_one_another = 0;
        for (std::size_t i = 0; i < channel.nets.size(); ++i) {
            const auto [low, high] = channel.span(channel.nets[i]);
            CHECK((tracks.of[i] == none) == (high - low < 1e-6));
            CHECK(tracks.of[i] < tracks.count);
            for (std::size_t j = 0; j < channel.nets.size(); ++j) {
                if (i == j || tracks.of[i] == none || tracks.of[j] == none) continue;
                const auto [other_low, other_high] = channel.span(channel.nets[j]);
                if (tracks.of[i] == tracks.of[j]) CHECK((other_low > high + 2 || low > other_high + 2));
                if (tracks.of[i] >= tracks.of[j]) continue;
                // Of i above: its lower verticals pass the height of j's bar, j's upper ones that of i.
                for (const auto& lower : channel.nets[i].lowers)
                    for (const auto& upper : channel.nets[j].uppers)
                        on_one_another += std::abs(channel.x(lower) - channel.x(upper)) < 1.3;
            }
        }
        CHECK(on_one_another == tracks.apart.size());
    }
}
