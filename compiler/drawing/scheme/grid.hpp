// The inside of a part as a small grid: its elements in columns and rows, what joins them as bars in the gaps between
// rows. Columns are elastic: a grid says what stands in which, the layout says where they are.
#pragma once
#include "model/circuit.hpp"
#include <string>
#include <vector>

namespace loomsheet::drawing {

enum class Sign : std::uint8_t {
    battery,
    fuse,
    breaker,
    coil,
    contact,
    change_over,
    motor,
    lamp,
    heater,
    solenoid,
    horn,
    resistor,
    diode,
    ntc,
    pot,
    inductor,
};
double height_of(Sign sign);               // mm, without leads
double half_width_of(Sign sign);           // mm from its column to either side
inline constexpr double label_pitch = 3.6; // mm from line to line beside a sign

// One element between two joints, the upper of higher volts; `side` is the wiper of a pot or the second throw, which
// has the next column.
struct Cell {
    Sign sign = Sign::lamp;
    int top = none, bottom = none, side = none; // joints inside the part, by number
    bool side_up = false;                       // whether the side leads up
    bool turned = false;            // of a diode: conducts upward; of a battery: plus is below; of a change-over: its common is below
    bool closed = false;            // of a contact: at rest
    std::vector<std::string> label; // lines: a part inside an assembly, the positions that close a contact
    int column = none, row = 0, to_row = 1; // it spans rows [row, to_row), its sign stands in the first
    int columns() const { return side == none ? 1 : 2; }
};
struct GridPin { // comes out at the top or the bottom
    int joint = none;
    bool top = true;
    int column = none;
};
struct Bar { // joins columns in the gap above row `gap`
    int joint = none, gap = 0, from = 0, to = 0, track = 0;
};
struct Grid {
    std::vector<Cell> cells;
    std::vector<GridPin> pins;
    std::vector<int> level; // by joint: the gap it lies in
    std::vector<Bar> bars;
    std::vector<int> tracks;        // by gap
    std::vector<double> row_height; // by row
    int columns = 0, rows = 0;
    bool linked = false; // a coil moves its contacts

    double gap_height(int gap) const;
    double height() const;
    double row_top(int row) const; // below the upper edge
    double bar_y(const Bar& bar) const;
};

// Places cells and pins. `order` ranks the joints from high to low volts.
Grid lay_grid(std::vector<Cell> cells, std::vector<GridPin> pins, int joints);

} // namespace loomsheet::drawing
