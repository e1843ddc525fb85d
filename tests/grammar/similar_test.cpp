// What may have been meant by a word that is not known.
#include "grammar/vocabulary.hpp"
#include <doctest/doctest.h>
#include <string>

using namespace loomsheet;

namespace {
std::string offered(std::string_view typed, std::initializer_list<std::string_view> words) {
    std::string all;
    for (const auto word : similar(typed, words))
        all += std::string(all.empty() ? "" : " ") + std::string(word);
    return all;
}
} // namespace

TEST_CASE("spelling help offers what is near, and a slip of the shift key alone") {
    const std::initializer_list<std::string_view> words{"fuse", "cable", "colour", "check", "V", "mV", "mA", "MA"};
    CHECK(offered("fuze", words) == "fuse");
    CHECK(offered("fues", words) == "fuse"); // neighbours swapped count once
    CHECK(offered("color", words) == "colour");
    CHECK(offered("cabel", words) == "cable");
    CHECK(offered("v", words) == "V");
    CHECK(offered("ma", words) == "mA MA");
    CHECK(offered("relay", words) == "");
    CHECK(offered("fuse", words) == "");
    CHECK(offered("", words) == "");
}

TEST_CASE("one letter in three may be wrong, and no more") {
    CHECK(offered("abcxef", {"abcdef"}) == "abcdef");
    CHECK(offered("abxxef", {"abcdef"}) == "abcdef");
    CHECK(offered("axxxef", {"abcdef"}) == "");
    CHECK(offered("xyc", {"abc"}) == "");
    CHECK(offered("abcdefgh", {"abcdef"}) == "abcdef");
    CHECK(offered("abcdefghi", {"abcdef"}) == "abcdef");
    CHECK(offered("abcdefghij", {"abcdef"}) == "");
}

TEST_CASE("the nearest stands first, three are offered at most, each once") {
    CHECK(offered("house", {"horse", "mouse", "house!", "hose"}) == "horse mouse house!");
    CHECK(offered("wire", {"wore", "wired", "wore"}) == "wore wired");
    CHECK(offered("setup", {"set-ups", "set-up"}) == "set-up");
}
