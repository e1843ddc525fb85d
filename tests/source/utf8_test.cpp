#include "source/utf8.hpp"
#include <clocale>
#include <cwchar>
#include <doctest/doctest.h>

using namespace loomsheet;

TEST_CASE("characters are read one at a time, and their starts found again") {
    const std::string text = "aΩ漢😀";
    CHECK(count_characters(text) == 4);
    std::size_t at = 0;
    for (const char32_t wanted : {U'a', U'Ω', U'漢', U'😀'}) {
        const Character character = character_at(text, at);
        CHECK(character.code == wanted);
        CHECK(character_begin(text, at + character.bytes - 1) == at);
        at += character.bytes;
    }
    CHECK(character_at(text, at).bytes == 0);
    CHECK(character_at("\xFF", 0).code == 0xFFFD);
    CHECK_FALSE(character_at("\xFF", 0).good);
}

// Source: wcwidth of the C library in its C.UTF-8 locale, an implementation of UAX 11 that is not ours.
TEST_CASE("columns agree with the C library in the scripts that plans are written in") {
    const std::string before = std::setlocale(LC_CTYPE, nullptr);
    REQUIRE(std::setlocale(LC_CTYPE, "C.UTF-8") != nullptr);
    int differ = 0;
    struct Block {
        char32_t first, last;
    };
    // Latin to Cyrillic, Greek extended, letter-like, arrows and mathematics, box drawing, kana, Han, Hangul, full
    // width.
    for (const Block block : {Block{0xAE, 0x52F}, Block{0x1E00, 0x1FFF}, Block{0x2010, 0x2027}, Block{0x20A0, 0x22FF},
                              Block{0x2500, 0x25FC}, Block{0x3041, 0x30FF}, Block{0x4E00, 0x9FFF}, Block{0xAC00, 0xD7A3},
                              Block{0xFF01, 0xFFE6}, Block{0x1F600, 0x1F64F}, Block{0x20000, 0x2A6DF}})
        for (char32_t code = block.first; code <= block.last; ++code) {
            const int theirs = wcwidth(static_cast<wchar_t>(code));
            if (theirs < 0) continue; // not assigned
            if (theirs != columns_of(code)) {
                ++differ;
                MESSAGE("code point ", static_cast<unsigned>(code), ", theirs ", theirs);
            }
        }
    std::setlocale(LC_CTYPE, before.c_str());
    CHECK(differ == 0);
}

TEST_CASE("what could steer a terminal or turn the writing is shown as a picture") {
    CHECK(printable("a\x1B[2Jb") == "a␛[2Jb");
    CHECK(printable(std::string_view("\0\t\x7F", 3)) == "␀␉␡");
    CHECK(printable("\xC2\x9B") == "�");     // C1 control
    CHECK(printable("x\u202Ey") == "x�y");   // right to left override
    CHECK(printable("caf\xE9!") == "caf�!"); // Latin-1
    CHECK(printable("18 °C ±5 Ω") == "18 °C ±5 Ω");
}
