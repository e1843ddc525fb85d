// The numbers of the checks and the letters of the verdicts, as they are printed.
#pragma once
#include "model/plan.hpp"
#include <string>
#include <vector>

namespace loomsheet {

struct Order {
    std::vector<int> checks;          // in the order of their numbers; a permutation of the plan's checks
    std::vector<int> numbers;         // of each check of the plan, from 1
    std::vector<int> verdicts;        // in the order of their letters
    std::vector<std::string> letters; // of each verdict of the plan
};

// Depth first from the start, pass first; then the checks that only prove a repair; then what nothing leads to
// (exercises). Verdicts take letters as the checks come to them; I and O are left out.
Order order_of(const Plan& plan);

// "A" .. "Z" without I and O, then "AA", "AB" ...
std::string verdict_letter(std::size_t place);

} // namespace loomsheet
