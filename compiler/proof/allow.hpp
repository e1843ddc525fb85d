// `allow LS311 "why"`: a warning accepted on purpose.
#pragma once
#include "model/plan.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

// LS7xx are found only when the plan is proved, all others whenever it is compiled.
enum class Family : std::uint8_t { compiled, proved };
// Takes warnings out of `findings` that an allowance of the plan (anywhere) or of the statement they point at accepts,
// and adds LS312 for those of the family that nothing needed, once there are no errors. Errors cannot be allowed.
void apply_allowances(const Plan& plan, Findings& findings, Family family);

} // namespace loomsheet
