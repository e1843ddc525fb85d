// UTF-8 read one character at a time, and how wide a character stands on a terminal.
#pragma once
#include <cstddef>
#include <string>
#include <string_view>

namespace loomsheet {

struct Character {
    char32_t code = 0;
    std::size_t bytes = 0; // 1 to 4; 0 at the end of the text
    bool good = true;      // false: not valid UTF-8 (RFC 3629); then code is U+FFFD and bytes 1
};
Character character_at(std::string_view text, std::size_t offset);

// The start of the character that holds the byte at `offset`.
std::size_t character_begin(std::string_view text, std::size_t offset);
// Bytes that start a character; for valid UTF-8 the number of characters.
std::size_t count_characters(std::string_view text);

// Columns on a terminal: 0 for marks that sit on the letter before, 2 for wide East Asian characters and pictures,
// else 1.
int columns_of(char32_t code);

// As it may be shown on a terminal: control characters as their pictures (U+2400 and on), bad bytes and marks that turn
// the direction of writing as U+FFFD. Tabs and line ends become pictures too.
std::string printable(std::string_view text);
void append_printable(std::string& out, const Character& character, std::string_view as_typed);

} // namespace loomsheet
