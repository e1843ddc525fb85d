#include "printed.hpp"
#include "sheet/card/cautions.hpp"
#include "sheet/words/wording.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {
const std::string plain = "  volts G1.+ to G1.-\n  expect 12 .. 13 V\n  pass -> done\n  fail -> suspects\n";
} // namespace

TEST_CASE("every usual caution names its source or that it has none") {
    for (const CautionRow& row : usual_cautions())
        CHECK(!row.source.empty());
    for (const CheckCautionRow& row : usual_check_cautions())
        CHECK(!row.source.empty());
}

TEST_CASE("the maker's data, raised car, high voltage and restraint systems stand on every sheet") {
    const std::string words = printed::words(printed::sheet(printed::plan(printed::lamp_plan("check a \"A\"\n" + plain))).document);
    for (const char* part : {"maker’s data comes first", "Raised car", "Qualified people only", "Battery."}) {
        CAPTURE(part);
        CHECK(words.find(part) != std::string::npos);
    }
    CHECK(words.find("Moving parts") == std::string::npos); // nothing in this circuit turns
}

TEST_CASE("a check is warned of a bridge; the author's own words count instead where there are any") {
    const std::string bridged = "check a \"A\"\n  with F1 pulled, bridge F1.1 to F1.2 fused 10 A\n";
    const Plan usual = printed::plan(printed::lamp_plan(bridged + plain));
    REQUIRE(cautions_of(english(), usual, usual.checks[0]).size() == 1);
    CHECK(cautions_of(english(), usual, usual.checks[0])[0].find("bridged") != std::string::npos);
    const Plan own = printed::plan(printed::lamp_plan(bridged + "  caution \"The lamp lights at once.\"\n" + plain));
    CHECK(cautions_of(english(), own, own.checks[0]) == std::vector<std::string>{"The lamp lights at once."});
}

TEST_CASE("tools are worked out from the checks") {
    const Plan plan = printed::plan(
        printed::lamp_plan("check a \"A\"\n  with S1 pressed\n  drop X1.2 to G1.-\n  expect below 0.1 V\n  pass -> b\n  fail -> suspects\n"
                           "check b \"B\"\n  with F1 pulled, X1 unplugged, bridge F1.1 to F1.2 fused 10 A, load 21 W\n"
                           "  volts X1.1 to G1.-\n  expect above 11 V\n  pass -> done\n  fail -> suspects\n",
                           "meter clamp ±10 mA\n"));
    const std::string words = printed::words(printed::sheet(plan).document);
    for (const char* tool :
         {"reads 0.001 V", "Clamp meter for d.c. amperes, within ±10 mA", "Lamp 21 W with leads", "Bridge lead with 10 A fuse",
          "Back-probe pins", "Test pins", "Black lead 3 m", "For the panels: Lamp cover", "A helper"}) {
        CAPTURE(tool);
        CHECK(words.find(tool) != std::string::npos);
    }
    CHECK(words.find("Test lamp with clip") == std::string::npos);
}
