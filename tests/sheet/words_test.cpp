#include "sheet/words/words.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

TEST_CASE("a word takes its figures in order, in the classic locale") {
    CHECK(say(Word::page_of, 3, 12) == "page 3 of 12");
    CHECK(say(Word::check_count, 12345) == "12345 checks");
    CHECK(text_of(Word::red) == "RED");
}

TEST_CASE("no printed word calls a point \"ground\" alone (sheet.md)") {
    for (std::size_t i = 0; i <= static_cast<std::size_t>(Word::checked_by); ++i) {
        const std::string_view text = text_of(static_cast<Word>(i));
        CHECK(text != "ground");
        CHECK(text != "Ground");
    }
}
