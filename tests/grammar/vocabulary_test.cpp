// The tables of words by themselves: what one table says of another. How they are read in a plan stands in
// tests/syntax.
#include "grammar/vocabulary.hpp"
#include <algorithm>
#include <doctest/doctest.h>
#include <set>
#include <string>

using namespace loomsheet;

TEST_CASE("lists of words are apart by blanks") {
    CHECK(words_in("").empty());
    CHECK(words_in("motor") == std::vector<std::string_view>{"motor"});
    CHECK(words_in("motor lamp heater") == std::vector<std::string_view>{"motor", "lamp", "heater"});
    CHECK(lists("motor lamp", "lamp"));
    CHECK_FALSE(lists("motor lamp", "mot"));
    CHECK_FALSE(lists("motor lamp", "motor lamp"));
    CHECK_FALSE(lists("", ""));
}

TEST_CASE("a phrase suits the kinds of part that its row names, and those are statements of parts") {
    std::set<std::string_view> named;
    for (const PhraseRow& row : phrases()) {
        CHECK((row.suits.empty() || (row.where & in(Context::part)) != 0));
        for (const auto word : words_in(row.suits)) {
            const int found = find_statement(word);
            REQUIRE_MESSAGE(found >= 0, word);
            CHECK_MESSAGE(statements()[static_cast<std::size_t>(found)].context == Context::part, word);
            CHECK(suits(row, word));
            named.insert(word);
        }
        CHECK(suits(row, "no such kind") == row.suits.empty());
    }
    for (const StatementRow& row : statements()) // a kind that no phrase suits has nothing to be told apart by
        if (row.context == Context::part && row.head == Form::head_name_text)
            CHECK_MESSAGE((named.contains(row.word) || row.word == "part"), row.word);
}

TEST_CASE("every statement has a word of its own, and every one but `also` a noun that its example begins with") {
    for (const Vocabulary* vocabulary : {&plan_vocabulary(), &sheet_vocabulary()}) {
        std::set<std::string_view> words;
        for (std::size_t i = 0; i < vocabulary->statements.size(); ++i) {
            const StatementRow& row = vocabulary->statements[i];
            CHECK_MESSAGE(words.insert(row.word).second, row.word);
            CHECK(vocabulary->find_statement(row.word) == static_cast<int>(i));
            CHECK(words_in(row.example).front() == row.word);
            CHECK(&vocabulary_of(row.context) == vocabulary);
        }
        CHECK(vocabulary->find_statement("") == -1);
    }
}

TEST_CASE("every phrase stands somewhere, and in one vocabulary only") {
    for (const Vocabulary* vocabulary : {&plan_vocabulary(), &sheet_vocabulary()})
        for (const PhraseRow& row : vocabulary->phrases) {
            CAPTURE(row.pattern);
            CHECK(row.where != 0);
            CHECK_FALSE(row.example.empty());
            CHECK_FALSE(row.meaning.empty());
            for (unsigned c = 0; c < context_count; ++c)
                if (row.where & (1U << c)) CHECK(&vocabulary_of(static_cast<Context>(c)) == vocabulary);
        }
}

TEST_CASE("labels that the language keeps for itself") {
    for (const auto word : {"next", "done", "suspects", "plan", "nothing", "key", "asleep"})
        CHECK_MESSAGE(is_taken_label(word), word);
    CHECK_FALSE(is_taken_label("plug-feed"));
    CHECK_FALSE(is_taken_label("Next"));
}
