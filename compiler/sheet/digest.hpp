// A short checksum of what a plan has checked, so that a page can be matched to its plan.
#pragma once
#include "model/plan.hpp"
#include <string>
#include <string_view>

namespace loomsheet {

// Of the compiled plan, of every field: circuit, set-ups, checks, limits, verdicts, texts, and what a class is given. Not of
// remarks, of the revision and its author, of accepted warnings, of template, language and paper.
std::string digest(const Plan& plan);
// Eight hex digits in capitals: FNV-1a of 64 bits, its halves folded into one. The same on every machine.
std::string digest_of(std::string_view bytes);

} // namespace loomsheet
