// Small circuits with a few checks, as the text of a plan: one a seed. What is blamed is drawn too, so that verdicts may well be wrong.
#pragma once
#include <cstdint>
#include <string>

namespace oracle {

std::string random_plan(std::uint64_t seed);

} // namespace oracle
