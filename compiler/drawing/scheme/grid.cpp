#include "drawing/scheme/grid.hpp"
#include <algorithm>
#include <numeric>

namespace loomsheet::drawing {
namespace {

constexpr double gap_base = 0.6, track_pitch = 2.4, beyond_sign = 0.8;

// Levels: the longest way down from a joint above all; what has nothing below it lies at the foot.
void level_joints(Grid& grid, int joints) {
    grid.level.assign(joints, 0);
    const auto lower = [&](int above, int below) {
        if (above == none || below == none || grid.level[below] > grid.level[above]) return false;
        grid.level[below] = grid.level[above] + 1;
        return true;
    };
    bool moved = true;
    for (int round = 0; moved && round < joints + 1; ++round) {
        moved = false;
        for (const Cell& cell : grid.cells) {
            moved = lower(cell.top, cell.bottom) || moved;
            if (cell.side != none) moved = (cell.side_up ? lower(cell.side, cell.bottom) : lower(cell.top, cell.side)) || moved;
        }
    }
    grid.rows = 1;
    for (const int level : grid.level)
        grid.rows = std::max(grid.rows, level);
    std::vector<char> feeds(joints, 0), used(joints, 0);
    for (const Cell& cell : grid.cells) {
        feeds[cell.top] = used[cell.top] = used[cell.bottom] = 1;
        if (cell.side != none) used[cell.side] = 1, feeds[cell.side] |= static_cast<char>(cell.side_up);
    }
    for (int joint = 0; joint < joints; ++joint)
        if (used[joint] && !feeds[joint]) grid.level[joint] = grid.rows;
    for (const GridPin& pin : grid.pins)
        if (!used[pin.joint]) grid.level[pin.joint] = pin.top ? 0 : grid.rows;
    for (Cell& cell : grid.cells) {
        cell.row = grid.level[cell.top];
        cell.to_row = std::max(cell.row + 1, grid.level[cell.bottom]);
        if (cell.side != none && !cell.side_up) cell.to_row = std::max(cell.to_row, grid.level[cell.side]);
        if (cell.side != none && cell.side_up) cell.row = std::min(cell.row, cell.to_row - 1);
    }
}

struct Place { // what stands in a column, to be permuted
    std::vector<int> cells, pins;
    int width = 1;
};

// A cell below another whose lower joint is its upper one shares its column.
std::vector<Place> columns_of(Grid& grid) {
    std::vector<Place> places;
    std::vector<std::vector<char>> taken; // by place and row
    const auto free_in = [&](int place, int from, int to) {
        for (int row = from; row < to; ++row)
            if (taken[place][row]) return false;
        return true;
    };
    const auto take = [&](int place, int from, int to) {
        for (int row = from; row < to; ++row)
            taken[place][row] = 1;
    };
    const auto add = [&] {
        places.emplace_back();
        taken.emplace_back(grid.rows, 0);
        return static_cast<int>(places.size()) - 1;
    };
    std::vector<int> order(grid.cells.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return grid.cells[a].row < grid.cells[b].row; });
    for (const int index : order) {
        const Cell& cell = grid.cells[index];
        int found = none;
        for (int p = 0; p < static_cast<int>(places.size()) && found == none; ++p) {
            if (cell.side != none || places[p].width > 1 || !free_in(p, cell.row, cell.to_row)) continue;
            for (const int other : places[p].cells)
                if (grid.cells[other].bottom == cell.top && grid.cells[other].to_row == cell.row) found = p;
        }
        if (found == none) found = add();
        places[found].cells.push_back(index);
        places[found].width = std::max(places[found].width, cell.columns());
        take(found, cell.row, cell.to_row);
    }
    for (int index = 0; index < static_cast<int>(grid.pins.size()); ++index) {
        const GridPin& pin = grid.pins[index];
        const int level = grid.level[pin.joint];
        int found = none;
        for (int p = 0; p < static_cast<int>(places.size()) && found == none; ++p) {
            const bool has = std::any_of(places[p].cells.begin(), places[p].cells.end(), [&](int c) {
                const Cell& cell = grid.cells[c];
                return pin.top ? cell.top == pin.joint && cell.row == level : cell.bottom == pin.joint && cell.to_row == level;
            });
            const bool free = pin.top ? free_in(p, 0, level) : free_in(p, level, grid.rows);
            const bool alone =
                std::none_of(places[p].pins.begin(), places[p].pins.end(), [&](int other) { return grid.pins[other].top == pin.top; });
            if (has && free && alone) found = p;
        }
        if (found == none) found = add();
        places[found].pins.push_back(index);
        pin.top ? take(found, 0, level) : take(found, level, grid.rows);
    }
    return places;
}

struct Reach { // of a joint in a gap
    int from = 0, to = 0;
    bool any = false;
    void touch(int column) {
        from = any ? std::min(from, column) : column;
        to = any ? std::max(to, column) : column;
        any = true;
    }
};

// Side joints lead out in the second column of their cell, where a pin of theirs may stand.
void place_columns(Grid& grid, const std::vector<Place>& places, const std::vector<int>& order) {
    int next = 0;
    for (const int p : order) {
        for (const int c : places[p].cells)
            grid.cells[c].column = next;
        for (const int pin : places[p].pins)
            grid.pins[pin].column = next;
        next += places[p].width;
    }
    grid.columns = next;
    grid.bars.clear();
    for (int joint = 0; joint < static_cast<int>(grid.level.size()); ++joint) {
        Reach reach;
        for (const Cell& cell : grid.cells) {
            if (cell.top == joint || cell.bottom == joint) reach.touch(cell.column);
            if (cell.side == joint) reach.touch(cell.column + 1);
        }
        for (const GridPin& pin : grid.pins)
            if (pin.joint == joint) reach.touch(pin.column);
        if (reach.any && reach.to > reach.from) grid.bars.push_back({joint, grid.level[joint], reach.from, reach.to, 0});
    }
    grid.tracks.assign(grid.rows + 1, 0);
    for (std::size_t i = 0; i < grid.bars.size(); ++i) {
        std::vector<char> used(grid.bars.size(), 0);
        for (std::size_t j = 0; j < i; ++j)
            if (grid.bars[j].gap == grid.bars[i].gap && grid.bars[j].from <= grid.bars[i].to && grid.bars[i].from <= grid.bars[j].to)
                used[grid.bars[j].track] = 1;
        grid.bars[i].track = static_cast<int>(std::find(used.begin(), used.end(), 0) - used.begin());
        grid.tracks[grid.bars[i].gap] = std::max(grid.tracks[grid.bars[i].gap], grid.bars[i].track + 1);
    }
}

// Bars that verticals of others cross, and how long the bars are.
int cost_of(const Grid& grid) {
    int cost = 0;
    for (const Bar& bar : grid.bars) {
        cost += 2 * (bar.to - bar.from);
        const auto crosses = [&](int joint, int column, int from_gap, int to_gap) {
            if (joint != bar.joint && column >= bar.from && column <= bar.to && from_gap <= bar.gap && bar.gap <= to_gap)
                cost += column == bar.from || column == bar.to ? 60 : 30;
        };
        for (const Cell& cell : grid.cells) {
            crosses(cell.bottom, cell.column, cell.row + 1, grid.level[cell.bottom]);
            crosses(cell.top, cell.column, grid.level[cell.top], cell.row);
            if (cell.side != none)
                crosses(cell.side, cell.column + 1, cell.side_up ? grid.level[cell.side] : cell.row + 1,
                        cell.side_up ? cell.row : grid.level[cell.side]);
        }
        for (const GridPin& pin : grid.pins)
            crosses(pin.joint, pin.column, pin.top ? 0 : grid.level[pin.joint], pin.top ? grid.level[pin.joint] : grid.rows);
    }
    return cost;
}

void order_columns(Grid& grid, const std::vector<Place>& places) {
    std::vector<int> order(places.size());
    std::iota(order.begin(), order.end(), 0);
    const auto cost = [&](const std::vector<int>& trial) {
        place_columns(grid, places, trial);
        return cost_of(grid);
    };
    int least = cost(order);
    for (bool better = true; better;) {
        better = false;
        for (std::size_t from = 0; from < order.size(); ++from)
            for (std::size_t to = 0; to < order.size(); ++to) {
                std::vector<int> trial = order;
                const int moved = trial[from];
                trial.erase(trial.begin() + static_cast<long>(from));
                trial.insert(trial.begin() + static_cast<long>(to), moved);
                if (const int price = cost(trial); price < least) least = price, order = trial, better = true;
            }
    }
    place_columns(grid, places, order);
}

} // namespace

double Grid::gap_height(int gap) const { return gap_base + tracks[gap] * track_pitch; }

double Grid::row_top(int row) const {
    double y = 0;
    for (int i = 0; i <= row; ++i)
        y += gap_height(i) + (i < row ? row_height[i] : 0);
    return y;
}

double Grid::height() const { return row_top(rows - 1) + row_height[rows - 1] + gap_height(rows); }

double Grid::bar_y(const Bar& bar) const {
    const double top = bar.gap == 0 ? 0 : row_top(bar.gap - 1) + row_height[bar.gap - 1];
    return top + gap_base / 2 + (bar.track + 0.5) * track_pitch;
}

Grid lay_grid(std::vector<Cell> cells, std::vector<GridPin> pins, int joints) {
    Grid grid;
    grid.cells = std::move(cells);
    grid.pins = std::move(pins);
    level_joints(grid, joints);
    order_columns(grid, columns_of(grid));
    grid.row_height.assign(grid.rows, 0);
    bool coil = false, contact = false;
    for (const Cell& cell : grid.cells) {
        grid.row_height[cell.row] =
            std::max({grid.row_height[cell.row], height_of(cell.sign) + beyond_sign, label_pitch * static_cast<double>(cell.label.size())});
        coil = coil || cell.sign == Sign::coil;
        contact = contact || cell.sign == Sign::contact || cell.sign == Sign::change_over;
    }
    grid.linked = coil && contact;
    return grid;
}

} // namespace loomsheet::drawing
