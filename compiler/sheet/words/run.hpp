// What is suspect, in words.
#pragma once
#include "faults/suspects.hpp"
#include "sheet/words/words.hpp"
#include <string>
#include <vector>

namespace loomsheet {

// What a run takes in (faults/between.hpp): "W1 RD", "contact F1.1", "F1 Fan". Only the two ends when nothing joins them.
std::vector<std::string> run_words(const Wording& say, const Circuit& circuit, const PointRef& from, const PointRef& to);
// One suspect: "W8 BU/WH", "M3 Fan motor", "X21.2", "contact X30.1".
std::string suspect_words(const Wording& say, const Circuit& circuit, const PointRef& point);

std::vector<std::string> suspect_words(const Wording& say, const Circuit& circuit, const std::vector<RankedSuspect>& ranked);
// The same with their places, each once: "contact F14.1", "F14 Fan (engine bay box, slot 14)".
std::vector<std::string> placed_words(const Wording& say, const Circuit& circuit, const std::vector<RankedSuspect>& ranked);

// What a stop at `suspects` leaves: its run or its list; empty when the plan names none.
std::vector<std::string> suspects_of(const Wording& say, const Circuit& circuit, const Target& target);
std::vector<std::string> blames_of(const Wording& say, const Circuit& circuit, const Verdict& verdict);
// What the bad outcomes of this check point at directly: their stops and verdicts, each once.
std::vector<std::string> suspects_of(const Wording& say, const Plan& plan, const Check& check);

} // namespace loomsheet
