// Crossings of nets between two layers against points counted by brute force.
#include "drawing/place/crossings.hpp"
#include "hand.hpp"
#include <algorithm>
#include <doctest/doctest.h>

using namespace loomsheet::drawing;

namespace {

struct Wires { // of one net: x above and below
    std::vector<double> uppers, lowers;
    double low() const {
        return std::min(*std::min_element(uppers.begin(), uppers.end()), *std::min_element(lowers.begin(), lowers.end()));
    }
    double high() const {
        return std::max(*std::max_element(uppers.begin(), uppers.end()), *std::max_element(lowers.begin(), lowers.end()));
    }
};
// Two nets, each drawn as verticals and one bar, the first one's bar higher: how many points they share.
long shared_points(const Wires& a, const Wires& b) {
    long count = 0;
    for (const double x : b.uppers) // come down through the bar of a
        count += x > a.low() && x < a.high();
    for (const double x : a.lowers) // go down through the bar of b
        count += x > b.low() && x < b.high();
    return count;
}

} // namespace

TEST_CASE("crossings of two nets: the better of the two ways round") {
    Crossings crossings;
    crossings.add({0}, {10}); // a bar from 0 to 10
    crossings.add({4}, {6});  // inside it: the one whose bar is lower goes through the other's once
    CHECK(crossings.count() == 1);
    crossings.clear();
    crossings.add({0}, {10});
    crossings.add({10.5}, {20}); // side by side
    CHECK(crossings.count() == 0);
    crossings.clear();
    crossings.add({0}, {10});
    crossings.add({5}, {5}); // straight through
    CHECK(crossings.count() == 1);
    crossings.clear();
    crossings.add({5}, {5});
    crossings.add({6}, {6}); // neither has a bar
    CHECK(crossings.count() == 0);
    crossings.clear();
    crossings.add({0, 10}, {5}); // one joins 0 and 10 to 5, the other passes twice
    crossings.add({2, 8}, {4, 6});
    CHECK(crossings.count() == 2); // either way round
}

TEST_CASE("crossings of generated channels against points counted by brute force") {
    hand::Chance chance(5);
    for (int round = 0; round < 200; ++round) {
        Crossings crossings;
        std::vector<Wires> nets;
        double x = 0; // every end has its own x, 3 mm from the next
        for (int n = 0; n < 2 + chance.below(4); ++n) {
            Wires wires;
            for (int i = 0; i < 1 + chance.below(3); ++i)
                wires.uppers.push_back(0);
            for (int i = 0; i < 1 + chance.below(3); ++i)
                wires.lowers.push_back(0);
            nets.push_back(wires);
        }
        std::vector<double*> ends;
        for (Wires& wires : nets)
            for (auto* list : {&wires.uppers, &wires.lowers})
                for (double& end : *list)
                    ends.push_back(&end);
        for (std::size_t i = ends.size(); i > 0; --i) {
            std::swap(ends[i - 1], ends[static_cast<std::size_t>(chance.below(static_cast<int>(i)))]);
            *ends[i - 1] = x += 3;
        }
        double bars = 0;
        long count = 0;
        for (std::size_t i = 0; i < nets.size(); ++i) {
            crossings.add(nets[i].uppers, nets[i].lowers);
            bars += nets[i].high() - nets[i].low() + 4;
            for (std::size_t j = i + 1; j < nets.size(); ++j)
                count += std::min(shared_points(nets[i], nets[j]), shared_points(nets[j], nets[i]));
        }
        CHECK(crossings.count() == count);
        CHECK(crossings.bar_price() == doctest::Approx(bars));
    }
}

TEST_CASE("up to a millimetre is no bar") {
    Crossings crossings;
    crossings.add({5}, {5.9});
    CHECK(crossings.bar_price() == 0);
    crossings.add({5}, {6.1});
    CHECK(crossings.bar_price() == doctest::Approx(1.1 + 4));
}
