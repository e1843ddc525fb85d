// What the scanner could not place: a message for each, and the token as what it was meant to be.
#pragma once
#include "source/diagnostic.hpp"
#include "syntax/tree.hpp"

namespace loomsheet {

// Adds LS103 to LS105, LS109 and LS111. Texts without their end and decimal commas then count as texts and numbers; what
// cannot be placed is `stray`. Of several strays in a line only the first is told.
void report_strays(std::string_view text, Tree& tree, Findings& findings);

} // namespace loomsheet
