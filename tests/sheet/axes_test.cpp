#include "page/axes.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;
using doctest::Approx;

TEST_CASE("places follow paper and margins: a card has two columns on A4, one on A5") {
    const Axes a4 = axes_of(210, Margins{}), a5 = axes_of(148, Margins{});
    CHECK_FALSE(a4.narrow);
    CHECK(a4.edge == Approx(18));
    CHECK(a4.right == Approx(198));
    CHECK(a4.divider < a4.probe);
    CHECK(a5.narrow);
    CHECK(a5.right == Approx(136));
    CHECK(a5.probe == Approx(a5.edge));                  // the leads stand under the set-up
    CHECK(axes_of(300, Margins{}).right == Approx(198)); // more paper is more white
    CHECK(axes_of(210, Margins{18, 12, 18, 9}).foot == Approx(a4.foot + 4));
}

TEST_CASE("a place keeps its share of the width on other paper") {
    const Axes a5 = axes_of(148, Margins{});
    CHECK(a5.across(18) == Approx(a5.edge));
    CHECK(a5.across(108) == Approx((a5.edge + a5.right) / 2));
    CHECK(a5.across(198) == Approx(a5.right));
}

TEST_CASE("each group of type has its own size; text is never under the least that the rules allow") {
    const TypeSizes sizes{26, 9, 18};
    CHECK(usual_sizes.pt(type::pin) == Approx(20));
    CHECK(sizes.pt(type::pin) == Approx(40));
    CHECK(sizes.pt(type::text) == Approx(12 * 9 / 10.5));
    CHECK(sizes.pt(type::note) == Approx(least_sizes.text)); // else 8.1
    CHECK(sizes.pt(type::caption) == Approx(18));
    CHECK(sizes.leading(type::pin) == Approx(2 * usual_sizes.leading(type::pin)));
    CHECK(sizes.half_cap(type::pin) == Approx(40 * 25.4 / 72 * 0.688 / 2));
}
