// The blocks of the class.
#pragma once
#include "sheet/layout/context.hpp"

namespace loomsheet {

Block aim_block(LayoutContext& context);
Block questions_block(LayoutContext& context); // of the plan, beyond its checks
Block marks_block(LayoutContext& context);
Block cards_block(LayoutContext& context); // of each planted fault a front for the class and a back for the instructor

} // namespace loomsheet
