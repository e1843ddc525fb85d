// What a plan says, as one string: to see whether two plans say the same.
#pragma once
#include "model/plan.hpp"
#include <string>
#include <string_view>

namespace loomsheet {

// A short checksum of what a plan has checked, so that a page can be matched to its plan. Of the compiled plan, of every field:
// circuit, set-ups, checks, limits, verdicts, texts, and what a class is given. Not of remarks, of the revision and its author, of
// accepted warnings, of template, language and paper.
std::string digest(const Plan& plan);
// Eight hex digits in capitals: FNV-1a of 64 bits, its halves folded into one. The same on every machine.
std::string digest_of(std::string_view bytes);

// All that readings and outcomes are made of, whole: without titles, notes, cautions and other texts for people.
std::string told_to_the_meter(const Plan& plan);

} // namespace loomsheet
