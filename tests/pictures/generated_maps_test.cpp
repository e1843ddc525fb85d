// The map of checks: every check once as a box, nothing on anything else, the same each time.
#include "drawing/map.hpp"
#include "drawn.hpp"
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <random>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

constexpr Area a4{180, 250, 9};

MapWay to_check(int check, const std::string& label, bool pass = false) {
    MapWay way;
    way.label = label, way.pass = pass, way.end = WayEnd::check, way.check = check;
    return way;
}
MapWay to_verdict(const std::string& sign, const std::string& label, bool pass = false) {
    MapWay way;
    way.label = label, way.pass = pass, way.end = WayEnd::verdict, way.sign = sign, way.title = "The part " + sign + " has failed";
    return way;
}
MapWay to_stop(const std::string& label) {
    MapWay way;
    way.label = label, way.sign = "STOP";
    return way;
}

// By chance from a seed; most pass on to the next.
std::vector<MapCheck> generated(unsigned seed, int count) {
    std::minstd_rand chance(seed);
    const auto below = [&](int most) { return static_cast<int>(chance() % static_cast<unsigned>(most)); };
    const std::string labels[] = {"fail",           "low",           "no current", "Ground, from the plug of the motor to the battery",
                                  "Δεν λειτουργεί", "11.8 to 12.6 V"};
    std::vector<MapCheck> checks;
    for (int i = 0; i < count; ++i) {
        MapCheck check;
        check.number = i + 1;
        check.title = below(3) == 0 ? "A title of sixty letters that a shop may well give to a check" : "Supply at the relay";
        if (below(6) != 0)
            check.ways.push_back(i + 1 < count && below(5) != 0 ? to_check(i + 1, "pass", true) : to_verdict("AB", "pass", true));
        const int more = 1 + below(5);
        for (int k = 0; k < more; ++k) {
            const std::string& label = labels[below(6)];
            const int end = below(4);
            check.ways.push_back(end == 0 ? to_check(below(count), label) : end == 1 ? to_stop(label) : to_verdict("C", label));
        }
        checks.push_back(std::move(check));
    }
    return checks;
}

void keeps_apart(const std::vector<Picture>& pages, Area area) {
    for (const Picture& page : pages)
        for (const std::string& one : collisions(page, area))
            FAIL_CHECK(one);
}
std::size_t boxes_in(const std::vector<Picture>& pages) {
    std::size_t count = 0;
    for (const Picture& page : pages)
        count += page.covers.size();
    return count;
}
const drawing::Words* find(const Picture& page, const std::string& text) {
    for (const drawing::Words& words : page.words)
        if (words.text == text) return &words;
    return nullptr;
}

} // namespace

TEST_CASE("what passes leads down, what fails to the right") {
    std::vector<MapCheck> checks(3);
    checks[0] = {1, "First", {to_check(1, "pass", true), to_check(2, "fail")}};
    checks[1] = {2, "Second", {to_verdict("A", "pass", true)}};
    checks[2] = {3, "Third", {to_stop("fail")}};
    const std::vector<Picture> pages = draw_map(checks, drawn::measure(), a4);
    REQUIRE(pages.size() == 1);
    const drawing::Words *first = find(pages[0], "First"), *second = find(pages[0], "Second"), *third = find(pages[0], "Third");
    REQUIRE((first && second && third));
    CHECK(second->y > first->y + 5);
    CHECK(second->x == first->x);
    CHECK(third->x > first->x + 30);
    CHECK(third->y == first->y);
    CHECK(find(pages[0], "pass") != nullptr);
    CHECK(find(pages[0], "STOP") != nullptr);
    CHECK(find(pages[0], "A") != nullptr);
    keeps_apart(pages, a4);
}

TEST_CASE("generated maps: every check has one box, nothing lies on anything else") {
    for (unsigned seed = 1; seed <= 40; ++seed) {
        CAPTURE(seed);
        const std::vector<MapCheck> checks = generated(seed, 1 + static_cast<int>(seed) * 2);
        for (const Area area : {a4, Area{126, 170, 9}}) {
            const std::vector<Picture> pages = draw_map(checks, drawn::measure(), area);
            CHECK(boxes_in(pages) == checks.size());
            keeps_apart(pages, area);
        }
    }
}

TEST_CASE("a map is drawn the same each time; without checks there is none") {
    const std::vector<MapCheck> checks = generated(5, 30);
    CHECK(drawn::dump(draw_map(checks, drawn::measure(), a4)) == drawn::dump(draw_map(checks, drawn::measure(), a4)));
    CHECK(draw_map({}, drawn::measure(), a4).empty());
}

TEST_CASE("two hundred checks in a row go over several pages") {
    std::vector<MapCheck> checks;
    for (int i = 0; i < 200; ++i)
        checks.push_back({i + 1, "Battery", {i + 1 < 200 ? to_check(i + 1, "pass", true) : to_stop("pass"), to_verdict("A", "fail")}});
    const std::vector<Picture> pages = draw_map(checks, drawn::measure(), a4);
    CHECK(pages.size() > 5);
    CHECK(boxes_in(pages) == checks.size());
    keeps_apart(pages, a4);
}
