// The rules of flow on small plans: what must be found, where, and what must not.
#include "proof/said.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

const std::string head = "plan T-01 \"Test\"\npart Y1 \"Belt\"\n"; // two lines

// A check of three lines and its outcomes.
std::string check(const std::string& label, const std::string& outcomes, const std::string& expect = "2 .. 3 bar") {
    return "check " + label + " \"A gauge\"\n  read \"Gauge\"\n  expect " + expect + "\n" + outcomes;
}
const std::string good = "verdict good \"All is well\"\n  blames nothing\n";
bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

} // namespace

TEST_CASE("a chain that lost its head is named once, with all that falls away") {
    const std::string plan = head + check("first", "  pass -> good\n") + check("two", "  pass -> three\n") +
                             check("three", "  pass -> four\n") + check("four", "  pass -> bad\n") + good +
                             "verdict bad \"Worn\"\n  blames Y1\n  after first\n";
    CHECK(said::codes(plan) == "LS301 7");
    Sources sources;
    const Findings findings = said::all(sources, plan);
    REQUIRE(findings.list().size() == 1);
    const Diagnostic& finding = findings.list().front();
    REQUIRE(finding.related.size() == 3);
    CHECK(finding.related[0].says == "'three' cannot be reached for the same reason");
    CHECK(finding.related[2].says == "'bad' cannot be reached for the same reason");
}

TEST_CASE("a circle that nothing leads to is named at its first check, with what leads there") {
    const std::string plan = head + check("first", "  pass -> good\n") + check("two", "  pass -> mend\n") + good +
                             "verdict mend \"Worn\"\n  blames Y1\n  repair \"New belt\"\n  -> two\n";
    CHECK(said::codes(plan) == "LS301 7");
    CHECK(says(said::of(plan), "'two' cannot be reached: only 'mend' leads to it, and that cannot be reached either"));
}

TEST_CASE("a missing pass and the check that it would lead to are one finding") {
    const std::string plan = head + check("first", "  fail -> suspects\n") + check("two", "  pass -> good\n") + good;
    CHECK(said::codes(plan) == "LS301 7");
    CHECK(says(said::of(plan), "nothing leads to it; 'first' does not say where a pass leads"));
    CHECK(said::codes(head + check("first", "  fail -> two\n") + check("two", "  pass -> good\n") + good) == "LS304 3");
}

TEST_CASE("exercises and checks that prove a repair need no way to them") {
    CHECK(said::codes(head + check("first", "  pass -> done\n  fail -> bad\n") + check("proof", "  pass -> done\n") +
                      check("extra", "  pass -> done\n  exercise\n") + "verdict bad \"Worn\"\n  blames Y1\n  after proof\n") == "");
}

TEST_CASE("circles: through a repair they are meant, without one they are not, and each is told once") {
    const auto plan = [](const std::string& verdict) {
        return head + check("first", "  pass -> done\n  fail -> two\n") + check("two", "  pass -> done\n  fail -> bad\n") +
               "verdict bad \"Worn\"\n  blames Y1\n" + verdict + "  -> first\n";
    };
    CHECK(said::codes(plan("  repair \"New belt\"\n")) == "");
    CHECK(said::codes(plan("")) == "LS303 15");
    CHECK(says(said::of(plan("")), "a circle: 'first' -> 'two' -> 'bad' -> 'first'"));
    CHECK(said::codes(head + check("first", "  pass -> done\n  fail -> first\n")) == "LS303 7");
    CHECK(said::codes(head + check("first", "  pass -> two\n") + check("two", "  pass -> three\n  fail -> first\n") +
                      check("three", "  pass -> two\n")) == "LS303 11, LS303 15"); // two ways back
}

TEST_CASE("a plan never ends when every way leads on; suspects, also the implied ones, are an end") {
    const std::string mend = "verdict mend \"Worn\"\n  blames Y1\n  repair \"New belt\"\n  -> first\n";
    CHECK(said::codes(head + check("first", "  pass -> mend\n  fail -> two\n") +
                      check("two", "  pass -> mend\n  low -> mend\n  high -> mend\n") + mend) == "LS305 3, LS311 8");
    CHECK(said::codes(head + check("first", "  pass -> mend\n  low -> mend\n") + mend) == "");
}

TEST_CASE("bands") {
    const auto bands = [](const std::string& outcomes, const std::string& expect = "2 .. 3 bar") {
        return said::codes(head + check("first", "  pass -> done\n" + outcomes, expect));
    };
    CHECK(bands("  1 .. 2 bar -> suspects\n  below 1 bar -> suspects\n") == "");
    CHECK(bands("  1 .. 2 bar -> suspects\n  below 1.5 bar -> suspects\n") == "LS306 8");
    CHECK(bands("  0.5 .. 1 bar -> suspects\n") == "LS306 7");              // between 1 and 2 bar nothing is said
    CHECK(bands("  0.5 .. 1 bar -> suspects\n  fail -> suspects\n") == ""); // fail takes the rest
    CHECK(bands("  0.5 .. 1 bar -> suspects\n  low -> suspects\n") == "");  // so does low, on its side
    CHECK(bands("  0.5 .. 1 bar -> suspects\n  high -> suspects\n") == "LS306 7");
    CHECK(bands("  3 .. 5 bar -> suspects\n  high -> suspects\n") == "");
    CHECK(bands("  200 .. 300 kPa -> suspects\n", "below 2 bar") == ""); // 2 bar = 200 kPa
    CHECK(bands("  above 2.5 bar -> suspects\n") == "LS306 7");
}

TEST_CASE("outcomes that the measurement cannot have") {
    const std::string lamp = "plan T-01 \"Test\"\nlamp E1 1/31 21 W\n"; // two lines
    const auto of = [&](const std::string& measure, const std::string& outcomes) {
        const std::string found = said::codes(lamp + "check first\n  " + measure + "\n  pass -> done\n" + outcomes);
        return found.substr(0, found.find("LS403") == 0 ? 0 : std::string::npos) +
               (found == "LS403 2" ? "" : found.substr(found.find(", ") + 2));
    };
    CHECK(of("volts E1.1 to E1.31", "  low -> suspects\n  high -> suspects\n") == "");
    CHECK(of("volts E1.1 to E1.31", "  open -> suspects\n") == "LS307 6");
    CHECK(of("volts E1.1 to E1.31", "  no current -> suspects\n") == "LS307 6");
    CHECK(of("volts E1.1 to E1.31", "  \"dim\": E1 dim -> suspects\n") == "LS307 6");
    CHECK(of("volts E1.1 to E1.31", "  pass \"Left\" -> suspects\n") == "LS307 6");
    CHECK(of("volts \"Left\" E1.1 to E1.31", "  pass \"Left\" -> suspects\n") == "");
    CHECK(of("volts E1.1 to E1.31", "  expect open\n") == "LS307 6");
    CHECK(of("volts E1.1 to E1.31", "  expect yes\n") == "LS307 6");
    CHECK(of("volts E1.1 to E1.31", "  expect below 3 V\n  low -> suspects\n") == "LS307 7");
    CHECK(of("ohms E1.1 to E1.31", "  open -> suspects\n") == "");
    CHECK(of("ohms E1.1 to E1.31", "  expect open\n  open -> suspects\n") == "LS307 7");
    CHECK(of("continuity E1.1 to E1.31", "  expect no\n  low -> suspects\n") == "LS307 7");
    CHECK(of("look \"It is lit\": E1 lit", "  expect yes\n") == "LS307 6");
    CHECK(of("look \"It is lit\": E1 lit", "  low -> suspects\n") == "LS307 6");
}

TEST_CASE("a limit against an earlier reading needs that reading on every way, and a reading of its kind") {
    const std::string two = check("two", "  pass -> three\n", "4 .. 5 bar");
    CHECK(said::codes(head + check("first", "  pass -> two\n  fail -> two\n  allow LS311 \"on purpose\"\n") + two +
                      check("three", "  pass -> done\n", "within 0.5 bar of two")) == "");
    CHECK(said::codes(head + check("first", "  pass -> two\n  fail -> three\n") + two +
                      check("three", "  pass -> done\n", "within 0.5 bar of two")) == "LS309 14");
    CHECK(said::codes(head + check("first", "  pass -> two\n") + check("two", "  pass -> done\n", "within 0.5 V of first")) == "LS309 9");
    CHECK(said::codes(head + check("first", "  pass -> done\n", "within 0.5 bar of first")) == "LS309 5");
}

TEST_CASE("a look and its answers") {
    const std::string plan = "plan T-01 \"Test\"\n  allow LS403 \"no circuit here\"\nlamp E1 1/31 21 W\ncheck first\n"; // four lines
    CHECK(said::codes(plan + "  look \"It is lit\"\n  pass -> done\n") == "LS310 5");
    CHECK(said::codes(plan + "  look \"It is lit\": E1 lit\n  pass -> done\n  \"dim\" -> suspects\n") == "LS602 5, LS310 7");
    CHECK(said::codes(plan + "  look \"How is it\"\n  \"lit\": E1 lit -> done\n  \"dark\": E1 dark -> suspects\n") ==
          ""); // all answers written: no pass
}

// --- allowances ------------------------------------------------------------------------------------------------------
TEST_CASE("an allowance accepts its warning in its statement, or from the head in the whole plan, and no other") {
    const std::string both = "  pass -> good\n  fail -> good\n";
    const std::string allow = "  allow LS311 \"for the record\"\n";
    CHECK(said::codes(head + check("first", both) + good) == "LS311 3");
    CHECK(said::codes(head + check("first", both + allow) + good) == "");
    CHECK(said::codes("plan T-01 \"Test\"\n" + allow + check("first", both) + good) == "");
    CHECK(said::codes(head + check("first", "  pass -> two\n" + allow) + check("two", both) + good) == "LS312 7, LS311 8");
    CHECK(said::codes(head + check("first", "  pass -> two\n") + check("two", both + allow + allow) + good) == ""); // both are needed
}

TEST_CASE("an allowance in a wire or a part accepts what is found there") {
    const std::string plan = "plan T-01 \"Test\"\nbattery G1 12.6 V\nground XE1\nfuse F1 15 A\nlamp E1 1/31 21 W\nwire "
                             "W1 G1.+ -> F1.1 unfused\nwire W2 G1.- -> XE1 unfused\n"
                             "wire W3 F1.2 -> E1.1\nwire W4 E1.31 -> XE1\n";
    CHECK(said::codes(plan + "heater E2 1/2 20 A, allow LS403 \"drawn elsewhere\"\n") == "");
    CHECK(said::codes(plan + "lamp E3 1/31 5 W\nwire W5 G1.+ -> E3.1, allow LS407 \"a test lead\"\nwire W6 E3.31 -> XE1\n") == "");
}

// --- several mistakes, and what was left out
// ---------------------------------------------------------------------------
TEST_CASE("eleven different mistakes are eleven findings, each at its line, in one run") {
    const std::string plan = R"(plan HORN-01 "Horn is silent"
battery G1 "Battery", 12.6 V
ground  XE1 "Left wing"
fuse    F1 "Horn", 15 A
fuse    F2 "Lamp", 10 A
horn    H1 "Horn", 1/2 4 A
lamp    E1 "Lamp", 1/31 5 W
lamp    E2 "Second lamp", 1/31 5 W
connector X1 "Horn plug", 2 pins, on H1
wire W1 G1.+ -> F1.1  4 mm2   unfused
wire W2 F1.2 -> X1.1  0.5 mm2
wire W3 X1.2 -> XE1   1.5 mm2 rd
wire W4 G1.- -> XE1   16 mm2  unfused
wire W5 F1.2 -> F2.1  4 mm2
wire W6 F2.2 -> E1.1  1.5 mm2
wire W7 F2.2 -> E2.7  1.5 mm2
wire W8 E2.31 -> XE1  1.5 mm
check supply "At the horn"
  with   key on, key off
  volts  X1.1 to X1.2
  expect 11 .. 12.8 V
  pass   -> horn-bda
  11 .. 11.5 V -> sound
check sound "The horn"
  look   "The horn sounds": H1 works
  pass   -> done
  fail   -> leftover
check lost "Nobody comes here"
  ohms   X1.1 to X1.1
  pass   -> done
verdict horn-bad "The horn has failed"
  blames H1
  repair "Fit a new horn"
  after  sound
verdict leftover "The rest"
  blames Q9
  repair "Mend it"
  -> supply
)";
    CHECK(said::codes(plan) ==
          "LS408 4, LS401 7, LS208 12, LS204 16, LS207 17, LS509 19, LS211 22, LS306 23, LS301 28, LS507 29, LS201 36");
}

TEST_CASE("what was left out is not reported as missing") {
    const std::string fan = R"(plan T-01 "Test"
battery G1 12.6 V
ground XE1
fuse F1 40 A
lamp E1 1/31 21 W
wire W1 G1.+ -> F1.1 16 mm2 unfused
wire W2 G1.- -> XE1 25 mm2 unfused
wire W3 F1.2 -> E1.1 6 mm2
wire W4 E1.31 -> XE1 6 mm2
check first
  look "Lit": E1 lit
  pass -> two
  fail -> two
  allow LS311 "on purpose"
check two
  look "Lit": E1 lit
  pass -> done
)";
    CHECK(said::codes(fan) == "");
    const auto with = [&](const std::string& line, const std::string& instead) {
        std::string changed = fan;
        const auto at = changed.find(line);
        REQUIRE_MESSAGE(at != std::string::npos, line);
        return said::codes(changed.replace(at, line.size(), instead));
    };
    CHECK(with("E1.31 -> XE1", "E1.31 -> XE7") == "LS201 9"); // its other end may be the ground that E1 lacks
    CHECK(with("F1.2 -> E1.1", "F7.2 -> E1.1") == "LS201 8");
    CHECK(with("E1.31 -> XE1 6 mm2", "E1.31 => XE1 6 mm2").find("LS401") == std::string::npos);
    CHECK(said::codes(fan + "module U1 ground 31, output 6 pulls up 5 A\nlamp E2 1/31 5 W\nwire W5 U1.31 -> XE1\nwire W6 U1.6 -> E2.1\n"
                            "wire W7 E2.31 -> XE1\n") == "LS114 18"); // U1 lacks its supply, and E2 with it
    CHECK(with("wire W4", "wier W4") == "LS101 9");                   // a statement is lost
    CHECK(with("wire W4", "wire W3") == "LS202 9");                   // the second W3 is left out
    CHECK(with("1/31 21 W", "1/31 21 V").find("LS40") == std::string::npos);
    CHECK(with("  pass -> two\n  fail -> two\n", "  pass -> too\n  fail -> too\n") == "LS211 12, LS211 13");
    CHECK(with("check two", "chek two").find("LS30") == std::string::npos);
    CHECK(with("check two\n", "").find("LS3") == std::string::npos); // two checks run into one: LS110 says so
}
