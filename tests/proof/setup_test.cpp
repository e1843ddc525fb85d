// The rules of set-ups and of where the tips go.
#include "proof/said.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

const std::string circuit = R"(plan FAN-01 "Fan"
battery G1 12.6 V
ground XE1
ground XE3
fuse F1 40 A, type C
splice J1
switch S1 30/15 closed when key on crank
switch S2, sprung
  at rest
  at pressed 1/2
relay K5 coil 86/85 85 ohm, contact 30/87
module U1 supply 15, ground 31, output 47 pulls down 1 A
motor M3 1/2 22 A
lamp E1 1/31 5 W
connector X30 2 pins, mates X31, half "body" "front"
connector X21 2 pins, on M3
connector X1 60 pins, on U1
wire W1 G1.+ -> F1.1 16 mm2 unfused
wire W2 F1.2 -> J1 10 mm2
wire W3 J1 -> S1.30 6 mm2
wire W4 J1 -> K5.30 6 mm2
wire W5 S1.15 -> K5.86 6 mm2
wire W6 K5.85 -> X1.47 6 mm2
wire W7 K5.87 -> X30.1 6 mm2
wire W8 X31.1 -> X21.1 6 mm2
wire W9 X21.2 -> X31.2 6 mm2
wire W10 X30.2 -> XE1 6 mm2
wire W11 X1.31 -> XE1 6 mm2
wire W12 G1.- -> XE1 25 mm2 unfused
wire W13 S1.15 -> X1.15 6 mm2
wire W14 J1 -> S2.1 6 mm2
wire W15 S2.2 -> E1.1 6 mm2
wire W16 E1.31 -> XE1 6 mm2
)";

// What is said of one check: its set-up and its measurement. What it reads is no matter here.
std::string of(const std::string& with, const std::string& measure) {
    Sources sources;
    std::string list;
    const Findings findings = said::all(sources, circuit + "check first\n" + (with.empty() ? "" : "  with " + with + "\n") + "  " +
                                                     measure + "\n  pass -> done\n");
    for (const Diagnostic& finding : findings.list())
        if (finding.code < 600 || finding.code > 699)
            list += (list.empty() ? "" : "; ") + std::to_string(finding.code) + " " + finding.says;
    return list;
}
bool finds(const std::string& said, int code) {
    return said.starts_with(std::to_string(code) + " ") && said.find("; ") == std::string::npos;
}

} // namespace

TEST_CASE("what comes off, and how") {
    const std::string look = "look \"The fan runs\": M3 runs";
    for (const char* right : {"X21 unplugged", "X30 unplugged", "X31 unplugged", "F1 pulled", "K5 pulled", "E1 pulled", "G1.- disconnected",
                              "S1.30 disconnected", "one of F1 K5 pulled"})
        CHECK_MESSAGE(of(right, look) == "", right, ": ", of(right, look));
    for (const char* wrong : {"M3 unplugged", "F1 unplugged", "S1 unplugged", "X21 pulled", "M3 pulled", "S1 pulled", "K5.30 disconnected",
                              "X21.1 disconnected", "M3.1 disconnected", "one of F1 M3 pulled"})
        CHECK_MESSAGE(finds(of(wrong, look), 502), wrong, ": ", of(wrong, look));
}

TEST_CASE("what the set-up hides") {
    CHECK(of("", "volts X21.1 to ground") == "");          // from the wire side
    CHECK(of("X21 unplugged", "ohms M3.1 to M3.2") == ""); // the motor's own pins
    CHECK(of("", "volts F1.2 to ground") == "");
    CHECK(of("", "volts part F1.2 to ground") == ""); // blade fuses have openings for the tips
    CHECK(of("K5 pulled", "ohms part K5.86 to part K5.85") == "");
    CHECK(of("", "volts part G1.+ to part G1.-") == "");
    CHECK(of("", "volts XE1 to G1.+") == "");
    CHECK(finds(of("", "volts M3.1 to ground"), 503));
    CHECK(finds(of("", "volts part M3.1 to ground"), 503));
    CHECK(finds(of("", "volts part K5.87 to ground"), 503));
    CHECK(finds(of("", "volts J1 to ground"), 503)); // a splice in the loom
    CHECK(finds(of("", "volts W4 to ground"), 503)); // insulation
    CHECK(finds(of("", "volts joint X21.1 to ground"), 503));
    CHECK(finds(of("", "volts M3 to ground"), 503)); // which pin?
    CHECK(finds(of("bridge part K5.30 to K5.87 fused 10 A", "look \"The fan runs\": M3 runs"), 503));
}

TEST_CASE("a joint that the set-up took apart cannot be proved") {
    CHECK(of("key on, U1.47 on", "drop K5.87 to X21.1") == "");
    CHECK(of("key on, U1.47 on", "drop X31.1 to X21.1") == "");
    CHECK(of("X30 unplugged", "drop K5.87 to X21.1") ==
          "503 X30 is off here, and with it the joint X30.1: there is no way from K5.87 to X21.1");
    CHECK(finds(of("K5 pulled", "drop K5.30 to X30.1"), 503));
    CHECK(finds(of("G1.- disconnected", "drop X30.2 to part G1.-"), 503));
    CHECK(of("", "drop X21.1 to X21.2") ==
          "513 a drop is read along wires, joints and closed contacts; from X21.1 to X21.2 M3 lies between them");
}

TEST_CASE("the half that hangs dead") {
    CHECK(of("X30 unplugged", "volts X30.1 to ground") == "");
    CHECK(finds(of("key on, U1.47 on, X30 unplugged", "volts X31.1 to ground"), 504));
    CHECK(finds(of("X31 unplugged", "volts X31.1 to X31.2"), 504)); // one message for the row
    CHECK(finds(of("X30 unplugged", "testlamp G1.+ to X31.2"), 504));
    CHECK(of("X30 unplugged", "testlamp G1.+ to X30.2") == "");
    CHECK(of("X30 unplugged", "ohms X31.1 to X31.2") == ""); // ohms want the dead half
    CHECK(of("", "volts X31.1 to X31.2") == "");
}

TEST_CASE("ohms with a supply connected") {
    CHECK(finds(of("", "ohms K5.30 to ground"), 505)); // straight
    CHECK(finds(of("", "ohms S2.1 to S2.2"), 505));
    CHECK(of("", "ohms X21.1 to X21.2") == "");  // the relay is open
    CHECK(of("", "ohms S1.15 to ground") == ""); // the key is off
    CHECK(finds(of("key on", "ohms S1.15 to ground"), 505));
    CHECK(finds(of("key on, U1.47 on", "ohms X21.1 to X21.2"), 505)); // the relay has pulled in
    CHECK(finds(of("key on", "ohms K5.85 to ground"), 505));          // through the coil
    CHECK(of("F1 pulled", "ohms K5.30 to ground") == "");
    CHECK(of("G1.- disconnected", "ohms K5.30 to ground") == "");
    CHECK(of("", "continuity X30.2 to XE1") == ""); // ground alone does no harm
    CHECK(finds(of("S2 pressed", "ohms E1.1 to E1.31"), 505));
    CHECK(of("", "ohms E1.1 to E1.31") == "");
}

TEST_CASE("bridges") {
    const std::string look = "look \"The fan runs\": M3 runs";
    CHECK(of("bridge K5.30 to K5.87 fused 10 A", look) == "");
    CHECK(finds(of("bridge K5.30 to K5.87", look), 511));
    CHECK(finds(of("bridge K5.30 to XE1 fused 10 A", look), 506));
    CHECK(finds(of("bridge XE1 to G1.+ fused 10 A", look), 506));
    CHECK(of("bridge K5.86 to X30.2 fused 10 A", look) == ""); // the key is off: no supply there
    CHECK(finds(of("key on, bridge K5.86 to X30.2 fused 10 A", look), 506));
    CHECK(of("key on, bridge K5.85 to XE1 fused 1 A", look) == ""); // the coil lies between
}

TEST_CASE("two tips on one piece of metal") {
    CHECK(finds(of("", "volts X21.1 to X21.1"), 507));
    CHECK(finds(of("", "drop XE1 to XE1"), 507));
    CHECK(of("", "drop XE1 to XE3") == ""); // the body between
    CHECK(of("K5 pulled", "continuity part K5.30 to part K5.87") == "");
}

TEST_CASE("set-ups that contradict themselves") {
    const std::string look = "look \"The fan runs\": M3 runs";
    for (const char* wrong :
         {"key on, key off", "engine running, key off", "asleep, key on", "asleep, engine running", "at 2000 rpm, at 3000 rpm",
          "key on, X1 unplugged, U1.47 on", "S2 at rest, S2 pressed", "F1 pulled, one of F1 K5 pulled"})
        CHECK_MESSAGE(finds(of(wrong, look), 509), wrong, ": ", of(wrong, look));
    for (const char* right : {"key on, key on", "asleep, key off", "X21 unplugged, U1.47 on, key on", "S2 pressed, key on"})
        CHECK_MESSAGE(of(right, look) == "", right, ": ", of(right, look));
    CHECK_FALSE(finds(of("engine running, key on", look), 509));
    CHECK(finds(of("engine running, key on", look), 310)); // nobody says what the alternator gives
}

TEST_CASE("a contradiction in a set-up is told there, not again in each check that uses it") {
    const std::string plan = circuit + "setup both: key on, key off\ncheck first\n  with both\n  look \"It runs\": M3 runs\n  pass -> two\n"
                                       "check two\n  with both\n  look \"It runs\": M3 runs\n  pass -> done\n";
    CHECK(said::codes(plan) == "LS509 34");
}

TEST_CASE("a load needs two points") {
    CHECK(of("load 21 W", "volts K5.30 to ground") == "");
    CHECK(of("load 21 W across K5.30 to XE1", "look \"The fan runs\": M3 runs") == "");
    CHECK(finds(of("load 21 W", "look \"The fan runs\": M3 runs"), 512));
    CHECK(finds(of("load 21 W", "clamp G1.-"), 512));
    CHECK(finds(of("load 21 W", "amps through F1"), 512));
}
