// Which parts of shared files a plan is about.
#pragma once
#include "model/plan.hpp"

namespace loomsheet {

// By part. What the plan's own file declares, wires, names in a check, a set-up or a verdict, or adds words or elements to with `also`;
// what plugs on, holds or is held by such a part; and what lies on the nearest way from one to the battery. All, where the plan uses no
// shared file.
std::vector<bool> used_parts(const Plan& plan);

} // namespace loomsheet
