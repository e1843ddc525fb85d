// Pictures of the drawing room on pages of the sheet.
#pragma once
#include "drawing/drawing.hpp"
#include "sheet/layout/context.hpp"

namespace loomsheet {

// `faces` outlives it.
drawing::Measure measure_with(const Faces& faces);
// `say` outlives it.
drawing::Phrases drawing_phrases(const Wording& say);
// What a picture may measure, under its title.
drawing::Area drawing_area(LayoutContext& context);
// Pages of their own under one title.
Block picture_block(LayoutContext& context, const std::vector<drawing::Picture>& pictures, const std::string& title);
// Its upper left corner at (left, top). What no face has is left out: all its words stand in other blocks too, with
// their places.
void draw_picture(Pen& pen, const Faces& faces, const drawing::Picture& picture, double left, double top);

} // namespace loomsheet
