// The drawing knows no sheet: this must not compile (tests/CMakeLists.txt).
#include "drawing/drawing.hpp"
#include "sheet/sheet.hpp"
