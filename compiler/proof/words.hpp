// How the rules put things into words.
#pragma once
#include "circuit/graph.hpp"
#include "faults/coverage.hpp"
#include "source/english.hpp"
#include <string>
#include <vector>

namespace loomsheet {

// Lines of as many cells as the first, in columns.
std::string laid_out(const std::vector<std::vector<std::string>>& lines);
// 12.6, 0.8, 110: at most two decimals, none that are zero.
std::string number_words(double number);
// The things on the way, in its order and each once: W1, F1, W6, K5
std::vector<std::string> way_words(const Circuit& circuit, const Graph& graph, const std::vector<int>& way);
// "W3, S1.2 to X1.1", "joint X1.1", "K5 (Fan relay)"
std::string suspect_words(const Circuit& circuit, const Suspect& suspect);
// Of 100 cars; what is not quite all or nothing is not rounded to it.
std::string of_hundred(double share);

} // namespace loomsheet
