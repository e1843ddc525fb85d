// A piece of wire as it looks: hatching that a monochrome copy keeps, a band for the stripe, bare strands at the end.
// It supports the code and the words beside it and never stands alone.
#pragma once
#include "model/circuit.hpp"
#include "page/pen.hpp"

namespace loomsheet {

inline constexpr double swatch_width = 16.5, swatch_height = 7.5, strand_length = 2.5;

// Top left at (x, y); with its strands it is 19 mm long.
void swatch(Pen& pen, double x, double y, const Colour& colour);

} // namespace loomsheet
