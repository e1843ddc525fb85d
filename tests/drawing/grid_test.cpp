// The inside of a part: which cells stand under one another, which side by side, and what joins them.
#include "drawing/scheme/grid.hpp"
#include "hand.hpp"
#include <algorithm>
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

Cell cell(int top, int bottom, Sign sign = Sign::lamp) {
    Cell made;
    made.sign = sign, made.top = top, made.bottom = bottom;
    return made;
}
Cell change_over(int common, int rest, int side) {
    Cell made = cell(common, rest, Sign::change_over);
    made.side = side;
    return made;
}

void cells_keep_apart(const Grid& grid) {
    for (std::size_t i = 0; i < grid.cells.size(); ++i) {
        const Cell& a = grid.cells[i];
        CHECK((a.column >= 0 && a.column + a.columns() <= grid.columns));
        CHECK((a.row >= 0 && a.to_row <= grid.rows && a.row < a.to_row));
        for (std::size_t j = i + 1; j < grid.cells.size(); ++j) {
            const Cell& b = grid.cells[j];
            const bool columns = a.column < b.column + b.columns() && b.column < a.column + a.columns();
            CHECK_FALSE((columns && a.row < b.to_row && b.row < a.to_row));
        }
    }
    for (std::size_t i = 0; i < grid.bars.size(); ++i)
        for (std::size_t j = i + 1; j < grid.bars.size(); ++j) {
            const Bar &a = grid.bars[i], &b = grid.bars[j];
            CHECK_FALSE((a.gap == b.gap && a.track == b.track && a.from <= b.to && b.from <= a.to));
        }
}

} // namespace

TEST_CASE("two cells in series stand in one column, two rows, without a bar") {
    const Grid grid = lay_grid({cell(0, 1), cell(1, 2)}, {{0, true}, {2, false}}, 3);
    CHECK(grid.columns == 1);
    CHECK(grid.rows == 2);
    CHECK(grid.cells[0].row == 0);
    CHECK(grid.cells[1].row == 1);
    CHECK(grid.level == std::vector<int>{0, 1, 2});
    CHECK(grid.bars.empty());
    CHECK(grid.pins[0].column == 0);
    CHECK(grid.pins[1].column == 0);
}

TEST_CASE("two cells side by side have two columns and a bar above and below") {
    const Grid grid = lay_grid({cell(0, 1), cell(0, 1)}, {{0, true}, {1, false}}, 2);
    CHECK(grid.columns == 2);
    CHECK(grid.rows == 1);
    REQUIRE(grid.bars.size() == 2);
    CHECK((grid.bars[0].gap == 0 && grid.bars[0].from == 0 && grid.bars[0].to == 1));
    CHECK((grid.bars[1].gap == 1 && grid.bars[1].from == 0 && grid.bars[1].to == 1));
    CHECK(grid.tracks == std::vector<int>{1, 1});
}

TEST_CASE("a cell beside a chain of two spans both rows") {
    const Grid grid = lay_grid({cell(0, 1), cell(1, 2), cell(0, 2)}, {{0, true}, {1, false}, {2, false}}, 3);
    CHECK(grid.rows == 2);
    CHECK((grid.cells[2].row == 0 && grid.cells[2].to_row == 2));
    cells_keep_apart(grid);
}

TEST_CASE("of two ways down, the longer one gives the level; what feeds nothing lies at the foot") {
    // 0 over 1 over 2, and 3 below 0 alone
    const Grid grid = lay_grid({cell(0, 1), cell(1, 2), cell(0, 3)}, {{3, false}}, 4);
    CHECK(grid.level == std::vector<int>{0, 1, 2, 2});
}

TEST_CASE("a pin that no cell has lies at its own edge, in a column of its own") {
    const Grid grid = lay_grid({cell(0, 1)}, {{0, true}, {1, false}, {2, true}, {3, false}}, 4);
    CHECK(grid.level[2] == 0);
    CHECK(grid.level[3] == 1);
    CHECK(grid.columns == 3);
    CHECK(grid.pins[2].column != grid.pins[0].column);
    CHECK(grid.pins[3].column != grid.pins[2].column);
}

TEST_CASE("a second throw has the next column, and its pin stands there") {
    const Grid grid = lay_grid({change_over(0, 1, 2)}, {{0, true}, {1, false}, {2, false}}, 3);
    CHECK(grid.columns >= 2);
    CHECK(grid.cells[0].columns() == 2);
    CHECK(grid.level[2] == 1);
    cells_keep_apart(grid);
    Cell up = change_over(0, 1, 2);
    up.side_up = true;
    const Grid turned = lay_grid({up}, {{0, true}, {1, false}, {2, true}}, 3);
    CHECK(turned.level[2] == 0); // it leads up
}

TEST_CASE("columns are ordered so that no bar crosses the line of another joint, where that can be") {
    // The joint 0 joins the outer columns as given; moved side by side they cross nothing.
    const Grid grid = lay_grid({cell(0, 2), cell(1, 3), cell(0, 4)}, {{0, true}, {1, true}, {2, false}, {3, false}, {4, false}}, 5);
    CHECK(std::abs(grid.cells[0].column - grid.cells[2].column) == 1);
    REQUIRE(grid.bars.size() == 1);
    CHECK(grid.bars[0].to - grid.bars[0].from == 1);
    CHECK(grid.bars[0].joint == 0);
}

TEST_CASE("rows are as high as their highest sign, gaps as their bars ask") {
    const double lamp = height_of(Sign::lamp) + 0.8, fuse = height_of(Sign::fuse) + 0.8;
    const Grid chain = lay_grid({cell(0, 1), cell(1, 2, Sign::fuse)}, {{0, true}, {2, false}}, 3);
    CHECK(chain.row_height == std::vector<double>{lamp, fuse});
    CHECK(chain.gap_height(0) == doctest::Approx(0.6));
    CHECK(chain.row_top(0) == doctest::Approx(0.6));
    CHECK(chain.row_top(1) == doctest::Approx(0.6 + lamp + 0.6));
    CHECK(chain.height() == doctest::Approx(3 * 0.6 + lamp + fuse));
    const Grid pair = lay_grid({cell(0, 1), cell(0, 1)}, {{0, true}, {1, false}}, 2);
    CHECK(pair.gap_height(0) == doctest::Approx(0.6 + 2.4));
    CHECK(pair.bar_y(pair.bars[0]) == doctest::Approx(0.3 + 1.2));
    CHECK(pair.bar_y(pair.bars[1]) == doctest::Approx(3.0 + lamp + 0.3 + 1.2));
    Cell labelled = cell(0, 1);
    labelled.label = {"one", "two", "three", "four"};
    CHECK(lay_grid({labelled}, {{0, true}, {1, false}}, 2).row_height[0] == doctest::Approx(4 * label_pitch));
}

TEST_CASE("only a coil beside a contact is linked with it") {
    const auto linked = [](Sign one, Sign other) {
        return lay_grid({cell(0, 1, one), cell(2, 3, other)}, {{0, true}, {1, false}, {2, true}, {3, false}}, 4).linked;
    };
    CHECK(linked(Sign::coil, Sign::contact));
    CHECK(linked(Sign::change_over, Sign::coil));
    CHECK_FALSE(linked(Sign::coil, Sign::lamp));
    CHECK_FALSE(linked(Sign::contact, Sign::solenoid));
}

TEST_CASE("generated insides: cells keep apart, every joint is held together") {
    hand::Chance chance(4);
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        const int joints = 2 + chance.below(5);
        std::vector<Cell> cells;
        for (int i = 0; i < 1 + chance.below(5); ++i) {
            const int top = chance.below(joints - 1);
            cells.push_back(cell(top, top + 1 + chance.below(joints - 1 - top)));
            if (chance.below(4) == 0 && joints > 2) cells.back().side = joints - 1;
            if (cells.back().side == cells.back().bottom || cells.back().side == cells.back().top) cells.back().side = none;
        }
        std::vector<GridPin> pins;
        for (int joint = 0; joint < joints; ++joint)
            if (chance.below(3) != 0) pins.push_back({joint, joint < joints / 2});
        const Grid grid = lay_grid(cells, pins, joints);
        cells_keep_apart(grid);
        for (const Cell& each : grid.cells) // a joint's columns all lie on its bar
            for (const Cell& other : grid.cells)
                if (each.bottom == other.top && each.column != other.column)
                    CHECK(std::any_of(grid.bars.begin(), grid.bars.end(), [&](const Bar& bar) {
                        return bar.joint == each.bottom && bar.from <= std::min(each.column, other.column) &&
                               std::max(each.column, other.column) <= bar.to;
                    }));
    }
}
