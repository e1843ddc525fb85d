#include "page/code.hpp"
#include <doctest/doctest.h>
#include <numeric>

using namespace loomsheet;

TEST_CASE("capitals and figures take the cheaper mode") {
    // ISO/IEC 18004, level L, read from its capacity table (from memory): version 1 (21 modules) holds 25 characters in
    // alphanumeric mode, version 2 (25 modules) 47, and 32 in byte mode.
    CHECK(code_modules(std::string(25, 'A')) == 21);
    CHECK(code_modules(std::string(26, 'A')) == 25);
    CHECK(code_modules(std::string(47, 'A')) == 25);
    CHECK(code_modules(std::string(48, 'A')) == 29);
    CHECK(code_modules(std::string(32, 'a')) == 25);
    CHECK(code_modules(std::string(33, 'a')) == 29);
}

TEST_CASE("what does not fit is not drawn") {
    page::Page page;
    CHECK(code_modules(std::string(4000, 'a')) == 0);
    CHECK_FALSE(draw_code(page, 0, 0, 10, std::string(4000, 'a')));
    CHECK_FALSE(draw_code(page, 0, 0, 10, ""));
    CHECK(page.marks.empty());
}

TEST_CASE("rectangles cover the black modules, each once") {
    page::Page page;
    REQUIRE(draw_code(page, 185, 4.2, 12.5, "FAN-01 R3 P3/7 7C1E09A4 X21"));
    REQUIRE(page.marks.size() == 1);
    const auto& code = std::get<page::Code>(page.marks[0]);
    CHECK(code.side == 25);
    CHECK(code.words == "FAN-01 R3 P3/7 7C1E09A4 X21");
    // The finder in the top left corner: a 7 x 7 ring around a 3 x 3 block.
    for (std::size_t i = 0; i < 7; ++i)
        CHECK(code.black[i]);
    CHECK_FALSE(code.black[7]);
    CHECK_FALSE(code.black[25 + 1]);
    CHECK(code.black[2 * 25 + 2]);

    std::vector<int> covered(code.black.size());
    for (const BlackModules& run : black_modules(code)) {
        for (std::size_t row = run.row; row < run.row + run.rows; ++row) {
            for (std::size_t column = run.column; column < run.column + run.columns; ++column)
                ++covered.at(row * 25 + column);
        }
    }
    CHECK(std::vector<int>(code.black.begin(), code.black.end()) == covered);
    CHECK(black_modules(code).size() < static_cast<std::size_t>(std::accumulate(covered.begin(), covered.end(), 0)) / 2);
}
