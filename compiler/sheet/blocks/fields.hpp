// Rows of frames to write in: head of the job, sign-off.
#pragma once
#include "sheet/layout/context.hpp"

namespace loomsheet {

// What the plan fills in wraps and makes the row higher. `name` starts the names of the regions.
std::vector<Box> field_rows(LayoutContext& context, const FieldLines& lines, const std::string& name);

} // namespace loomsheet
