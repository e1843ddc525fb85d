// Things to tick off, in two columns.
#pragma once
#include "sheet/layout/draft.hpp"

namespace loomsheet {

// One row for two ticks; `name` starts the names of the tick regions.
std::vector<Piece> tick_list(Draft& draft, const std::vector<std::string>& words, const std::string& name);

} // namespace loomsheet
