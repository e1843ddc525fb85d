// A short figure over what is printed, so that a page can be matched to its plan.
#pragma once
#include <string>
#include <string_view>

namespace loomsheet {

// Eight capitals hex digits: FNV-1a of 64 bits, its halves folded into one. The same on every machine.
std::string digest(std::string_view printed);

} // namespace loomsheet
