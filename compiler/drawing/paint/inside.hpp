// The inside of a part: the signs of its elements, the lines that join them, the link from a coil to its contacts.
#pragma once
#include "drawing/paint/sketch.hpp"

namespace loomsheet::drawing {

struct Grid;
struct InsidePlace {
    std::vector<double> x;               // by column
    double top = 0;                      // of the grid
    double upper_end = 0, lower_end = 0; // how far the pins lead
};
void draw_inside(Sketch& sketch, const Grid& grid, const InsidePlace& place);

} // namespace loomsheet::drawing
