// The wires between two layers, drawn: verticals from the ports to a bar on its track, dots where more than two meet.
#pragma once
#include "drawing/paint/paint.hpp"
#include "drawing/paint/sketch.hpp"
#include "drawing/paint/wiring.hpp"

namespace loomsheet::drawing {

// From `top` to `bottom`.
void draw_channel(Sketch& sketch, Wiring& wiring, const Layout& layout, std::size_t channel, double top, double bottom);

} // namespace loomsheet::drawing
