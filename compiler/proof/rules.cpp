#include "proof/rules.hpp"

namespace loomsheet {

Findings prove(Plan&) { return {}; }

} // namespace loomsheet
