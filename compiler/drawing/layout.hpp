// The whole way from a scheme to places.
#pragma once
#include "drawing/paint/paint.hpp"

namespace loomsheet::drawing {

Layout lay_out(const Ruler& ruler, const Layered& layered, double page_width, long effort);
// A layout in the order of another, which may have been written in another manner: about how large it gets, quickly;
// not to be painted.
Layout order_roughly(const Ruler& ruler, const Layered& layered, double page_width, long effort);
Layout place_roughly(const Ruler& ruler, const Layout& ordered, double page_width);
// Without the bars between its layers: what a layout's height is at least, but for the words of grounds that it joins.
double least_height(const Ruler& ruler, const Layered& layered);

} // namespace loomsheet::drawing
