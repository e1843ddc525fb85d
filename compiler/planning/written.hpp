// New checks as plan text, ready to paste.
#pragma once
#include "planning/gaps.hpp"
#include "planning/splits.hpp"
#include <string>

namespace loomsheet {

// Drop or volts, of one row and one limit; `pass` and `fail` as they stand behind their arrows.
std::string written_check(const Plan& plan, const std::string& label, const Check& check, const std::string& pass, const std::string& fail);
// The statement that closes a gap, "check before-lamp-bad ...", its label, and where it leads on a pass: as it stands behind the arrow.
std::string written_closing(const Plan& plan, const Gap& gap, std::size_t which);
std::string closing_label(const Plan& plan, const Gap& gap, std::size_t which);
std::string target_words(const Plan& plan, const Gap& gap);
// The statement that parts a verdict: "check split-box-bad ...".
std::string written_split(const Plan& plan, const Split& split);
std::string indented(const std::string& lines); // each by four blanks

} // namespace loomsheet
