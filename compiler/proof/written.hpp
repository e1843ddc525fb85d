// New checks as plan text, ready to paste.
#pragma once
#include "model/plan.hpp"
#include <string>

namespace loomsheet {

// Drop or volts, of one row and one limit; `pass` and `fail` as they stand behind their arrows.
std::string written_check(const Plan& plan, const std::string& label, const Check& check, const std::string& pass,
                          const std::string& fail);
std::string indented(const std::string& lines); // each by four blanks

} // namespace loomsheet
