#include "page/pager.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

Box box(double height, const std::string& name) {
    Box made;
    made.height = height;
    made.anchor = name;
    made.regions.push_back({page::Role::cell, 18, 0, 10, height, name});
    return made;
}
Block rows(int count, double height) {
    Block block;
    for (int i = 1; i <= count; ++i)
        block.rows.push_back(box(height, "row " + std::to_string(i)));
    return block;
}
// Page and place of each region, "1:20 1:50 2:20".
std::string places(Pager& pager) {
    std::string said;
    for (std::size_t i = 0; i < pager.pages().size(); ++i)
        for (const page::Region& region : pager.pages()[i].regions)
            said += region.name + " " + std::to_string(i + 1) + ":" + std::to_string(static_cast<int>(region.y)) + ", ";
    return said;
}
constexpr PaperSize small{210, 297, 20, 120}; // 100 mm to fill

} // namespace

TEST_CASE("rows fill a page and go on to the next; none is broken") {
    Findings findings;
    Pager pager(small, findings);
    pager.place(rows(4, 40));
    CHECK(places(pager) == "row 1 1:20, row 2 1:60, row 3 2:20, row 4 2:60, ");
    CHECK(pager.anchors().at("row 3") == 1);
    CHECK(findings.empty());
}

TEST_CASE("captions are printed again on every page of a table") {
    Findings findings;
    Pager pager(small, findings);
    Block block = rows(3, 40);
    block.captions = box(5, "captions");
    pager.place(block);
    CHECK(places(pager) == "captions 1:20, row 1 1:25, row 2 1:65, captions 2:20, row 3 2:25, ");
}

TEST_CASE("a title keeps two rows") {
    Findings findings;
    Pager pager(small, findings);
    pager.place(rows(1, 40));
    Block block = rows(2, 25);
    block.title = box(10, "title");
    pager.place(block); // 40 + 5 + 10 + 50 is more than 100
    CHECK(places(pager) == "row 1 1:20, title 2:20, row 1 2:30, row 2 2:55, ");
}

TEST_CASE("what belongs together is not parted while it fits a page") {
    Findings findings;
    Pager pager(small, findings);
    pager.place(rows(1, 40));
    Block block = rows(3, 30);
    block.together = true;
    pager.place(block);
    CHECK(places(pager) == "row 1 1:20, row 1 2:20, row 2 2:50, row 3 2:80, ");
}

TEST_CASE("a box higher than a page is a finding at its place") {
    Findings findings;
    Pager pager(small, findings);
    Block block = rows(1, 130);
    block.rows[0].at = {0, 7, 9};
    pager.place(block);
    REQUIRE(findings.list().size() == 1);
    CHECK(findings.list()[0].code == 802);
    CHECK(findings.list()[0].at == Span{0, 7, 9});
}
