// A code that a phone reads (ISO/IEC 18004, by libqrencode), level M or L. Capitals, figures and " $%*+-./:" take the
// fewest modules.
#pragma once
#include "page/page.hpp"
#include <string>
#include <vector>

namespace loomsheet {

// Adds one mark `size` mm wide, top left at (x, y). The caller leaves 4 modules of white around it.
// False when `words` are empty or do not fit (then nothing is drawn).
bool draw_code(page::Page& page, double x, double y, double size, const std::string& words);
// Modules along one side for these words, 0 when they do not fit.
int code_modules(const std::string& words);
// Black modules side by side, counted from the top left corner.
struct BlackModules {
    std::size_t column = 0, row = 0, columns = 0, rows = 0;
};
// All that is black, each module once: runs of a row, merged down the rows where they are equal.
std::vector<BlackModules> black_modules(const page::Code& code);

} // namespace loomsheet
