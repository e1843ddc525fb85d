// Wire sizes: ASTM B258, d = 0.127 mm × 92^((36 − n)/39).
#pragma once
#include <string_view>

namespace loomsheet {

// Cross-section in m² of number n; 0 for 1/0, -1 for 2/0, -3 for 4/0.
double gauge_area(int n);
// The same of "10", "1/0", "4/0"; 0 for what is no size.
double awg_area(std::string_view size);

} // namespace loomsheet
