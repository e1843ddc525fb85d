#include "printed.hpp"
#include "sheet/card/housing.hpp"
#include "sheet/words/run.hpp"
#include "sheet/words/spot.hpp"
#include "sheet/words/wording.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

struct Two {
    Spot red, black;
};
Two spots(const std::string& with, const std::string& points) {
    const Plan plan = printed::plan(printed::lamp_plan("check a \"A\"\n" + (with.empty() ? "" : "  with " + with + "\n") + "  volts " +
                                                       points + "\n  expect 0 .. 13 V\n  pass -> done\n  fail -> suspects\n"));
    const Row& row = plan.checks[0].rows[0];
    return {spot_of(english(), plan.circuit, plan.checks[0].with, row.red, part_of(plan.circuit, row.black)),
            spot_of(english(), plan.circuit, plan.checks[0].with, row.black, part_of(plan.circuit, row.red))};
}

} // namespace

TEST_CASE("a plug: from the wire side while it is in, from the front when it is off") {
    const Spot in = spots("", "X1.1 to G1.-").red;
    CHECK(in.name == "X1.1");
    CHECK(english()(in.metal) == "wire side");
    CHECK(in.place == "Lamp plug, plugged in, rear left");
    CHECK(in.view == View::wire_side);
    CHECK(in.wires.size() == 1);
    const Spot off = spots("X1 unplugged", "X1.1 to G1.-").red;
    CHECK(english()(off.metal) == "from the front");
    CHECK(off.view == View::mating_face);
}

TEST_CASE("post and clamp of the battery are two things") {
    CHECK(english()(spots("", "part G1.+ to G1.-").red.metal) == "post");
    CHECK(english()(spots("", "part G1.+ to G1.-").black.metal) == "clamp");
    CHECK(spots("", "part G1.+ to G1.-").black.name == "G1.−");
}

TEST_CASE("a fuse: wire side in place, its socket or its own blade when pulled") {
    CHECK(english()(spots("", "F1.1 to G1.-").red.metal) == "wire side");
    CHECK(english()(spots("F1 pulled", "F1.1 to G1.-").red.metal) == "empty socket");
    CHECK(english()(spots("F1 pulled", "part F1.1 to part F1.2").red.metal) == "own blade");
}

TEST_CASE("the body is never a bare word: which metal, and near what") {
    const Spot body = spots("", "X1.1 to ground").black;
    CHECK(body.name == "body");
    CHECK(english()(body.metal) == "bare metal");
    CHECK(body.place == "of the body, near Lamp plug, rear left");
    CHECK(english()(spots("", "X1.1 to XE1").black.metal) == "bolt");
    CHECK(spots("", "X1.1 to XE1").black.place == "Left wing, below the battery tray");
}

TEST_CASE("the view decides on which side cavity 1 stands; the other half of a pair is the mirror") {
    Part plug;
    plug.kind = PartKind::connector;
    plug.first_half = true;
    CHECK_FALSE(is_mirrored(plug, View::mating_face));
    CHECK(is_mirrored(plug, View::wire_side));
    Part twin = plug;
    twin.first_half = false;
    twin.twin = 0;
    CHECK(is_mirrored(twin, View::mating_face));
    CHECK_FALSE(is_mirrored(twin, View::wire_side));
}

TEST_CASE("seen from behind, the lock at 3 o'clock stands at 9") {
    const auto printed_with = [](const std::string& with) {
        return printed::words(printed::sheet(printed::plan(printed::lamp_plan(
                                                 "check a \"A\"\n" + with +
                                                 "  volts X1.1 to X1.2\n  expect 0 .. 13 V\n  pass -> done\n  fail -> suspects\n")))
                                  .document);
    };
    CHECK(printed_with("  with X1 unplugged\n").find("lock at 3 o'clock") != std::string::npos);
    CHECK(printed_with("").find("lock at 9 o'clock") != std::string::npos);
}

TEST_CASE("a run is named by what the current meets on the way") {
    const Plan plan = printed::plan(printed::lamp_plan("check a \"A\"\n  volts G1.+ to G1.-\n  expect 12 .. 13 V\n  "
                                                       "pass -> suspects G1.+ to X1.1\n  fail -> suspects\n"));
    const std::vector<std::string> run = suspects_of(english(), plan.circuit, plan.checks[0].outcomes[0].target);
    std::string said;
    for (const std::string& one : run)
        said += one + ", ";
    CHECK(said == "W1\u00A0RD, contact F1.1, F1 Lamp, contact F1.2, W2\u00A0RD/\u2060BU, contact S1.1, S1 Lamp switch, contact S1.2, "
                  "W3\u00A0BU/\u2060WH, ");
}

TEST_CASE("the sheet blames on a run what the proof takes in there: both ground points too") {
    const Plan plan = printed::plan(R"(plan HORN-01 "Horn is silent"
  complaint "The horn is silent": H1 fails
battery G1 12.6 V
fuse F12 "Horn" 15 A
horn H1 "Horn" 1/2 5 A
ground XE1
ground XE2
wire W1 G1.+ -> F12.1 2.5 mm2 RD
wire W2 F12.2 -> H1.1 1.5 mm2 BU
wire W3 H1.2 -> XE1 1.5 mm2 BN
wire W4 G1.- -> XE2 16 mm2 BK
check d "Drop", drop H1.2 to G1.-, pass -> done, fail -> bad, no current -> suspects
verdict bad "The ground side has a poor joint"
  blames H1.2 to G1.-
  repair "Clean and tighten"
  after d
)");
    std::string said;
    for (const std::string& one : blames_of(english(), plan.circuit, plan.verdicts[0]))
        said += one + ", ";
    CHECK(said == "W3\u00A0BN, XE1, XE2, W4\u00A0BK, ");
}
