#include "help.hpp"
#include "pdf/content.hpp"
#include "pdf/trouble.hpp"
#include <cstdio>
#include <doctest/doctest.h>
#include <sstream>

using namespace loomsheet;
using page::Face, page::Ink;

namespace {

FontUses fonts() {
    const auto use = [](Face face) { return FontUse(help::faces(), face); };
    return {use(Face::S), use(Face::SB), use(Face::N), use(Face::NB), use(Face::spare), use(Face::spare_bold), use(Face::wide)};
}

// On a page of 25.4 x 25.4 mm = 72 x 72 pt.
std::string drawn(const std::vector<page::Mark>& marks) {
    FontUses uses = fonts();
    Content content(25.4, uses);
    for (const page::Mark& mark : marks)
        content.add(mark);
    return content.take();
}

constexpr double inch = 25.4;

} // namespace

TEST_CASE("y runs upwards in the PDF, and a state is set once") {
    CHECK(drawn({page::Line{0, 0, inch, inch / 2, 2, {}}}) == "2 w\n0 72 m\n72 36 l\nS\n");
    CHECK(drawn({page::Line{0, 0, inch, 0, 1, {}}}) == "0 72 m\n72 72 l\nS\n"); // 1 pt is where a PDF begins
    // Equal strokes are one path; another width, a fill or a text ends it.
    CHECK(drawn({page::Line{0, 0, inch, 0, 2, {}}, page::Rect{0, 0, inch, inch, 2}, page::Line{0, 0, 0, inch, 0.75, {}}}) ==
          "2 w\n0 72 m\n72 72 l\n0 0 72 72 re\nS\n.75 w\n0 72 m\n0 0 l\nS\n");
    CHECK(drawn({page::Line{0, 0, inch, 0, 1, {inch, inch / 2}}, page::Line{0, 0, inch, 0, 1, {}}}) ==
          "[72 36 ] 0 d\n0 72 m\n72 72 l\nS\n[] 0 d\n0 72 m\n72 72 l\nS\n");
}

TEST_CASE("fills") {
    CHECK(drawn({page::Rect{0, 0, inch, inch, 0, Ink::black}, page::Rect{inch, inch, -inch, -inch, 0, Ink::black}}) ==
          "0 0 72 72 re\n0 0 72 72 re\nf\n");
    // White over black: the order stays.
    CHECK(drawn({page::Rect{0, 0, inch, inch, 0, Ink::black}, page::Rect{0, 0, inch, inch, 1, Ink::white},
                 page::Rect{0, 0, inch, inch, 1, Ink::white}}) == "0 0 72 72 re\nf\n1 g\n0 0 72 72 re\nB\n0 0 72 72 re\nB\n");
    CHECK(drawn({page::Path{{{0, 0}, {inch, 0}, {inch, inch}}, 0, true, Ink::black, {}}}) == "0 72 m\n72 72 l\n72 0 l\nh\nf\n");
}

TEST_CASE("what has neither stroke nor fill is not drawn") {
    CHECK(drawn({page::Rect{0, 0, inch, inch, 0, Ink::none}, page::Line{0, 0, 1, 1, 0, {}}, page::Circle{1, 1, 1, 0, Ink::none},
                 page::Path{{{1, 1}}, 1, false, Ink::none, {}}, page::Path{}, page::Link{0, 0, 1, 1, 0},
                 page::Text{0, 0, "a", Face::S, 9, 0, Ink::none}, page::Text{}}) == "");
}

TEST_CASE("a circle is four arcs around its middle; a round rectangle has round corners") {
    CHECK(drawn({page::Circle{inch, 0, inch, 1, Ink::none}}) ==
          "q 1 0 0 1 72 72 cm\n72 0 m\n72 39.76 39.76 72 0 72 c\n-39.76 72 -72 39.76 -72 0 c\n"
          "-72 -39.76 -39.76 -72 0 -72 c\n39.76 -72 72 -39.76 72 0 c\nh S\nQ\n");
    const std::string round = drawn({page::Rect{0, 0, 2 * inch, inch, 1, Ink::none, inch / 4}});
    CHECK(round.find("18 0 m\n126 0 l\n135.94 0 144 8.06 144 18 c\n144 54 l\n") == 0);
    // A radius of more than half the height is cut to it, and the sides are gone.
    const std::string pill = drawn({page::Rect{0, 0, 2 * inch, inch, 1, Ink::none, inch}});
    CHECK(pill.find("36 0 m\n108 0 l\n127.88 0 144 16.12 144 36 c\n144 55.88 127.88 72 108 72 c\n") == 0);
}

TEST_CASE("texts share one text object, and every character has its own code") {
    CHECK(drawn({page::Text{0, 0, "aba", Face::S, 12}, page::Text{inch, inch, "Ωb", Face::S, 12},
                 page::Text{0, 0, "a", Face::SB, 12, 0, Ink::white}, page::Text{0, 0, "a", Face::S, 10.5}}) ==
          "BT\n/F0 12 Tf\n0 72 Td\n<000100020001> Tj\n72 -72 Td\n<00030002> Tj\n"
          "1 g\n/F1 12 Tf\n-72 72 Td\n<0001> Tj\n0 g\n/F0 10.5 Tf\n0 0 Td\n<0001> Tj\nET\n");
    CHECK(drawn({page::Text{0, 0, "a", Face::S, 12}, page::Line{0, 0, inch, 0, 1, {}}, page::Text{0, 0, "a", Face::S, 12}}) ==
          "BT\n/F0 12 Tf\n0 72 Td\n<0001> Tj\nET\n0 72 m\n72 72 l\nS\nBT\n0 72 Td\n<0001> Tj\nET\n");
}

TEST_CASE("rounding does not add up along a column of texts") {
    std::vector<page::Mark> marks;
    for (int i = 0; i < 300; ++i)
        marks.emplace_back(page::Text{0, 0.0017 * i, "a", Face::S, 12});
    std::istringstream content(drawn(marks));
    double x = 0, y = 0, step = 0;
    for (std::string line; std::getline(content, line);) {
        if (line.ends_with(" Td") && std::sscanf(line.c_str(), "%lf %lf", &x, &step) == 2) y += step;
    }
    CHECK(y == doctest::Approx(72 - 299 * 0.0017 / mm_per_pt).epsilon(0.005 / 72));
}

TEST_CASE("a face that lacks a character says so") {
    CHECK_THROWS_WITH_AS(drawn({page::Text{0, 0, "a✓", Face::S, 12}}), doctest::Contains("U+2713"), PdfTrouble);
    CHECK(help::faces().missing("aก") == std::vector<char32_t>{U'ก'});
    CHECK_THROWS_WITH_AS(drawn({page::Text{0, 0, "ก", Face::spare, 12}}), doctest::Contains("U+0E01"), PdfTrouble);
}
