#include "model/build.hpp"
#include "printed.hpp"
#include "sheet/card/dial.hpp"
#include "sheet/words/limit.hpp"
#include "sheet/words/wording.hpp"
#include "syntax/parse.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

// The outcomes of the first check, "good words" or "bad words", one a line.
std::string outcomes(const std::string& body) {
    const Plan plan = printed::plan(
        printed::lamp_plan("check a \"A\"\n" + body +
                           "check z \"Z\"\n  volts G1.+ to G1.-\n  expect 12 .. 13 V\n  pass -> done\n  fail -> suspects\n  exercise\n"));
    std::string said;
    for (const OutcomeLine& line : outcome_lines(english(), plan.checks[0]))
        said += (line.good ? "o " : "x ") + line.words + "\n";
    return said;
}

Dial dial(const std::string& body) {
    const Plan plan = printed::plan(printed::lamp_plan("check a \"A\"\n" + body + "  pass -> done\n  fail -> suspects\n"));
    return dial_of(english(), plan, plan.checks[0]);
}

} // namespace

TEST_CASE("a range names both sides, or each side that has its own way") {
    CHECK(outcomes("  volts G1.+ to G1.-\n  expect 11.5 .. 12.8 V\n  pass -> done\n  fail -> suspects\n") ==
          "o 11.5 to 12.8 V\nx below 11.5 or above 12.8 V\n");
    CHECK(outcomes("  volts G1.+ to G1.-\n  expect 11.5 .. 12.8 V\n  pass -> done\n  low -> suspects\n  high -> suspects\n") ==
          "o 11.5 to 12.8 V\nx below 11.5 V\nx above 12.8 V\n");
    CHECK(outcomes("  volts G1.+ to G1.-\n  expect 300 mV .. 1.2 V\n  pass -> done\n  fail -> suspects\n") ==
          "o 300 mV to 1.2 V\nx below 300 mV or above 1.2 V\n");
}

TEST_CASE("the ends of a limit count in, and are said to") {
    CHECK(outcomes("  volts G1.+ to G1.-\n  expect below 0.3 V\n  pass -> done\n  fail -> suspects\n") ==
          "o 0.3 V or less\nx above 0.3 V\n");
    CHECK(outcomes("  volts G1.+ to G1.-\n  expect above 11.5 V\n  pass -> done\n  fail -> suspects\n") ==
          "o 11.5 V or more\nx below 11.5 V\n");
}

TEST_CASE("ohms: an open circuit shows OL and belongs to what is too high, unless it has its own way") {
    const std::string ohms = "  with X1 unplugged\n  ohms part E1.1 to part E1.2\n  expect 0.3 .. 1 ohm\n  pass -> done\n";
    CHECK(outcomes(ohms + "  fail -> suspects\n") == "o 0.3 to 1 Ω\nx below 0.3 or above 1 Ω, or OL\n");
    CHECK(outcomes(ohms + "  open -> suspects\n  fail -> suspects\n") == "o 0.3 to 1 Ω\nx OL, open\nx below 0.3 or above 1 Ω\n");
}

TEST_CASE("a fail that the plan leaves out is printed as a stop") {
    CHECK(outcomes("  volts G1.+ to G1.-\n  expect 12 .. 13 V\n  pass -> done\n  low -> suspects\n") ==
          "o 12 to 13 V\nx below 12 V\nx above 13 V\n");
    const Plan plan = printed::plan(printed::lamp_plan("check a \"A\"\n  volts G1.+ to G1.-\n  expect 12 .. 13 V\n  pass -> done\n"));
    CHECK(outcome_lines(english(), plan.checks[0]).back().outcome == nullptr);
}

TEST_CASE("looks say YES and NO or the author's answers; lamps and beepers what they do") {
    CHECK(outcomes("  look \"The lamp is lit\": E1 lit\n  pass -> done\n  fail -> suspects\n") == "o YES\nx NO\n");
    CHECK(outcomes("  look \"The lamp is lit\": E1 lit\n  pass -> done\n  \"glows\": E1 dim -> suspects\n  fail -> "
                   "suspects\n") == "o YES\nx glows\nx anything else\n");
    CHECK(outcomes("  testlamp X1.1 to ground\n  expect yes\n  pass -> done\n  fail -> suspects\n") == "o lights\nx stays dark\n");
}

TEST_CASE("a limit that is left out is computed") {
    CHECK(outcomes("  volts G1.+ to G1.-\n  pass -> done\n  fail -> suspects\n") == "o 12.36 to 12.94 V\nx below 12.36 or above 12.94 V\n");
    CHECK(outcomes("  testlamp X1.1 to ground\n  pass -> done\n  fail -> suspects\n") == "o stays dark\nx lights\n");
}

TEST_CASE("rows: what names no row is said of all of them") {
    const std::string rows = "  volts \"Left\" F1.1 to G1.-\n  volts \"Right\" F1.2 to G1.-\n";
    CHECK(outcomes(rows + "  expect above 12 V\n  pass -> done\n  fail -> suspects\n") ==
          "o 12 V or more in every row\nx below 12 V in any row\n");
    CHECK(outcomes(rows + "  expect above 12 V\n  pass -> done\n  fail \"Left\" -> suspects\n  fail -> suspects\n") ==
          "o 12 V or more in every row\nx below 12 V\nx any other row\n");
}

TEST_CASE("within an earlier reading is a sum to do, downwards unless the plan has a way for too high") {
    const std::string first = "check r \"R\"\n  volts G1.+ to G1.-\n  expect 12 .. 13 V\n  pass -> s\n  fail -> suspects\n";
    const std::string second = "check s \"S\"\n  volts F1.2 to G1.-\n  expect within 0.8 V of r\n  pass -> done\n";
    const Plan down = printed::plan(printed::lamp_plan(first + second + "  fail -> suspects\n"));
    REQUIRE(sums_of(english(), down.checks[1]).size() == 1);
    CHECK(sums_of(english(), down.checks[1])[0].minus);
    CHECK(sums_of(english(), down.checks[1])[0].figure == "0.8");
    CHECK(sums_of(english(), down.checks[1])[0].reference == 0);
    CHECK(printed::words(printed::sheet(down).document).find("reading 1 − 0.8 = V") != std::string::npos);
    const Plan both = printed::plan(printed::lamp_plan(first + second + "  low -> suspects\n  high -> suspects\n"));
    REQUIRE(sums_of(english(), both.checks[1]).size() == 2);
    CHECK_FALSE(sums_of(english(), both.checks[1])[1].minus);
}

// Ranges of a 3 1/2 digit meter; 2 V below 1 V, because 0.10 V on 20 V is a fifth uncertain (trade data, section 7).
TEST_CASE("the dial: the range that shows the limit") {
    CHECK(dial("  volts G1.+ to G1.-\n  expect 12 .. 13 V\n").words == "20 V range");
    CHECK(dial("  volts G1.+ to G1.-\n  expect below 0.9 V\n").words == "2 V range");
    CHECK(dial("  volts G1.+ to G1.-\n  expect below 1 V\n").words == "20 V range");
    CHECK(dial("  volts G1.+ to G1.-\n").words == "20 V range");
    CHECK(dial("  with X1 unplugged\n  ohms part E1.1 to part E1.2\n  expect 70 .. 110 ohm\n").words == "200 Ω range");
    CHECK(dial("  with X1 unplugged\n  ohms part E1.1 to part E1.2\n  expect 0.3 .. 4 kohm\n").words == "20 kΩ range");
}

TEST_CASE("blanks beside the reading: the current of a drop, the leads' own ohms below 10 ohm") {
    CHECK(dial("  with S1 pressed\n  drop X1.2 to G1.-\n  expect below 0.1 V\n").current_blank);
    CHECK(dial("  with X1 unplugged\n  ohms part E1.1 to part E1.2\n  expect below 5 ohm\n").lead_blank);
    CHECK_FALSE(dial("  with X1 unplugged\n  ohms part E1.1 to part E1.2\n  expect below 15 ohm\n").lead_blank);
    CHECK(dial("  with S1 pressed\n  clamp W3\n  expect 1 .. 2 A\n").remark == "closed and empty: set to zero");
}

TEST_CASE("without a limit the dial stands for the volts of the car's own battery") {
    const auto words = [](const std::string& volts) { // not proved: no limit is filled in
        Sources sources;
        Findings findings;
        std::vector<Tree> trees;
        trees.push_back(parse(
            sources, sources.add("a.plan", "plan A-1 \"a\"\nbattery G1 " + volts + "\ncheck a\n  volts G1.+ to G1.-\n  pass -> done\n"),
            findings));
        const Plan plan = build(sources, trees, findings);
        return dial_of(english(), plan, plan.checks.at(0)).words;
    };
    CHECK(words("12.6 V") == "20 V range");
    CHECK(words("25.2 V") == "200 V range");
}
