// Colours against what stands outside the project.
#include "grammar/colours.hpp"
#include <cctype>
#include <doctest/doctest.h>
#include <set>
#include <string>

using namespace loomsheet;

TEST_CASE("colours are those of IEC 60757, in the order of its table") {
    // Source: IEC 757:1983 = GOST 28763-90 and the CEI translation, as taken over in trade-data.md, section 1.1 [1][3].
    struct Row {
        const char *code, *word;
    };
    const Row rows[] = {
        {"BK", "black"},  {"BN", "brown"}, {"RD", "red"},   {"OG", "orange"}, {"YE", "yellow"}, {"GN", "green"},     {"BU", "blue"},
        {"VT", "violet"}, {"GY", "grey"},  {"WH", "white"}, {"PK", "pink"},   {"GD", "gold"},   {"TQ", "turquoise"}, {"SR", "silver"},
    };
    REQUIRE(colours().size() == std::size(rows) + 1);
    for (std::size_t i = 0; i < std::size(rows); ++i) {
        CHECK(colours()[i].code == rows[i].code);
        CHECK(colours()[i].word == rows[i].word);
        CHECK(find_colour_code(rows[i].code) == &colours()[i]);
        CHECK(find_colour_word(rows[i].word) == &colours()[i]);
    }
    CHECK(colours().back().code == "GNYE"); // green and yellow together: one code of its own, section 1.1 [2]
    // The table's second words: "violet (purple)", "grey (slate)".
    CHECK(find_colour_word("purple")->code == "VT");
    CHECK(find_colour_word("slate")->code == "GY");
    CHECK(find_colour_code("TN") == nullptr); // tan is not in the table, section 1.2
}

TEST_CASE("a code is two capitals, but for the one that joins two colours of the table") {
    for (const ColourRow& row : colours()) {
        CAPTURE(row.code);
        for (const char c : row.code)
            CHECK(std::isupper(static_cast<unsigned char>(c)) != 0);
        CHECK(row.base.empty() == row.stripe.empty());
        if (row.base.empty()) {
            CHECK(row.code.size() == 2);
            continue;
        }
        CHECK(row.code == std::string(row.base) + std::string(row.stripe));
        REQUIRE(find_colour_code(row.base) != nullptr);
        REQUIRE(find_colour_code(row.stripe) != nullptr);
        CHECK(row.word == std::string(find_colour_code(row.base)->word) + " and " + std::string(find_colour_code(row.stripe)->word));
    }
}

TEST_CASE("no word and no code means two colours") {
    std::set<std::string> known;
    for (const ColourRow& row : colours()) {
        CHECK_MESSAGE(known.insert(std::string(row.code)).second, row.code);
        CHECK_MESSAGE(known.insert(std::string(row.word)).second, row.word);
        CHECK(find_colour_word(row.code) == nullptr);
        CHECK(find_colour_code(row.word) == nullptr);
    }
    CHECK(find_colour_word("gray") == find_colour_word("slate"));
    CHECK(find_colour_word("slate gray") == nullptr); // two words in one row, not one of two words
    CHECK(find_colour_word("") == nullptr);
}
