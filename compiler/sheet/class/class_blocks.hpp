// The blocks of the class.
#pragma once
#include "sheet/layout/draft.hpp"

namespace loomsheet {

Block aim_block(Draft& draft);
Block questions_block(Draft& draft); // of the plan, beyond its checks
Block marks_block(Draft& draft);
Block cards_block(Draft& draft); // of each planted fault a front for the class and a back for the instructor

} // namespace loomsheet
