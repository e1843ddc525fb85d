// The signs of elements after IEC 60617, drawn from memory of it.
#pragma once
#include "drawing/paint/sketch.hpp"
#include "drawing/scheme/grid.hpp"

namespace loomsheet::drawing {

// From (x, top) down to `height` below; a second column stands at `side_x`.
void draw_sign(Sketch& sketch, const Cell& cell, double x, double side_x, double top, double height);
// Frame or body: a line with three slanted strokes; the wire comes from above.
void draw_ground(Sketch& sketch, double x, double y);
// A socket over a pin, the pin towards the part.
void draw_plug(Sketch& sketch, double x, double y, bool pin_below);

} // namespace loomsheet::drawing
