// Characters of UTF-8 text, one at a time.
#pragma once
#include <string_view>

namespace loomsheet {

inline constexpr char32_t replacement_character = U'\uFFFD';

// The first character of `rest`, which is shortened by it. `rest` must not be empty. A byte that starts no valid
// sequence (RFC 3629) is taken alone and gives the replacement character.
char32_t take_character(std::string_view& rest);

// Says something to line breaking but has neither width nor ink: zero width space, word joiner, byte order mark.
constexpr bool is_unseen(char32_t character) {
    return character == U'\u200B' || character == U'\u2060' || character == U'\uFEFF';
}

} // namespace loomsheet
