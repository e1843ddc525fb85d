// A whole set-up in one line, and what goes back at the end.
#pragma once
#include "model/plan.hpp"
#include "sheet/words/words.hpp"
#include <string>
#include <vector>

namespace loomsheet {

// "key on · U1.47 on · X21 unplugged"; the car at rest has words of its own.
std::string setup_words(const Wording& say, const Circuit& circuit, const Setup& setup);
// "X21 plugged in, lock clicks", one for each thing; nothing for what is only held by hand.
std::vector<std::string> put_back_words(const Wording& say, const Circuit& circuit, const SetupItem& item);

} // namespace loomsheet
