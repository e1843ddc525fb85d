// Running head in the clip zone, foot, and the strip of check numbers: on every page.
#pragma once
#include "sheet/layout/context.hpp"

namespace loomsheet {

// Where content ends above the strip, mm from the upper edge of a page `height` high.
double content_bottom(const Axes& axis, double height);
// Draws head and foot on all pages; `digest` has eight capitals.
void draw_frames(LayoutContext& context, std::vector<page::Page>& pages, const std::string& digest);

} // namespace loomsheet
