// The map of checks: every check once as a box, what passes below, what fails to the right.
#include "collisions.hpp"
#include "drawing/map.hpp"
#include "hand.hpp"
#include "picture_text.hpp"
#include <doctest/doctest.h>

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
    way.label = label, way.pass = pass, way.end = WayEnd::verdict, way.sign = sign, way.title = "Part " + sign;
    return way;
}
MapWay to_stop(const std::string& label, WayEnd end = WayEnd::stop) {
    MapWay way;
    way.label = label, way.end = end, way.sign = end == WayEnd::stop ? "STOP" : "DONE";
    return way;
}
std::vector<Picture> drawn(const std::vector<MapCheck>& checks, Area area = a4) { return draw_map(checks, hand::measure(), area); }
const drawing::Words* find(const Picture& page, const std::string& text) {
    for (const drawing::Words& words : page.words)
        if (words.text == text) return &words;
    return nullptr;
}
std::size_t boxes_in(const std::vector<Picture>& pages) {
    std::size_t count = 0;
    for (const Picture& page : pages)
        count += page.covers.size();
    return count;
}
void keeps_apart(const std::vector<Picture>& pages, Area area) {
    for (const Picture& page : pages)
        for (const std::string& one : collisions(page, area))
            FAIL_CHECK(one);
}
std::vector<MapCheck> five() {
    std::vector<MapCheck> checks(5);
    checks[0] = {1, "First", {to_check(1, "pass", true), to_check(2, "fail"), to_stop("no current")}};
    checks[1] = {2, "Second", {to_verdict("A", "pass", true), to_check(3, "low"), to_check(3, "high")}};
    checks[2] = {3, "Third check of a longer name", {to_stop("pass", WayEnd::done), to_check(4, "fail")}};
    checks[3] = {12, "Fourth", {to_check(0, "pass", true), to_verdict("BC", "fail")}};
    checks[4] = {13, "Fifth", {to_stop("fail")}};
    return checks;
}

} // namespace

TEST_CASE("what passes leads down, what fails to the right") {
    const std::vector<Picture> pages = drawn(five());
    REQUIRE(pages.size() == 1);
    const drawing::Words *first = find(pages[0], "First"), *second = find(pages[0], "Second");
    REQUIRE((first != nullptr && second != nullptr));
    CHECK(second->y > first->y + 5);
    CHECK(second->x == first->x);
    CHECK(find(pages[0], "no current") != nullptr);
    CHECK(find(pages[0], "STOP") != nullptr);
    CHECK(find(pages[0], "DONE") != nullptr);
    CHECK(find(pages[0], "A") != nullptr);
    CHECK(boxes_in(pages) == 5);
    keeps_apart(pages, a4);
}

TEST_CASE("a map of five checks, stroke by stroke") {
    std::string text;
    for (const Picture& page : drawn(five()))
        text += text_of(page);
    check_golden("map.txt", text);
}

TEST_CASE("a check that is reached from several stands once; elsewhere its number, white on black") {
    std::vector<MapCheck> checks(3);
    checks[0] = {1, "First", {to_check(2, "pass", true), to_check(1, "fail")}};
    checks[1] = {2, "Second", {to_check(2, "pass", true)}};
    checks[2] = {3, "Third", {to_stop("fail")}};
    const std::vector<Picture> pages = drawn(checks);
    CHECK(boxes_in(pages) == 3);
    int threes = 0;
    for (const Picture& page : pages)
        for (const drawing::Words& words : page.words) {
            if (words.type == Type::number) CHECK(words.white);
            threes += words.text == "3";
        }
    CHECK(threes == 2); // at its box, and where the first leads to it
}

TEST_CASE("a long row of checks goes over pages, each no higher than the area") {
    std::vector<MapCheck> checks;
    for (int i = 0; i < 40; ++i)
        checks.push_back({i + 1, "Battery", {i < 39 ? to_check(i + 1, "pass", true) : to_stop("pass"), to_verdict("A", "fail")}});
    const std::vector<Picture> pages = drawn(checks);
    CHECK(pages.size() == 3);
    CHECK(boxes_in(pages) == checks.size());
    keeps_apart(pages, a4);
}

TEST_CASE("generated maps: every check has one box, nothing lies on anything else") {
    std::string digests;
    for (unsigned seed = 1; seed <= 24; ++seed) {
        CAPTURE(seed);
        hand::Chance chance(seed);
        const char* labels[] = {"fail", "low", "no current", "Ground, from the plug to the battery", "11.8 V"};
        std::vector<MapCheck> checks;
        const int count = 1 + static_cast<int>(seed);
        for (int i = 0; i < count; ++i) {
            MapCheck check{i + 1, chance.below(3) == 0 ? "A title of many letters that a shop gives" : "Supply", {}};
            if (chance.below(6) != 0)
                check.ways.push_back(i + 1 < count && chance.below(5) != 0 ? to_check(i + 1, "pass", true)
                                                                           : to_verdict("AB", "pass", true));
            for (int k = 1 + chance.below(4); k > 0; --k) {
                const std::string label = labels[chance.below(5)];
                const int end = chance.below(4);
                check.ways.push_back(end == 0 ? to_check(chance.below(count), label) : end == 1 ? to_stop(label) : to_verdict("C", label));
            }
            checks.push_back(std::move(check));
        }
        std::string all;
        for (const Area area : {a4, Area{126, 170, 9}}) {
            const std::vector<Picture> pages = drawn(checks, area);
            CHECK(boxes_in(pages) == checks.size());
            keeps_apart(pages, area);
            for (const Picture& page : pages)
                all += text_of(page);
        }
        digests += digest_of(all) + "  seed " + std::to_string(seed) + "\n";
    }
    check_golden("maps.digests", digests);
}

TEST_CASE("without checks there is no map") { CHECK(drawn({}).empty()); }
