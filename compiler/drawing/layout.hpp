// The whole way from a scheme to places.
#pragma once
#include "drawing/paint.hpp"

namespace loomsheet::drawing {

Layout lay_out(const Ruler& ruler, const Layered& layered, double page_width, long effort);
// Without the bars between its layers: what a layout's height is at least.
double least_height(const Ruler& ruler, const Layered& layered);

} // namespace loomsheet::drawing
