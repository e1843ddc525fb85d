// The second opinion on one plan: cars drawn over all their tolerances, read, walked, and held against what the program says of them.
#pragma once
#include "oracle/technician.hpp"
#include <ostream>

namespace oracle {

struct Asked {
    std::uint64_t seed = 1;
    std::size_t cars = 2000;       // that complain and are walked
    std::size_t sound_cars = 400;  // that are read
    std::size_t each_harmless = 3; // cars with each fault that is said to cause no complaint
    std::size_t old_batteries = 100;
    std::string only = {}; // faults whose words begin so
};
struct Disagreement {
    std::string what;    // "usual value", "range", "ending", "wrong part", "harmless" ...
    std::string where;   // the row, the fault and the end: counted by it
    std::string example; // the first that was met
    std::size_t count = 0;
};
struct Opinion {
    std::vector<Disagreement> disagreements;
    std::size_t values = 0, readings = 0, walked = 0, wrong_allowed = 0, wrong_told = 0, not_understood = 0, blurred = 0, drawn = 0;
    void add(const std::string& what, const std::string& where, const std::string& example);
    std::size_t count(const std::string& what) const;
};
// One of `plans` of `proof --format json`.
Opinion second_opinion(const Json& proved, const Asked& asked);
void print(std::ostream& out, const std::string& plan, const Opinion& opinion);

} // namespace oracle
