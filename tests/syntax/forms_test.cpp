// The messages of form: what is said, where, and what to write instead.
#include "syntax/parsed.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {
struct Row {
    const char *text, *places, *says, *help;
};

void hold(const Row& row) {
    const Parsed parsed(row.text);
    CHECK_MESSAGE(parsed.places() == row.places, std::string(row.text), "\n", parsed.said());
    if (parsed.findings.empty()) return;
    const Diagnostic& first = parsed.findings.list().front();
    CHECK_MESSAGE(first.says.find(row.says) != std::string::npos, std::string(row.text), "\n", first.says);
    CHECK_MESSAGE(first.help.find(row.help) != std::string::npos, std::string(row.text), "\n", first.help);
}
} // namespace

TEST_CASE("statements and heads") {
    const Row rows[] = {
        {"fuze F1 \"a\", 10 A\n", "LS101@1:1", "`fuze` begins no statement", "did you mean `fuse`?"},
        {"Fuse F1 10 A\n", "LS101@1:1", "`Fuse` begins no statement", "did you mean `fuse`?"},
        {"K5.30 to K5.87\n", "LS101@1:1", "`K5.30` begins no statement", "a line at the margin begins with a statement"},
        {"check a\npass -> b\n", "LS101@2:1", "`pass` begins no statement", "put blanks before it"},
        {"  fuse F1 10 A\nfuse F2 10 A\n", "LS106@1:3", "indented", "begin at the margin"},
        {"fuse\n", "LS107@1:1", "`fuse` is not finished: here comes a name such as F14", "for instance: fuse F14"},
        {"fuse f1 10 A\n", "LS107@1:6", "after `fuse` comes a name such as F14, not `f1`", "write `F1`"},
        {"check Feed\n", "LS107@1:7", "after `check` comes a label such as plug-feed, not `Feed`", "write `feed`"},
        {"plan A-1\n", "LS107@1:1", "here comes words in quotes", "plan HORN-01"},
        {"setup a key on\n", "LS107@1:9", "after `a` comes `:`, not `key`", "setup called: key on"},
        {"check next \"a\"\n", "LS115@1:7", "`next` is a word of the language", "write `next-1`"},
        {"setup at: key on\n", "LS115@1:7", "`at` is a word of the language", "another word"},
        {"horn H1 1/2 5 A\n  fuse F1 \"Horn\", 5 A\nwire W1\n", "LS102@2:3", "a `fuse` statement begins at the margin",
         "take the blanks before it out"},
        {"horn H1 1/2 5 A\n  wire W1 A.1 -> B.1\n", "LS102@2:3", "no phrase that begins with `wire`", "begins at the margin"},
    };
    for (const Row& row : rows)
        hold(row);
}

TEST_CASE("phrases that there are not, and phrases that stop too soon") {
    const Row rows[] = {
        {"check a\n  pas -> done\n", "LS102@2:3", "a `check` has no phrase that begins with `pas`", "did you mean `pass`?"},
        {"access a\n  weight\n", "LS102@2:3", "an `access` has no phrase that begins with `weight`", "for instance: access shield"},
        {"horn H1 1/2 5 A, \"front\"\n", "LS102@1:18", "these words in quotes stand alone", "such as `at`"},
        {"horn H1 1/2 5 A -> X1.1\n", "LS102@1:17", "`->` does not belong here", "horn H1"},
        {"check a\n  with pressed S3\n", "LS103@2:18", "after `S3` comes `unplugged`, `pulled`, `pressed`", "for instance"},
        {"check a\n  with\n  volts A.1 to B.1\n", "LS103@2:7", "after `with` comes a set-up", ""},
        {"check a\n  volts X1.1\n", "LS103@2:13", "after `volts X1.1` comes `to`", "volts X21.1 to X21.2"},
        {"check a\n  volts X1.1 to\n  pass -> done\n", "LS103@2:16", "after `volts X1.1 to` comes a point such as X21.1", ""},
        {"check a\n  pass to done\n", "LS103@2:8", "after `pass` comes words in quotes, a name such as F14 or `->`, not `to`", ""},
        {"check a\n  look \"Runs\": M3 rums\n", "LS103@2:19", "after `look \"Runs\": M3` comes `still`, `runs`", "did you mean `runs`?"},
        {"check a\n  look \"Runs\":\n  pass -> done\n", "LS103@2:15", "after `look \"Runs\":` comes a point such as X21.1", ""},
        {"relay K5 contact 30\n", "LS103@1:18", "after `contact` comes three pins such as 30/87/87a or two pins such as 30/87, not `30`",
         "contact 30/87/87a"},
        {"relay K5 coil 86/85\n", "LS103@1:20", "after `coil 86/85` comes a resistance such as 85 ohm", "coil 86/85 85 ohm"},
        {"check a\n  with key on for\n", "LS103@2:18", "after `key on for` comes a time such as 4 min", ""},
        {"check a\n  expect 11.5 to 12.8 V\n", "LS103@2:10", "a range is written with two dots", "write `11.5 .. 12.8 V`"},
        {"check a\n  expect 11.5 - 12.8 V\n", "LS103@2:10", "a range is written with two dots", "write `11.5 .. 12.8 V`"},
        {"check a\n  expect 11.5 -12.8 V\n", "LS103@2:10", "a range is written with two dots", "write `11.5 .. 12.8 V`"},
        {"check a\n  expect 11.5-12.8 V\n", "LS103@2:10", "a range is written with two dots", "write `11.5 .. 12.8`"},
        {"switch S1\n  1/2 closed when pressed\n", "LS103@2:19", "after `1/2 closed when` comes `key`, `engine` or `asleep`", ""},
        {"check a\n  expect 12 V\n", "LS103@2:10", "after `expect` comes words in quotes, a range such as 11.5 .. 12.8 V, `below`", ""},
    };
    for (const Row& row : rows)
        hold(row);
}

TEST_CASE("texts and signs") {
    const Row rows[] = {
        {"horn H1 1/2 5 A, at \"front\nwire W1\n", "LS104@1:21", "no closing quote", "end them with \""},
        {"horn H1 “Horn”, 1/2 5 A\n", "LS105@1:9", "`“` has no place in the language", "straight quotes"},
        {"wire W1 G1.+ > F1.1\n", "LS105@1:14", "`>` has no place", "`->`"},
        {"wire W1 G1.+ → F1.1\n", "LS105@1:14", "`→` has no place", "`->`"},
        {"fuse F1 10 A; fuse F2 10 A\n", "LS105@1:13", "`;` has no place", "\"quotes\""},
        {"battery G1 12.6.1 V\n", "LS105@1:16", "`.` has no place", ""},
        {"battery G1 1.2x V\n", "LS105@1:12", "`1.2x` is neither a number nor a pin", "12.6 V"},
    };
    for (const Row& row : rows)
        hold(row);
}

TEST_CASE("numbers and units") {
    const Row rows[] = {
        {"fuse F1 10\n", "LS109@1:9", "`10` has no unit; what `fuse` takes is a current", "40 A"},
        {"fuse F1 10A\n", "LS109@1:9", "`10A` has no blank before its unit", "write `10 A`"},
        {"battery G1 12.6V\n", "LS109@1:12", "`12.6V` has no blank before its unit", "write `12.6 V`"},
        {"battery G1 12,6 V\n", "LS111@1:12", "`12,6` has a decimal comma", "write `12.6`"},
        {"battery G1 12.6 volts\n", "LS108@1:17", "`volts` is no unit", "write `12.6 V`"},
        {"battery G1 12.6 v\n", "LS108@1:17", "`v` is no unit", "did you mean `V`?"},
        {"motor M3 1/2 22 a\n", "LS108@1:17", "`a` is no unit", "did you mean `A`?"},
        {"fuse F1 10 W\n", "LS206@1:9", "`10 W` is a power; what `fuse` takes is a current", "40 A"},
        {"relay K5 coil 86/85 85 A\n", "LS206@1:21", "`85 A` is a current; what comes after `coil 86/85` is a resistance", ""},
        {"wire W1 A.1 -> B.1 6\n", "LS109@1:20", "`6` has no unit; what `wire` takes is a length or a cross-section", ""},
    };
    for (const Row& row : rows)
        hold(row);
}

TEST_CASE("places count characters, not bytes; a tab is one") {
    CHECK(Parsed("horn H1 \"Hupe für Größe\", 1/2 5 A, wrong\n").places() == "LS102@1:36");
    CHECK(Parsed("horn H1\t\"Ω\"\t,\twrong\n").places() == "LS102@1:15");
    CHECK(Parsed("\xEF\xBB\xBF"
                 "fuze F1\r\nfuse F2 10 A\r\n\twrong\r\n")
              .places() == "LS101@1:1 LS102@3:2");
}

TEST_CASE("bytes that are no text") {
    const std::string line = "fuse F1 \"Left wing\" 10 A\n";
    CHECK(Parsed(line + "horn H1 \"caf\xE9\"\n").places() == "LS001@2:13");
    CHECK(Parsed(line + "horn H1 \"\xED\xA0\x80\"\n").places() == "LS001@2:10"); // half of a surrogate pair
    CHECK(Parsed(line + std::string("horn\0H1\n", 8)).places() == "LS002@2:5");
    CHECK(Parsed(line + "horn H1\x07 \n").places() == "LS002@2:8");
    CHECK(Parsed(line + "horn H1 \x7F\n").places() == "LS002@2:9");
    CHECK(Parsed(line + "horn\rH1\n").places() == "LS002@2:5"); // a carriage return alone
    CHECK(Parsed("# " + std::string(20'001, 'x') + "\n").places() == "LS003@1:1");
    CHECK(Parsed("#" + std::string(19'999, 'x') + "\r\n").places() == "");
    CHECK(Parsed(std::string(10'000'000, 'x')).places() == "LS003@1:1");
    CHECK(Parsed("").places() == "");
    CHECK(Parsed("horn H1 \"caf\xE9\"\nfuze\n").tree.statements.empty());
}

TEST_CASE("lines go on after a comma, a colon, and after `and` and `or`; an arrow waits for nothing") {
    const Parsed one("check a\n  look \"Runs\": M3 runs and M4 runs\n  pass -> done\n  with key on, X1 unplugged\n");
    const Parsed broken("check a\n  look \"Runs\":\n    M3 runs and\n    M4 runs\n  pass -> done\n  with key "
                        "on,\n    X1 unplugged\n");
    CHECK(one.said() == "");
    CHECK(broken.said() == "");
    CHECK(one.outline() == broken.outline());
    const Parsed joins("splice J1\n  joins F1.1\n  F2.1\n");
    CHECK(joins.said() != ""); // without a comma the line ends the phrase
    CHECK(Parsed("splice J1\n  joins F1.1,\n  F2.1\n").said() == "");
    CHECK(Parsed("check a\n  look \"Runs\"\n  pass ->\n  fail -> done\n").places() == "LS103@3:10");
}

TEST_CASE("a comma after the head changes nothing, before the name in quotes neither") {
    const auto plain = Parsed("fuse F1 \"Horn\" 10 A\n").outline();
    CHECK(Parsed("fuse F1, \"Horn\", 10 A\n").outline() == plain);
    CHECK(Parsed("fuse F1 \"Horn\", 10 A,\n").outline() == plain);
    CHECK(Parsed("fuse F1\n  \"Horn\"\n  10 A\n").said() != ""); // on a line of its own it says nothing
}

TEST_CASE("a text goes on in lines that are only a text") {
    const Parsed parsed("horn H1 \"a\" 1/2 5 A\n  note \"one\"\n       \"two\"\n       \"three\"\n  at \"front\"\n");
    CHECK(parsed.said() == "");
    REQUIRE(parsed.tree.phrases.size() == 3);
    CHECK(parsed.sources.text(parsed.tree.span(parsed.tree.phrases[1])) == "note \"one\"\n       \"two\"\n       \"three\"");
}

TEST_CASE("ten mistakes give ten findings, each at its place, and not an eleventh") {
    const Parsed parsed("plan HORN-01 \"Horn is silent\"\n"
                        "  vehicle \"Tarn 1.6 hatch\n"               // 2: no closing quote
                        "battery G1, 12,6 V\n"                       // 3: decimal comma
                        "fuze    F12 \"Horn\", 15 A\n"               // 4: no statement
                        "fuse    F13 \"Lamp\", 15\n"                 // 5: no unit
                        "switch  S3 \"Horn button\" ; at rest\n"     // 6: a sign without a place
                        "horn    h1 \"Horn\", 1/2 5 A\n"             // 7: no name
                        "ground  XE1 \"Left wing\", beside shield\n" // 8: no such phrase
                        "wire W1 G1.+ - F12.1  2.5 mm2  RD\n"        // 9: no arrow
                        "check horn-sounds \"Horn\"\n"
                        "  with S3 presed\n" // 11: not finished
                        "  look \"The horn sounds\": H1 works\n"
                        "  pass -> done\n"
                        "  time 3 minutes\n" // 14: unknown unit
                        "  fail -> suspects\n");
    CHECK(parsed.places() == "LS104@2:11 LS111@3:13 LS105@6:26 LS101@4:1 LS109@5:21 LS107@7:9 LS102@8:26 LS103@9:14 "
                             "LS103@11:11 LS108@14:10");
}

TEST_CASE("what was understood of a statement stays, and reading goes on at the next comma, line or margin") {
    const Parsed parsed("motor M3 \"Fan\", 1/2 22 A, wobbles at 3 A, needs 10.5 V\n  spins\n  at \"front\"\nfuse F1 10 A\n");
    CHECK(parsed.places() == "LS102@1:27 LS102@2:3");
    CHECK(parsed.tree.statements.size() == 2);
    CHECK(parsed.tree.statements[0].broken);
    CHECK(parsed.tree.statements[0].phrase_count == 3);
    CHECK_FALSE(parsed.tree.statements[1].broken);
}
