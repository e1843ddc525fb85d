// What a value can physically be in its place. Ranges are wide on purpose: they catch a slip of the unit, not an odd car.
// Common practice, no source, where none is named.
#pragma once
#include "model/quantity.hpp"
#include <span>
#include <string>
#include <string_view>

namespace loomsheet {

struct ReachRow {
    std::string_view role;   // "inner resistance"
    double low, high;        // in the base unit, ends in
    std::string_view limits; // the same in words
};
std::span<const ReachRow> reach_table();
const ReachRow* find_reach(std::string_view role);
// The same number with another prefix that would be in reach: "6 mΩ" for 6 MΩ; empty when none is.
std::string other_prefix(const Quantity& value, const ReachRow& row);

} // namespace loomsheet
