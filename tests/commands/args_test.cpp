#include "commands/options.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {
ArgumentsResult read(std::vector<const char*> words) {
    words.insert(words.begin(), "loomsheet");
    return read_arguments(static_cast<int>(words.size()), words.data());
}
} // namespace

TEST_CASE("print, with and without its options") {
    const auto plain = read({"print", "a.plan", "plans", "-"});
    REQUIRE(plain.arguments);
    CHECK(plain.arguments->command->name == "print");
    CHECK(plain.arguments->plans == std::vector<std::string>{"a.plan", "plans", "-"});
    CHECK(plain.arguments->folder == ".");
    CHECK_FALSE(plain.arguments->paper.has_value());
    CHECK(plain.arguments->format == Format::text);
    CHECK(!plain.arguments->fillable);
    const auto full = read({"print", "--fillable", "-o", "out", "--paper", "letter", "--format", "json", "a.plan"});
    REQUIRE(full.arguments);
    CHECK(full.arguments->fillable);
    CHECK(full.arguments->folder == "out");
    CHECK(full.arguments->paper == Paper::letter);
    CHECK(full.arguments->format == Format::json);
}

TEST_CASE("which sheet, in which words, on which paper") {
    const auto plain = read({"print", "a.plan"});
    REQUIRE(plain.arguments);
    CHECK(plain.arguments->sheet == "workshop");
    CHECK(plain.arguments->own_template.empty());
    CHECK(plain.arguments->words.empty());
    const auto full = read({"print", "--sheet", "pocket", "--words", "german", "--paper", "a5", "a.plan"});
    REQUIRE(full.arguments);
    CHECK(full.arguments->sheet == "pocket");
    CHECK(full.arguments->words == "german");
    CHECK(full.arguments->paper == Paper::a5);
    const auto own = read({"print", "--template", "shop/bay.sheet", "--words", "shop/own.words", "a.plan"});
    REQUIRE(own.arguments);
    CHECK(own.arguments->own_template == "shop/bay.sheet");
    CHECK(own.arguments->words == "shop/own.words");
    CHECK(read({"print", "--words", "frensh", "a.plan"}).says.find("only english, german, spanish and files that end in .words") !=
          std::string::npos);
    CHECK(read({"print", "--sheet", "bay", "a.plan"}).says.find("there is no 'bay', only ") != std::string::npos);
}

TEST_CASE("proof and explain") {
    const auto proof = read({"proof", "--format=short", "--", "-odd.plan"});
    REQUIRE(proof.arguments);
    CHECK(proof.arguments->command->name == "proof");
    CHECK(proof.arguments->format == Format::brief);
    CHECK(proof.arguments->plans == std::vector<std::string>{"-odd.plan"});
    const auto explain = read({"explain", "LS204"});
    REQUIRE(explain.arguments);
    CHECK(explain.arguments->command->name == "explain");
    CHECK(explain.arguments->code == "LS204");
}

TEST_CASE("help and version are what was asked for") {
    const auto help = read({"--help"});
    CHECK(help.asked);
    for (const char* word : {"print", "proof", "explain", "--version"})
        CHECK(help.says.find(word) != std::string::npos);
    const auto of_print = read({"print", "--help"});
    CHECK(of_print.asked);
    for (const char* word : {"-o", "a4|letter", "text|short|json", "PLAN"})
        CHECK(of_print.says.find(word) != std::string::npos);
    const auto version = read({"--version"});
    CHECK(version.asked);
    CHECK(version.says.starts_with("loomsheet 0."));
}

TEST_CASE("a wrong command line is refused in words, and nothing is asked for") {
    const auto refused = [](std::vector<const char*> words, const char* saying) {
        const auto result = read(std::move(words));
        CHECK_FALSE(result.arguments);
        CHECK_FALSE(result.asked);
        INFO(result.says);
        CHECK(result.says.find(saying) != std::string::npos);
    };
    refused({}, "print");
    refused({"prnt", "a.plan"}, "there is no command 'prnt'");
    refused({"--vresion"}, "--vresion");
    refused({"print"}, "PLAN");
    refused({"explain"}, "CODE");
    refused({"print", "a.plan", "--wide"}, "--wide");
    refused({"print", "a.plan", "--paper", "a3"}, "there is no 'a3', only a4, letter");
    refused({"proof", "a.plan", "--format", "xml"}, "there is no 'xml', only text, short, json");
    refused({"proof", "a.plan", "-o", "out"}, "-o"); // it prints nothing
    refused({"print", "a.plan", "-o", "fan.pdf"}, "-o takes a folder");
}
