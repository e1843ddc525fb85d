// What the drawing room asks of the sheet's typefaces.
#pragma once
#include "drawing/drawing.hpp"
#include "sheet/pen.hpp"

namespace loomsheet {

// `faces` outlives it.
drawing::Measure measure_with(const Faces& faces);
drawing::Phrases drawing_phrases();
// Its upper left corner at (left, top).
void draw_picture(Pen& pen, const drawing::Picture& picture, double left, double top);

} // namespace loomsheet
