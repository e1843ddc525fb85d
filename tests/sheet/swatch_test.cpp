#include "grammar/colours.hpp"
#include "printed.hpp"
#include "sheet/card/swatch.hpp"
#include <doctest/doctest.h>
#include <map>

using namespace loomsheet;

namespace {

const Axes axes = axes_of(210, Margins{});

std::string drawn(const Colour& colour) {
    Box box;
    Findings findings;
    Pen pen(printed::faces(), axes, usual_sizes, findings, box, {});
    swatch(pen, 20, 20, colour);
    page::Document document;
    document.pages.emplace_back();
    document.pages[0].marks = box.marks;
    return page::dump(document);
}

} // namespace

// Colours: IEC 757:1983, all fourteen and the joined one (trade data, section 1).
TEST_CASE("every colour of IEC 60757 has a pattern of its own") {
    std::map<std::string, std::string> seen;
    for (const ColourRow& row : colours()) {
        const std::string pattern = drawn({std::string(row.code), ""});
        CAPTURE(row.code);
        CHECK(seen.emplace(pattern, row.code).second);
        CHECK(pattern.find("text") == std::string::npos);
    }
    CHECK(seen.size() == 15);
}

TEST_CASE("base and stripe are told apart by place: red with blue is not blue with red") {
    CHECK(drawn({"RD", "BU"}) != drawn({"BU", "RD"}));
    CHECK(drawn({"RD", "BU"}) != drawn({"RD", ""}));
    CHECK(drawn({"GNYE", ""}) != drawn({"GN", ""}));
}

TEST_CASE("a shop's own colour is written into the swatch") { CHECK(drawn({"TN", ""}).find("\"TN\"") != std::string::npos); }

TEST_CASE("no pattern leaves its swatch") {
    for (const ColourRow& row : colours()) {
        Box box;
        Findings findings;
        Pen pen(printed::faces(), axes, usual_sizes, findings, box, {});
        swatch(pen, 20, 20, {std::string(row.code), "WH"});
        for (const page::Mark& mark : box.marks)
            if (const auto* line = std::get_if<page::Line>(&mark)) {
                CHECK(std::min(line->x1, line->x2) >= 20 - 1e-6);
                CHECK(std::max(line->x1, line->x2) <= 20 + swatch_width + strand_length + 1e-6);
                CHECK(std::min(line->y1, line->y2) >= 20 - 1e-6);
                CHECK(std::max(line->y1, line->y2) <= 20 + swatch_height + 1e-6);
            }
    }
}
