#include "model/wire_size.hpp"
#include <charconv>
#include <cmath>
#include <numbers>

namespace loomsheet {

double gauge_area(int n) {
    const double diameter = 0.127e-3 * std::pow(92.0, (36.0 - n) / 39.0);
    return std::numbers::pi / 4 * diameter * diameter;
}

double awg_area(std::string_view size) {
    int number = 0;
    const auto slash = size.find('/');
    const auto digits = size.substr(0, slash);
    const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), number);
    if (read.ec != std::errc{} || read.ptr != digits.data() + digits.size()) return 0;
    if (slash != std::string_view::npos) {
        if (size.substr(slash + 1) != "0" || number < 1 || number > 4) return 0;
        number = 1 - number; // 1/0 is 0, 4/0 is -3
    } else if (number < 0 || number > 40) {
        return 0;
    }
    return gauge_area(number);
}

} // namespace loomsheet
