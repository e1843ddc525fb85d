// Things to tick off, in two columns.
#pragma once
#include "sheet/layout/context.hpp"

namespace loomsheet {

// One row for two ticks; `name` starts the names of the tick regions.
std::vector<Box> tick_list(LayoutContext& context, const std::vector<std::string>& words, const std::string& name);

} // namespace loomsheet
