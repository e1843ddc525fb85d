// Cycle removal, the first step of a layered drawing: after it every edge of a scheme can lead down.
#pragma once
#include "drawing/scheme/scheme.hpp"

namespace loomsheet::drawing {

// An edge that leads back up turns round twice: below its upper end and above its lower end.
void remove_cycles(Scheme& scheme);

} // namespace loomsheet::drawing
