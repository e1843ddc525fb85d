#include "source/disk.hpp"
#include "syntax/scan.hpp"
#include <doctest/doctest.h>
#include <string>

using namespace loomsheet;

namespace {
std::string kind_name(TokenKind kind) {
    constexpr const char* names[] = {"name",   "ref",   "pins",      "word",          "word_pair",   "number",     "pin",
                                     "date",   "sign",  "text",      "arrow",         "range",       "plus_minus", "colon",
                                     "equals", "comma", "open_text", "decimal_comma", "dot_letters", "stray"};
    return names[static_cast<unsigned>(kind)];
}
std::string scanned(const std::string& text) {
    Tree tree;
    scan(text, tree);
    std::string all;
    for (const Token& token : tree.tokens)
        all += (all.empty() ? "" : " ") + kind_name(token.kind) + ":" + text.substr(token.begin, token.length);
    return all;
}
// The text from its tokens and trivia, with what stands between them; false when anything but blanks and line ends was
// lost.
bool prints_back(const std::string& text) {
    Tree tree;
    scan(text, tree);
    std::string blank(text);
    for (const Token& token : tree.tokens)
        blank.replace(token.begin, token.length, token.length, ' ');
    for (const Trivia& trivia : tree.trivia)
        blank.replace(trivia.begin, trivia.end - trivia.begin, trivia.end - trivia.begin, ' ');
    return blank.find_first_not_of(" \t\r\n\xC2\xA0") == std::string::npos;
}
} // namespace

TEST_CASE("every kind of token") {
    struct Row {
        const char *text, *tokens;
    };
    const Row rows[] = {
        {"F14", "name:F14"},
        {"FAN-01", "name:FAN-01"},
        {"B+", "name:B+"},
        {"P0480", "name:P0480"},
        {"K5.30", "ref:K5.30"},
        {"K5.87a", "ref:K5.87a"},
        {"K5.30/87", "ref:K5.30/87"},
        {"B5.2/4/3", "ref:B5.2/4/3"},
        {"E4.56b/31", "ref:E4.56b/31"},
        {"G1.+", "ref:G1.+"},
        {"G1.-", "ref:G1.-"},
        {"M1.B+", "ref:M1.B+"},
        {"X1.a", "ref:X1.a"},
        {"S1.NC", "ref:S1.NC"},
        {"30/87", "pins:30/87"},
        {"30/87/87a", "pins:30/87/87a"},
        {"56b/31", "pins:56b/31"},
        {"31/A", "pins:31/A"},
        {"BU/WH", "pins:BU/WH"},
        {"1/0", "pins:1/0"},
        {"plug-feed", "word:plug-feed"},
        {"mm2", "word:mm2"},
        {"mm²", "word:mm²"},
        {"°C", "word:°C"},
        {"%", "word:%"},
        {"Ω", "word:Ω"},
        {"kΩ", "word:kΩ"},
        {"blue/white", "word_pair:blue/white"},
        {"bu/WH", "word_pair:bu/WH"},
        {"BU/wh", "word_pair:BU/wh"},
        {"12.6", "number:12.6"},
        {"-40", "number:-40"},
        {"+5.5", "number:+5.5"},
        {"87a", "pin:87a"},
        {"2026-11-24", "date:2026-11-24"},
        {"+", "sign:+"},
        {"-", "sign:-"},
        {"\"in # quotes, and -> so\"", "text:\"in # quotes, and -> so\""},
        {"->", "arrow:->"},
        {"a->b", "word:a arrow:-> word:b"},
        {"11.5 .. 12.8 V", "number:11.5 range:.. number:12.8 name:V"},
        {"11.5..12.8 V", "number:11.5 range:.. number:12.8 name:V"},
        {"3..4 V", "number:3 range:.. number:4 name:V"},
        {"±10 %", "plus_minus:± number:10 word:%"},
        {"+-10 %", "plus_minus:+- number:10 word:%"},
        {"a: b", "word:a colon:: word:b"},
        {"1=A", "number:1 equals:= name:A"},
        {"a,b", "word:a comma:, word:b"},
        {"12.6\xC2\xA0V", "number:12.6 name:V"}, // the no-break space is a blank
        {"\"open", "open_text:\"open"},
        {"0,5", "decimal_comma:0,5"},
        {"30, 87", "number:30 comma:, number:87"},
        {"12.6V", "dot_letters:12.6V"},
        {"1.2.3", "number:1.2 stray:. number:3"},
        {"a ; b", "word:a stray:; word:b"},
        {"“x”", "stray:“ word:x stray:”"},
        {"a → b", "word:a stray:→ word:b"},
        {"−5", "stray:− number:5"},
    };
    for (const Row& row : rows)
        CHECK(scanned(row.text) == std::string(row.tokens));
}

TEST_CASE("the margin, and what is first on its line") {
    Tree tree;
    scan("fuse F1\n  10 A\n\twhen\n\n# remark\nwire W1 # remark\n", tree);
    REQUIRE(tree.tokens.size() == 7);
    const bool margin[] = {true, false, false, false, false, true, false}, first[] = {true, false, true, false, true, true, false};
    for (std::size_t i = 0; i < 7; ++i) {
        CHECK(bool(tree.tokens[i].at_margin) == margin[i]);
        CHECK(bool(tree.tokens[i].first_on_line) == first[i]);
    }
}

TEST_CASE("comments and blank lines are kept, in their order") {
    const std::string text = "# one\n\nfuse F1 # two\n  # three\n \t\nwire W1";
    Tree tree;
    scan(text, tree);
    std::string all;
    for (const Trivia& trivia : tree.trivia)
        all += (trivia.kind == TriviaKind::comment ? "c" : "b") + text.substr(trivia.begin, trivia.end - trivia.begin) + "|";
    CHECK(all == "c# one|b\n|c# two|c# three|b \t\n|");
    CHECK(prints_back(text));
}

TEST_CASE("CR LF and a byte order mark are the same text") {
    const std::string text = "fuse F1 \"a\" # remark\n\n  10 A\nwire W1 \"open\n";
    std::string windows = "\xEF\xBB\xBF";
    for (const char c : text)
        windows += c == '\n' ? std::string("\r\n") : std::string(1, c);
    CHECK(scanned(windows) == scanned(text));
    Tree tree;
    scan(windows, tree);
    CHECK(tree.tokens.front().begin == 3);
    CHECK(bool(tree.tokens.front().at_margin));
    CHECK(tree.trivia.size() == 2);
    CHECK(scanned("\xEF\xBB\xBF").empty());
}

TEST_CASE("the shipped plans print back whole from tokens and trivia") {
    RealDisk disk;
    int plans = 0;
    for (const char* folder : {"/plans", "/tests/plans"})
        for (const auto& path : disk.list(std::string(LOOMSHEET_ROOT) + folder, ".plan")) {
            std::string text;
            REQUIRE(disk.read(path, text).empty());
            CHECK_MESSAGE(prints_back(text), path);
            ++plans;
        }
    CHECK(plans >= 8);
}
