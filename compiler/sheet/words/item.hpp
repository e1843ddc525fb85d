// What a set-up item names, in words: used by the ticks and by the line of the whole set-up.
#pragma once
#include "model/plan.hpp"
#include "sheet/words/words.hpp"
#include <string>
#include <vector>

namespace loomsheet {

std::string part_id(const Circuit& circuit, const SetupItem& item);
std::vector<std::string> part_ids(const Circuit& circuit, const SetupItem& item);
// "on"; "crank"
std::string key_words(const Wording& say, const SetupItem& item);
std::string value_words(const Wording& say, const SetupItem& item);
// "21 W" is a lamp, "150 A" a load of its own.
bool is_lamp(const SetupItem& item);
// Whether a bridge or load says between which points it lies; `pattern` has places for both.
bool has_ends(const SetupItem& item);
std::string ends_words(const Wording& say, const Circuit& circuit, const SetupItem& item, Word pattern);
// A load across the points measured moves from row to row where there are several: then it has no two points of its
// own.
void forget_ends_in_rows(SetupItem& item, const Check& check);
std::string across_words(const Wording& say, const Circuit& circuit, const SetupItem& item);
// Outputs of one module stand together: "U1.47", or "U2: 1 2 4".
bool same_module(const Circuit& circuit, const SetupItem& a, const SetupItem& b);
std::string outputs_words(const Wording& say, const Circuit& circuit, const std::vector<PinId>& pins);

} // namespace loomsheet
