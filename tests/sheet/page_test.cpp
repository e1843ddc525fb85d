#include "page/page.hpp"
#include <array>
#include <clocale>
#include <cstdio>
#include <doctest/doctest.h>

using namespace loomsheet::page;

TEST_CASE("a document is dumped one mark a line") {
    Document document;
    document.title = "Radiator \"fan\"";
    document.outline = {{"Checks", 0}};
    Page page;
    page.regions = {{Role::reading, 75, 58.5, 44.3, 19, "check plug-feed reading"}};
    page.marks = {Text{18, 9.2, "FAN-01", Face::SB, 16, 20.126, Ink::black},
                  Text{18, 12, "3\nlines", Face::N, 10.5, 9, Ink::white},
                  Line{18, 26, 198, 26, 2, {}},
                  Line{0, 249, 210, 249, 1, {3, 2}},
                  Rect{18, 20, 7, 7, 1.25, Ink::none, 0},
                  Rect{75, 15, 17, 8, 2, Ink::white, 1.6},
                  Circle{124, 52.3, 4, 1.5, Ink::black},
                  Path{{{1, 2}, {3, 4}}, 1.5, true, Ink::white, {}},
                  Path{{{-0.001, 2}, {3, -4}}, 0.75, false, Ink::none, {0.6}},
                  Link{178, 48, 20, 8, 2},
                  Code{185, 4.2, 12.6, "FAN-01", 2, {true, false, false, true}}};
    document.pages = {page, Page{148, 210, {}, {}}};
    CHECK(dump(document) == R"(document en "Radiator \"fan\""
outline page 1 "Checks"

page 1 of 2 210.00 297.00
region reading 75.00 58.50 44.30 19.00 "check plug-feed reading"
text SB 16.00 at 18.00 9.20 wide 20.13 "FAN-01"
text N 10.50 at 18.00 12.00 wide 9.00 white "3\nlines"
line 18.00 26.00 198.00 26.00 pt 2.00
line 0.00 249.00 210.00 249.00 pt 1.00 dash 3.00 2.00
rect 18.00 20.00 7.00 7.00 pt 1.25
rect 75.00 15.00 17.00 8.00 pt 2.00 fill white round 1.60
circle 124.00 52.30 4.00 pt 1.50 fill black
path closed pt 1.50 fill white through 1.00 2.00 3.00 4.00
path pt 0.75 dash 0.60 through 0.00 2.00 3.00 -4.00
link 178.00 48.00 20.00 8.00 to page 3
code 185.00 4.20 12.60 2 modules "FAN-01"

page 2 of 2 148.00 210.00
)");
}

TEST_CASE("numbers keep the classic decimal point whatever the locale") {
    Document document;
    document.pages = {Page{210.5, 297, {}, {}}};
    const std::string classic = dump(document);
    const std::string before = std::setlocale(LC_ALL, nullptr);
    std::setlocale(LC_ALL, "de_DE.UTF-8");
    CHECK(dump(document) == classic);
    std::setlocale(LC_ALL, before.c_str());
    CHECK(classic.find("210.50") != std::string::npos);
}

TEST_CASE("numbers are rounded as printf rounds them") {
    Document document;
    document.pages = {Page{}};
    for (int i = -3000; i < 3000; ++i)
        document.pages[0].marks.emplace_back(Circle{i / 1000.0, i / 7.0, i * 12.345, 0, Ink::none});
    std::string expected = "document en \"\"\n\npage 1 of 1 210.00 297.00\n";
    for (int i = -3000; i < 3000; ++i) {
        expected += "circle";
        for (const double value : {i / 1000.0, i / 7.0, i * 12.345}) {
            std::array<char, 32> figures;
            std::snprintf(figures.data(), figures.size(), " %.2f", value);
            expected += std::string_view(figures.data()) == " -0.00" ? " 0.00" : figures.data();
        }
        expected += " pt 0.00\n";
    }
    CHECK(dump(document) == expected);
}
