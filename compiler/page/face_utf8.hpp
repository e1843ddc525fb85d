// Text read one character after the other.
#pragma once
#include "source/utf8.hpp"

namespace loomsheet {

// The first character of `rest`, which is shortened by it; U+FFFD for a byte that is not UTF-8. `rest` must not be
// empty.
inline char32_t take_character(std::string_view& rest) {
    if (const auto ascii = static_cast<unsigned char>(rest.front()); ascii < 0x80) {
        rest.remove_prefix(1);
        return ascii;
    }
    const Character first = character_at(rest, 0);
    rest.remove_prefix(first.bytes);
    return first.code;
}

// Steers line breaking but has neither width nor ink: zero width space, word joiner, byte order mark.
constexpr bool is_unseen(char32_t character) { return character == U'\u200B' || character == U'\u2060' || character == U'\uFEFF'; }

} // namespace loomsheet
