#include "faults/figures.hpp"
#include <doctest/doctest.h>
#include <vector>

using namespace loomsheet;

namespace {
// Eight faults of a unit each, with rates 30 20 15 10 10 8 5 2; outcomes at five tests 10010 10010 01010 01001 00101 00101 00101
// 00000: groups of equal outcomes {1,2} {3} {4} {5,6,7}, the last not found. An instance of our own design notes, worked in exact
// fractions there.
std::vector<Grouped> eight() {
    return {{30, 1, {0}}, {20, 2, {0}}, {15, 3, {1}}, {10, 4, {2}}, {10, 5, {3}}, {8, 6, {3}}, {5, 7, {3}}, {2, 8, {}}};
}
} // namespace

TEST_CASE("detection and isolation of eight faults") {
    const std::vector<Grouped> faults = eight();
    const Isolation made = isolation(faults);
    CHECK(made.units == 8);
    CHECK(made.found == doctest::Approx(0.98));
    CHECK(made.found_plain == doctest::Approx(7.0 / 8));
    CHECK(made.to_one_plain == doctest::Approx(2.0 / 7));
    CHECK(made.to_two_plain == doctest::Approx(4.0 / 7));
    CHECK(made.to_three_plain == doctest::Approx(1));
    CHECK(made.to_one == doctest::Approx(25.0 / 98));
    CHECK(made.to_two == doctest::Approx(75.0 / 98));
    CHECK(made.to_three == doctest::Approx(1));
    CHECK(made.group_of_groups == doctest::Approx(7.0 / 4));
    CHECK(made.group_plain == doctest::Approx(15.0 / 7));
    CHECK(made.group == doctest::Approx(194.0 / 98));
    CHECK(made.first_right == doctest::Approx(65.0 / 98));
    CHECK(made.tries == doctest::Approx(136.0 / 98));
}

TEST_CASE("units are counted, not faults: two faults of one wire are one thing to repair") {
    const std::vector<Grouped> faults{{3, 1, {0}}, {1, 1, {0}}, {2, 2, {0}}};
    const Isolation made = isolation(faults);
    CHECK(made.group == doctest::Approx(2));
    CHECK(made.first_right == doctest::Approx(4.0 / 6)); // unit 1 has 4 of 6
    CHECK(made.tries == doctest::Approx((4 * 1 + 2 * 2) / 6.0));
}

TEST_CASE("of several endings the worst counts") {
    // By hand: unit 1 may end alone in 0, or in 1 with two others that are likelier.
    const std::vector<Grouped> faults{{1, 1, {0, 1}}, {5, 2, {1}}, {4, 3, {1}}};
    const Isolation made = isolation(faults);
    CHECK(made.to_one == doctest::Approx(0));
    CHECK(made.group == doctest::Approx(3));
    CHECK(made.tries == doctest::Approx((5 * 1 + 4 * 2 + 1 * 3) / 10.0));
}

TEST_CASE("nothing found, and nothing at all") {
    const std::vector<Grouped> lost{{1, 1, {}}, {1, 2, {}}};
    CHECK(isolation(lost).found == 0);
    CHECK(isolation(lost).units == 2);
    CHECK(isolation({}).found == 0);
}
