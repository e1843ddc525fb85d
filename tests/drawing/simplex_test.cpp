// The network simplex against all placings tried one after the other.
#include "drawing/place/simplex.hpp"
#include "hand.hpp"
#include <algorithm>
#include <doctest/doctest.h>

using namespace loomsheet::drawing;

namespace {

long cost(const std::vector<int>& x, const std::vector<Constraint>& constraints) {
    long sum = 0;
    for (const Constraint& s : constraints)
        sum += static_cast<long>(s.weight) * (x[static_cast<std::size_t>(s.head)] - x[static_cast<std::size_t>(s.tail)]);
    return sum;
}
bool holds(const std::vector<int>& x, const std::vector<Constraint>& constraints) {
    return std::all_of(constraints.begin(), constraints.end(), [&](const Constraint& s) {
        return x[static_cast<std::size_t>(s.head)] - x[static_cast<std::size_t>(s.tail)] >= s.length;
    });
}
// The least cost with all x from 0 to `most`.
long least_of_all(std::vector<int>& x, std::size_t next, int most, const std::vector<Constraint>& constraints) {
    if (next == x.size()) return holds(x, constraints) ? cost(x, constraints) : 1'000'000;
    long least = 1'000'000;
    for (x[next] = 0; x[next] <= most; ++x[next])
        least = std::min(least, least_of_all(x, next + 1, most, constraints));
    return least;
}

} // namespace

TEST_CASE("the sum of weighted lengths is least") {
    hand::Chance chance(3);
    for (int round = 0; round < 30; ++round) {
        constexpr int count = 5;
        std::vector<Constraint> constraints;
        for (int i = 0; i < 7; ++i) {
            const int from = chance.below(count - 1), to = from + 1 + chance.below(count - 1 - from);
            constraints.push_back({from, to, chance.below(3), chance.below(4)});
        }
        const std::vector<int> x = network_simplex(count, constraints);
        REQUIRE(holds(x, constraints));
        std::vector<int> trial(count);
        CHECK(cost(x, constraints) == least_of_all(trial, 0, 8, constraints));
        CHECK(*std::min_element(x.begin(), x.end()) == 0);
        std::vector<int> wide(x); // from any placing that holds the same is found
        for (int& each : wide)
            each = 3 * each + 2;
        CHECK(cost(network_simplex(count, constraints, wide), constraints) == cost(x, constraints));
    }
}

TEST_CASE("what pulls harder is near") {
    // 0 .. 2 are kept apart by 10; 1 lies anywhere between and is pulled by 3 to the right, by 2 to the left.
    const std::vector<Constraint> between{{0, 2, 10, 1}, {0, 1, 0, 2}, {1, 2, 0, 3}};
    CHECK(network_simplex(3, between) == std::vector<int>{0, 10, 10});
    const std::vector<Constraint> left{{0, 2, 10, 1}, {0, 1, 0, 3}, {1, 2, 4, 2}};
    CHECK(network_simplex(3, left) == std::vector<int>{0, 0, 10});
}

TEST_CASE("lengths may be less than nothing: two ends meet where they may") {
    const std::vector<Constraint> constraints{{0, 1, 4, 1}, {0, 2, 0, 1}, {1, 2, -10, 1}};
    const std::vector<int> x = network_simplex(3, constraints);
    CHECK(x[1] == 4);
    CHECK(x[2] == 0);
}

TEST_CASE("parts of a graph that nothing joins are all placed") {
    const std::vector<int> x = network_simplex(4, {{0, 1, 5, 1}, {2, 3, 7, 1}});
    CHECK(x[1] - x[0] == 5);
    CHECK(x[3] - x[2] == 7);
}

TEST_CASE("a graph of forty nodes: no node can be moved alone and the sum become less") {
    hand::Chance chance(8);
    constexpr int count = 40;
    std::vector<Constraint> constraints;
    for (int i = 0; i < 90; ++i) {
        const int tail = chance.below(count - 1);
        constraints.push_back({tail, tail + 1 + chance.below(count - 1 - tail), chance.below(6), chance.below(9)});
    }
    const std::vector<int> x = network_simplex(count, constraints);
    REQUIRE(holds(x, constraints));
    for (std::size_t node = 0; node < count; ++node)
        for (const int by : {-1, 1}) {
            std::vector<int> moved(x);
            moved[node] += by;
            if (holds(moved, constraints)) CHECK(cost(moved, constraints) >= cost(x, constraints));
        }
}

TEST_CASE("nothing to place") { CHECK(network_simplex(0, {}).empty()); }
