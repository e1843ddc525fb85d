// The blocks from which a template may choose, one row each.
#pragma once
#include "sheet/layout/template.hpp"

namespace loomsheet {

std::span<const BlockRow> block_rows();

} // namespace loomsheet
