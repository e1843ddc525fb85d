// A code that a phone reads (ISO/IEC 18004, by libqrencode), level M, drawn as merged black rectangles.
#pragma once
#include "sheet/page.hpp"
#include <string>

namespace loomsheet {

// Adds the modules to `page`, `size` mm wide, top left at (x, y). The caller leaves 4 modules of white around it.
// False when `words` do not fit (then nothing is drawn).
bool draw_code(page::Page& page, double x, double y, double size, const std::string& words);
// Modules along one side for these words, 0 when they do not fit.
int code_modules(const std::string& words);

} // namespace loomsheet
