// Where a planted car goes, in the signs of the sheet.
#pragma once
#include "sheet/card/card.hpp"

namespace loomsheet {

// The number of a check, the letter of a verdict, "DONE", "STOP".
std::string sign_of(const LayoutContext& context, const Target* target);
// All that these outcomes may lead to, each once: "6", "D or STOP".
std::string ways_words(const LayoutContext& context, int check, OutcomeSet outcomes);

} // namespace loomsheet
