// `allow LS311 "why"`: a warning accepted on purpose.
#pragma once
#include "model/plan.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

// Takes warnings out of `findings` that an allowance of the plan (anywhere) or of the statement they point at accepts,
// marks the allowance as used, and adds LS312 for those that nothing needed, once there are no errors. Errors cannot be
// allowed.
void apply_allowances(Plan& plan, Findings& findings);

} // namespace loomsheet
