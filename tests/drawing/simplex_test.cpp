// The network simplex against all placings tried one after the other.
#include "drawing/simplex.hpp"
#include <algorithm>
#include <doctest/doctest.h>
#include <random>

using namespace loomsheet::drawing;

namespace {

long cost(const std::vector<int>& x, const std::vector<Spring>& springs) {
    long sum = 0;
    for (const Spring& s : springs)
        sum += static_cast<long>(s.weight) * (x[static_cast<std::size_t>(s.to)] - x[static_cast<std::size_t>(s.from)]);
    return sum;
}
bool holds(const std::vector<int>& x, const std::vector<Spring>& springs) {
    return std::all_of(springs.begin(), springs.end(), [&](const Spring& s) {
        return x[static_cast<std::size_t>(s.to)] - x[static_cast<std::size_t>(s.from)] >= s.least;
    });
}
// The least cost with all x from 0 to `most`.
long least_of_all(std::vector<int>& x, std::size_t next, int most, const std::vector<Spring>& springs) {
    if (next == x.size()) return holds(x, springs) ? cost(x, springs) : 1'000'000;
    long least = 1'000'000;
    for (x[next] = 0; x[next] <= most; ++x[next])
        least = std::min(least, least_of_all(x, next + 1, most, springs));
    return least;
}

} // namespace

TEST_CASE("the sum of weighted lengths is least") {
    std::minstd_rand chance(3);
    const auto below = [&](int most) { return static_cast<int>(chance() % static_cast<unsigned>(most)); };
    for (int round = 0; round < 60; ++round) {
        constexpr int count = 5;
        std::vector<Spring> springs;
        for (int i = 0; i < 7; ++i) {
            const int from = below(count - 1), to = from + 1 + below(count - 1 - from);
            springs.push_back({from, to, below(3), below(4)});
        }
        const std::vector<int> x = relax(count, springs);
        REQUIRE(holds(x, springs));
        std::vector<int> trial(count);
        CHECK(cost(x, springs) == least_of_all(trial, 0, 6, springs));
        CHECK(cost(relax(count, springs, x), springs) == cost(x, springs)); // from there it stays
    }
}

TEST_CASE("nothing to place") { CHECK(relax(0, {}).empty()); }
