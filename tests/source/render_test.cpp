#include "source/render.hpp"
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

using namespace loomsheet;

namespace {
// One file, one finding at the first place where `marked` stands in it.
std::string shown(const std::string& text, std::string_view marked, bool colour = false) {
    Sources sources;
    sources.add("fan.plan", text);
    const auto begin = static_cast<std::uint32_t>(text.find(marked));
    Findings findings;
    findings.add(204, {0, begin, static_cast<std::uint32_t>(begin + marked.size())}, "X8 has 26 pins, there is no X8.45",
                 "write a pin from 1 to 26");
    return render_text(sources, findings, {colour, 20});
}
} // namespace

TEST_CASE("a finding as text: place, words, the line as typed, an underline, help") {
    CHECK(shown("plan\n\nwire W4  K5.87 -> X8.45  6 mm2\n", "X8.45") == "fan.plan:3:19: error LS204: X8 has 26 pins, there is no X8.45\n"
                                                                        "  3 | wire W4  K5.87 -> X8.45  6 mm2\n"
                                                                        "    |                   ^^^^^\n"
                                                                        "    help: write a pin from 1 to 26\n");
}

TEST_CASE("the underline stands under the place: code points, wide characters, marks, tabs") {
    const auto underline = [](const std::string& text) {
        const std::string out = shown(text, "X8.45");
        const std::size_t line = out.find(" | ", out.find(" | ") + 1);
        return out.substr(line + 3, out.find('\n', line) - line - 3);
    };
    CHECK(underline("Ω ±5 °C X8.45") == "        ^^^^^");
    CHECK(underline("漢字 X8.45") == "     ^^^^^");
    CHECK(underline("e\u0301 X8.45") == "  ^^^^^");
    CHECK(underline("\tX8.45") == "    ^^^^^");
    CHECK(underline("ab\tX8.45") == "    ^^^^^");
    CHECK(underline("\xEF\xBB\xBFX8.45") == "^^^^^");
    CHECK(underline(std::string("a\0\x1B", 3) + "X8.45\r\n") == "   ^^^^^");
    CHECK(underline("bad \xFF\xFE X8.45") == "       ^^^^^");
}

TEST_CASE("tabs stand as blanks, control characters as pictures") {
    const std::string out = shown("a\tb\x1B[31m X8.45", "X8.45");
    CHECK(out.find("  1 | a   b␛[31m X8.45\n") != std::string::npos);
    CHECK(out.find('\x1B') == std::string::npos);
}

TEST_CASE("a place over several lines is underlined to the end of the first; an empty place gets one mark") {
    Sources sources;
    sources.add("a.plan", "fuse F1\n  40 A\n");
    Findings findings;
    findings.add(114, {0, 5, 14}, "over two lines");
    findings.add(114, {0, 15, 15}, "at the end");
    CHECK(render_text(sources, findings, {}) == "a.plan:1:6: error LS114: over two lines\n"
                                                "  1 | fuse F1\n"
                                                "    |      ^^\n"
                                                "a.plan:3:1: error LS114: at the end\n"
                                                "  3 | \n"
                                                "    | ^\n");
}

TEST_CASE("of a very long line only the part around the place is shown") {
    const std::string out = shown(std::string(5'000'000, 'x') + " X8.45 " + std::string(5'000'000, 'y'), "X8.45");
    CHECK(out.size() < 600);
    CHECK(out.find("fan.plan:1:5000002: ") == 0);
    const std::string line = out.substr(out.find(" | ") + 3, out.find('\n', out.find(" | ")) - out.find(" | ") - 3);
    CHECK(line.starts_with("…xxx"));
    CHECK(line.ends_with("yyy…"));
    // "…" is three bytes and one column.
    const std::size_t bar = out.find(" | ", out.find(" | ") + 1);
    CHECK(out.find('^') - (bar + 3) == line.find("X8.45") - 2);
    // Marks on marks take no column and are cut all the same, tabs push nothing out of sight.
    std::string marks;
    for (int i = 0; i < 1'000'000; ++i)
        marks += "\u0301";
    CHECK(shown(marks + "X8.45" + marks, "X8.45").size() < 20'000);
    CHECK(shown(std::string(1000, '\t') + "X8.45", "X8.45").find("X8.45\n") != std::string::npos);
}

TEST_CASE("related places and line numbers of different lengths line up") {
    Sources sources;
    sources.add("a.plan", "fuse F1\n" + std::string(10, '\n') + "fuse F1\n");
    const auto other = sources.add("common.plan", "fuse F1\n");
    Findings findings;
    findings.add({202,
                  {0, 23, 25},
                  "F1 is declared twice",
                  "give one of them another name\nor take it out",
                  {{{0, 5, 7}, "first declared here"}, {{other, 5, 7}, "and here"}}});
    CHECK(render_text(sources, findings, {}) == "a.plan:12:6: error LS202: F1 is declared twice\n"
                                                "  12 | fuse F1\n"
                                                "     |      ^^\n"
                                                "     a.plan:1:6: first declared here\n"
                                                "   1 | fuse F1\n"
                                                "     |      ^^\n"
                                                "     common.plan:1:6: and here\n"
                                                "   1 | fuse F1\n"
                                                "     |      ^^\n"
                                                "     help: give one of them another name\n"
                                                "           or take it out\n");
}

TEST_CASE("at most twenty are shown, errors before warnings, in the order of their places") {
    Sources sources;
    sources.add("a.plan", std::string(100, 'x'));
    Findings findings;
    for (std::uint32_t i = 0; i < 30; ++i)
        findings.add(i < 25 ? 214 : 204, {0, i, i + 1}, fmt::format("number {}", i));
    const std::string text = render_text(sources, findings, {});
    CHECK(text.ends_with("and 10 more\n"));
    CHECK(text.find("number 14\n") < text.find("number 29\n")); // 15 warnings, then the 5 errors
    CHECK(text.find("number 29\n") != std::string::npos);
    CHECK(text.find("number 15\n") == std::string::npos);
    const std::string lines = render_short(sources, findings, {});
    CHECK(std::count(lines.begin(), lines.end(), '\n') == 21);
    CHECK(nlohmann::json::parse(render_json(sources, findings)).size() == 30);
}

TEST_CASE("colour only when it is asked for") {
    CHECK(shown("X8.45", "X8.45").find('\x1B') == std::string::npos);
    const std::string out = shown("X8.45", "X8.45", true);
    CHECK(out.find("\x1B[1;31merror LS204\x1B[0m") != std::string::npos);
    CHECK(out.find("\x1B[1;31m^^^^^\x1B[0m") != std::string::npos);
}

TEST_CASE("the short form is one line a finding") {
    Sources sources;
    sources.add("a.plan", "a\nb");
    Findings findings;
    findings.add(214, {0, 2, 3}, "b is\nnever used", "take\nit out");
    findings.add(901, {0, 0, 1}, "no help here");
    CHECK(render_short(sources, findings, {}) == "a.plan:2:1: warning LS214: b is never used (take it out)\n"
                                                 "a.plan:1:1: note LS901: no help here\n");
}

TEST_CASE("JSON holds every place; bad bytes do not break it") {
    Sources sources;
    sources.add("a\xFF.plan", "fuse F1\nfuse F1\n");
    Findings findings;
    findings.add({202, {0, 13, 15}, "caf\xE9 twice", "", {{{0, 5, 7}, "first declared here"}}});
    const auto list = nlohmann::json::parse(render_json(sources, findings));
    REQUIRE(list.size() == 1);
    CHECK(list[0]["code"] == "LS202");
    CHECK(list[0]["severity"] == "error");
    CHECK(list[0]["line"] == 2);
    CHECK(list[0]["column"] == 6);
    CHECK(list[0]["end_line"] == 2);
    CHECK(list[0]["end_column"] == 8);
    CHECK(list[0]["says"] == "caf� twice");
    CHECK_FALSE(list[0].contains("help"));
    CHECK(list[0]["related"][0]["line"] == 1);
    CHECK(list[0]["related"][0]["says"] == "first declared here");
    CHECK(render_json(sources, {}) == "[]\n");
}

TEST_CASE("the summary counts by gravity") {
    Findings findings;
    CHECK(summary(findings) == "no findings");
    findings.add(204, {}, "");
    findings.add(202, {}, "");
    findings.add(214, {}, "");
    CHECK(summary(findings) == "2 errors, 1 warning");
}
