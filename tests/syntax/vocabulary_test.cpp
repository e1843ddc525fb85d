// The vocabulary, row by row: every example is read as exactly its row.
#include "grammar/vocabulary.hpp"
#include "source/disk.hpp"
#include "syntax/match.hpp"
#include "syntax/parsed.hpp"
#include <doctest/doctest.h>
#include <set>

using namespace loomsheet;

namespace {
// How a statement of this context begins, so that only the phrase is left.
std::string head_for(Context context, const PhraseRow& row) {
    switch (context) {
    case Context::plan: return "plan A-1 \"a\"\n  ";
    case Context::part: return std::string(row.suits.empty() ? "motor" : row.suits.substr(0, row.suits.find(' '))) + " X1\n  ";
    case Context::wire: return "wire W1\n  ";
    case Context::cable: return "cable C1\n  ";
    case Context::access: return "access shield\n  ";
    case Context::meter: return "meter\n  ";
    case Context::item: return "setup a: ";
    case Context::check: return "check a\n  ";
    case Context::verdict: return "verdict a\n  ";
    case Context::plant: return "plant a\n  ";
    case Context::question: return "question a \"b\"\n  ";
    default: return "";
    }
}

void collect_words(const PhrasePattern& pattern, std::set<std::string_view>& words) {
    for (const Node& node : pattern) {
        if (node.kind == NodeKind::item && node.atom == Atom::word) words.insert(node.word);
        for (const auto& branch : node.branches)
            collect_words(branch, words);
    }
}
} // namespace

TEST_CASE("every phrase's example is read in each of its places as its own row, whole") {
    int tried = 0;
    for (std::size_t i = 0; i < phrases().size(); ++i) {
        const PhraseRow& row = phrases()[i];
        for (unsigned c = 0; c <= static_cast<unsigned>(Context::question); ++c) {
            if ((row.where & in(static_cast<Context>(c))) == 0) continue;
            const std::string text = head_for(static_cast<Context>(c), row) + std::string(row.example) + "\n";
            const Parsed parsed(text);
            CHECK_MESSAGE(parsed.said() == "", text);
            REQUIRE_MESSAGE(!parsed.tree.phrases.empty(), text);
            CHECK_MESSAGE(parsed.tree.phrases[0].row == i, text);
            const bool with = row.form == Form::with;
            CHECK_MESSAGE(parsed.tree.phrases.size() == (with ? 3U : 1U), text);
            ++tried;
        }
    }
    CHECK(tried > static_cast<int>(phrases().size()));
}

TEST_CASE("every statement's example is that statement, whole") {
    for (std::size_t i = 0; i < statements().size(); ++i) {
        const Parsed parsed(std::string(statements()[i].example) + "\n");
        CHECK_MESSAGE(parsed.said() == "", std::string(statements()[i].example));
        REQUIRE(parsed.tree.statements.size() == 1);
        CHECK(parsed.tree.statements[0].row == static_cast<int>(i));
        CHECK_FALSE(parsed.tree.statements[0].broken);
        CHECK(find_statement(statements()[i].word) == static_cast<int>(i));
    }
    CHECK(find_statement("fuze") == -1);
}

TEST_CASE("no label can be taken for the beginning of a set-up item") {
    for (const auto word : Openings::of(Context::item).words())
        CHECK_MESSAGE(is_taken_label(word), std::string(word));
    CHECK_FALSE(is_taken_label("plug-feed"));
}

TEST_CASE("no label can be taken for a word that leads on") {
    std::set<std::string_view> words;
    for (const PhraseRow& row : phrases())
        if (row.form == Form::outcome || row.form == Form::then_plan) collect_words(pattern_of(row), words);
    for (const auto word : {"next", "done", "suspects", "plan"}) {
        CHECK(words.contains(word));
        CHECK(is_taken_label(word));
    }
}

TEST_CASE("a phrase that may stand once stands once, the others as often as one likes") {
    for (std::size_t i = 0; i < phrases().size(); ++i) {
        const PhraseRow& row = phrases()[i];
        if (row.where & in(Context::item)) continue;
        for (unsigned c = 0; c <= static_cast<unsigned>(Context::question); ++c) {
            if ((row.where & in(static_cast<Context>(c))) == 0) continue;
            const std::string text =
                head_for(static_cast<Context>(c), row) + std::string(row.example) + "\n  " + std::string(row.example) + "\n";
            CHECK_MESSAGE(Parsed(text).places() == (row.repeats ? "" : "LS110@3:3"), text);
        }
    }
}

TEST_CASE("a plan without its commas is the same plan, line for line") {
    RealDisk disk;
    int plans = 0;
    for (const char* folder : {"/plans", "/tests/plans"})
        for (const auto& path : disk.list(std::string(LOOMSHEET_ROOT) + folder, ".plan")) {
            std::string text, bare;
            REQUIRE(disk.read(path, text).empty());
            bool quoted = false, remark = false; // read without the scanner, on purpose
            for (const char c : text) {
                if (c == '\n')
                    quoted = remark = false;
                else if (c == '"' && !remark)
                    quoted = !quoted;
                else if (c == '#' && !quoted)
                    remark = true;
                if (c != ',' || quoted || remark) bare += c;
            }
            CHECK_MESSAGE(bare.size() < text.size(), path);
            const Parsed with(text), without(bare);
            CHECK_MESSAGE(without.said() == "", path);
            CHECK_MESSAGE(with.outline() == without.outline(), path);
            ++plans;
        }
    CHECK(plans >= 8);
}
