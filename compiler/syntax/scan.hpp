// Bytes to tokens, by the PEG in grammar/tokens.hpp.
#pragma once
#include "syntax/tree.hpp"
#include <string_view>

namespace loomsheet {

// Fills `tokens` and `trivia`. The text must be valid UTF-8 of at most 4 GiB in lines of at most 20 000 bytes; a byte order mark at its
// start is passed over.
void scan(std::string_view text, Tree& tree);

} // namespace loomsheet
