#include "oracle/usual.hpp"
#include <cmath>
#include <nlohmann/json.hpp>
#include <stdexcept>

namespace oracle {

double Dice::between(double low, double high) { return low + (high - low) * std::generate_canonical<double, 53>(engine_); }
double Dice::log_between(double low, double high) { return std::exp(between(std::log(low), std::log(high))); }
std::uint64_t Dice::number(std::uint64_t below) { return engine_() % below; }

double Dice::operator()(const Range& range) {
    switch (manner_) {
    case Manner::usual: return range.usual;
    case Manner::corner: return number(2) == 0 ? range.low : range.high;
    case Manner::uniform: return between(range.low, range.high);
    case Manner::triangular: break;
    }
    // Towards the usual value from both sides.
    const double left = range.usual - range.low, right = range.high - range.usual, all = left + right;
    if (all <= 0) return range.usual;
    const double at = between(0, 1), split = left / all;
    return at < split ? range.low + std::sqrt(at * all * left) : range.high - std::sqrt((1 - at) * all * right);
}

Usual::Usual(const Json& table) {
    for (const auto& [what, row] : table.items()) {
        const std::string unit = row.at("unit");
        const double base = unit.starts_with("mohm") || unit == "mA" ? 1e-3 : unit == "Mohm" ? 1e6 : unit.starts_with("%") ? 0.01 : 1;
        rows_[what] = Range{row.at("low"), row.at("value"), row.at("high")}.times(base);
    }
}

const Range& Usual::operator[](const std::string& what) const {
    const auto at = rows_.find(what);
    if (at == rows_.end()) throw std::runtime_error("no usual value: " + what);
    return at->second;
}

Range Usual::written(const Quantity& value, const std::string& row) const {
    if (value.plus_minus) return {value.low(), value.si, value.high()};
    return (*this)[row].times(value.si);
}

} // namespace oracle
