// What the program says.
#pragma once
#include "oracle/opinion.hpp"

namespace oracle {

// All that `proof --format json` says of a file, or of a text.
Json prove(const std::string& file);
Json prove_text(const std::string& text);
// What `predict --fault` prints; empty where the fault is refused.
std::string predict(const std::string& file, const std::string& fault);
// Each thing of the plan, or every nth of them from `first` on, planted and held against cars with that fault.
void hold_against_planted(const Json& proved, const std::string& file, std::uint64_t seed, Opinion& opinion, std::size_t first = 0,
                          std::size_t nth = 1);

// Plans by number: each is drawn, proved and given a second opinion. Those that the program refuses are told by their first finding.
struct Drawn {
    std::size_t plans = 0, cars = 0;
    std::vector<std::string> refused, disagree; // a text each, the plan's number in it
};
Drawn hold_against_random(std::uint64_t first, std::size_t count, std::size_t cars, std::ostream& out);

} // namespace oracle
