// The rules of wiring on small circuits: what must be found, and what must not.
#include "analysis/analysis.hpp"
#include "proof/said.hpp"
#include "source/disk.hpp"
#include <cstdlib>
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

const std::string battery = R"(plan T-01 "Test"
battery G1 12.6 V
ground XE1
fuse F1 40 A
wire W1 G1.+ -> F1.1 16 mm2 unfused
wire W2 G1.- -> XE1 25 mm2 unfused
)";

bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

} // namespace

// --- LS401, LS402 --------------------------------------------------------------------------------------------------
TEST_CASE("a part on the engine has no way back through the body, until a strap joins the two") {
    const std::string plan = battery + R"(ground XE2, on engine
ground XE4, on engine
lamp E1 1/31 21 W
wire W3 F1.2 -> E1.1 6 mm2
wire W4 E1.31 -> XE2 6 mm2
)";
    CHECK(says(said::of(plan), "E1 has no way back to ground: nothing leads from the engine on to G1.-"));
    CHECK(said::of(plan + "wire W5 XE1 -> XE4 16 mm2\n") == "");
}

TEST_CASE("parts that lost the same ground are named together, once") {
    const std::string plan = battery + R"(splice J1
lamp E1 1/31 21 W
lamp E2 1/31 21 W
wire W3 F1.2 -> E1.1 6 mm2
wire W4 F1.2 -> E2.1 6 mm2
wire W5 E1.31 -> J1 6 mm2
wire W6 E2.31 -> J1 6 mm2
)";
    CHECK(said::codes(plan) == "LS401 8");
    CHECK(says(said::of(plan), "E1 and E2 have no way back to ground: nothing leads from J1 on to G1.-"));
    CHECK(said::codes(plan + "wire W7 J1 -> XE1 6 mm2\n") == "");
}

TEST_CASE("a way does not lead backwards through another load, but two lamps in series are sound") {
    CHECK(said::codes(battery + R"(lamp E1 1/2 5 W
lamp E2 1/2 5 W
wire W3 F1.2 -> E1.1 6 mm2
wire W4 E1.2 -> E2.1 6 mm2
wire W5 E2.2 -> XE1 6 mm2
)") == "");
}

TEST_CASE("of two lamps in series with a lost ground both are named, once, with the point behind the second") {
    CHECK(said::of(battery + R"(lamp E1 1/2 5 W
lamp E2 1/2 5 W
wire W3 F1.2 -> E1.1 6 mm2
wire W4 E1.2 -> E2.1 6 mm2
)") == "test.plan:7:6: error LS401: E1 and E2 have no way back to ground: nothing leads from E2.2 on to G1.- "
       "(write a wire from E2.2 to a ground point, such as E2.2 -> XE1)\n");
}

TEST_CASE("a motor that a switch reverses has both ways at each end; it loses both when the switch has no ground") {
    const std::string plan = battery + R"(switch S4
  at rest 31/A 31/B
  at up 30/A 31/B
  at down 31/A 30/B
motor M1 1/2 8 A
wire W3 F1.2 -> S4.30 6 mm2
wire W4 S4.A -> M1.1 6 mm2
wire W5 S4.B -> M1.2 6 mm2
)";
    CHECK(said::codes(plan + "wire W6 S4.31 -> XE1 6 mm2\n") == "");
    CHECK(said::codes(plan) == "LS401 11");
    CHECK(says(said::of(plan), "nothing leads from S4.31 on to G1.-"));
}

TEST_CASE("two change-over relays that reverse a motor are sound and no short") {
    CHECK(said::codes(battery + R"(relay K1 coil 86/85 85 ohm, contact 30/87/87a
relay K2 coil 86/85 85 ohm, contact 30/87/87a
switch S1
  at rest
  at up 30/1
  at down 30/2
motor M1 1/2 8 A
splice J1
splice J2
wire W3 F1.2 -> J1 10 mm2
wire W4 J1 -> K1.87 6 mm2
wire W5 J1 -> K2.87 6 mm2
wire W6 K1.87a -> J2 6 mm2
wire W7 K2.87a -> J2 6 mm2
wire W8 J2 -> XE1 6 mm2
wire W9 K1.30 -> M1.1 6 mm2
wire W10 K2.30 -> M1.2 6 mm2
wire W11 J1 -> S1.30 6 mm2
wire W12 S1.1 -> K1.86 6 mm2
wire W13 S1.2 -> K2.86 6 mm2
wire W14 K1.85 -> XE1 6 mm2
wire W15 K2.85 -> XE1 6 mm2
)") == "");
}

TEST_CASE("a relay called by a module hangs on the module's ground: the module is named, and the relay with it") {
    const std::string plan = battery + R"(relay K5 coil 86/85 85 ohm, contact 30/87
module U1 supply 15, ground 31, output 47 pulls down 1 A
lamp E1 1/31 21 W
wire W3 F1.2 -> K5.86 6 mm2
wire W4 K5.85 -> U1.47 6 mm2
wire W5 F1.2 -> U1.15 6 mm2
wire W6 F1.2 -> K5.30 6 mm2
wire W7 K5.87 -> E1.1 6 mm2
wire W8 E1.31 -> XE1 6 mm2
)";
    CHECK(said::codes(plan + "wire W9 U1.31 -> XE1 6 mm2\n") == "");
    CHECK(said::codes(plan) == "LS401 7");
    CHECK(says(said::of(plan), "K5 and U1 have no way back to ground: nothing leads from U1.31 on to G1.-"));
    CHECK(says(said::of(said::without_line(plan, "wire W4") + "wire W9 U1.31 -> XE1 6 mm2\n"),
               "U1.47 leads to ground and no wire comes to it: write a wire K5.85 -> U1.47"));
}

TEST_CASE("a lost strap of the battery is one finding, whatever hangs on it") {
    CHECK(said::of(said::without_line(battery, "wire W2") + R"(module U1 supply 30, ground 31
module U2 supply 30, ground 31
lamp E1 1/31 21 W
wire W3 F1.2 -> U1.30 6 mm2
wire W4 F1.2 -> U2.30 6 mm2
wire W5 F1.2 -> E1.1 6 mm2
wire W6 U1.31 -> XE1 6 mm2
wire W7 U2.31 -> XE1 6 mm2
wire W8 E1.31 -> XE1 6 mm2
)") == "test.plan:6:8: error LS401: U1, U2 and E1 have no way back to ground: nothing leads from the body on to G1.- "
       "(join the body to the battery, with a strap from a ground point on it)\n");
}

TEST_CASE("a diode leads one way only") {
    const std::string plan = battery + "diode V1 1/2\nlamp E1 1/31 21 W\nwire W5 E1.31 -> XE1 6 mm2\n";
    CHECK(said::codes(plan + "wire W3 F1.2 -> V1.1 6 mm2\nwire W4 V1.2 -> E1.1 6 mm2\n") == "");
    CHECK(said::codes(plan + "wire W3 F1.2 -> V1.2 6 mm2\nwire W4 V1.1 -> E1.1 6 mm2\n") == "LS402 8");
}

TEST_CASE("two batteries in series feed a 24 V lamp, and an alternator is no second ground") {
    CHECK(said::codes(R"(plan T-01 "Test"
battery G1 12.6 V
battery G2 12.6 V
battery G3 28 V when engine running
ground XE1
fuse F1 40 A
lamp E1 1/31 21 W
wire W1 G2.+ -> F1.1 16 mm2 unfused
wire W2 G1.- -> XE1 25 mm2 unfused
wire W3 G1.+ -> G2.- 25 mm2 unfused
wire W4 F1.2 -> E1.1 6 mm2
wire W5 E1.31 -> XE1 6 mm2
wire W6 G3.+ -> G2.+ 25 mm2 unfused
wire W7 G3.- -> XE1 25 mm2 unfused
)") == "");
}

TEST_CASE("a pin of a module of which the plan says nothing may be a supply or a ground") {
    CHECK(said::codes(battery + R"(module U1 supply 30, ground 31
connector X1 8 pins, on U1
lamp E1 1/31 2 W
wire W3 F1.2 -> X1.4 6 mm2
wire W4 X1.5 -> E1.1 6 mm2
wire W5 E1.31 -> X1.6 6 mm2
)") == "LS403 7"); // only U1 itself has no wire that it needs
}

TEST_CASE("a starter: the pull-in winding ends at the motor, the case is bolted to the engine") {
    const std::string plan = battery + R"(ground XE2, on engine
assembly M1 pins 30 50 31, 31 on XE2
relay K2 in M1, coil 50/31 1.1 ohm, coil 50/45 0.35 ohm, contact 30/45
motor M2 in M1, 45/31 140 A
switch S1 30/50 closed when key crank
wire W3 G1.+ -> M1.30 35 mm2 unfused
wire W4 F1.2 -> S1.30 6 mm2
wire W5 S1.50 -> M1.50 6 mm2
)";
    CHECK(said::codes(plan + "ground XE3, on engine\nwire W6 XE1 -> XE3 35 mm2\n") == "");
    CHECK(said::codes(plan) == "LS401 9"); // K2 and M2 together
}

// --- LS403, LS405 --------------------------------------------------------------------------------------------------
TEST_CASE("the spare throw of a change-over contact may stay free, its common may not") {
    const std::string plan = battery + R"(relay K5 coil 86/85 85 ohm, contact 30/87/87a
lamp E1 1/31 21 W
wire W3 F1.2 -> K5.86 6 mm2
wire W4 K5.85 -> XE1 6 mm2
wire W5 K5.87 -> E1.1 6 mm2
wire W6 E1.31 -> XE1 6 mm2
)";
    CHECK(said::codes(plan + "wire W7 F1.2 -> K5.30 6 mm2\n") == "");
    CHECK(said::codes(plan) == "LS402 8"); // the lamp, told once; not the pin of the relay as well
}

TEST_CASE("a part to which no wire comes is told once, not pin by pin") {
    CHECK(said::codes(battery + "lamp E1 1/31 21 W\n") == "LS403 4, LS403 7"); // F1.2 has nothing behind it either
    CHECK(says(said::of(battery + "lamp E1 1/31 21 W\n"), "no wire comes to E1"));
}

TEST_CASE("a plug that has no cavity for a pin of its part") {
    const std::string plan = battery + R"(lamp E1 1/31 21 W
connector X1 2 pins, on E1, map 1=1 2=9
wire W3 F1.2 -> X1.1 6 mm2
)";
    CHECK(says(said::of(plan), "E1 has no way back to ground: nothing leads from E1.31 on to G1.-"));
}

// --- LS406 to LS409 ------------------------------------------------------------------------------------------------
TEST_CASE("a short behind the key is found with the switch that closes it, and takes no other finding with it") {
    CHECK(said::codes(battery + R"(switch S1 30/15 closed when key on
lamp E1 1/31 21 W
wire W3 F1.2 -> S1.30 6 mm2
wire W4 S1.15 -> E1.1 6 mm2
wire W5 E1.31 -> XE1 6 mm2
wire W6 S1.15 -> XE1 6 mm2
)") == "LS406 12");
}

TEST_CASE("a wire that leads to a fuse only needs no fuse of its own; one that leads to a load does, relay or not") {
    CHECK(said::codes(said::without_line(battery, "wire W1") + R"(wire W1 G1.+ -> F1.1 16 mm2
relay K5 coil 86/85 85 ohm, contact 30/87
lamp E1 1/31 21 W
wire W3 F1.2 -> K5.86 6 mm2
wire W4 K5.85 -> XE1 6 mm2
wire W5 G1.+ -> K5.30 6 mm2
wire W6 K5.87 -> E1.1 6 mm2
wire W7 E1.31 -> XE1 6 mm2
)") == "LS407 11");
}

TEST_CASE("the wire behind a relay counts for its fuse, the wires behind a load and behind the next fuse do not") {
    const std::string plan = R"(plan T-01 "Test"
battery G1 12.6 V
ground XE1
fuse F1 40 A
fuse F2 10 A
relay K5 coil 86/85 85 ohm, contact 30/87
lamp E1 1/31 21 W
wire W1 G1.+ -> F1.1 16 mm2 unfused
wire W2 G1.- -> XE1 25 mm2 unfused
wire W3 F1.2 -> K5.30 6 mm2
wire W4 F1.2 -> F2.1 6 mm2
wire W5 F2.2 -> K5.86 0.75 mm2
wire W6 K5.85 -> XE1 0.35 mm2
wire W7 E1.31 -> XE1 0.5 mm2
)";
    CHECK(said::codes(plan + "wire W8 K5.87 -> E1.1 6 mm2\n") == "");
    CHECK(said::codes(plan + "wire W8 K5.87 -> E1.1 2.5 mm2\n") == "LS408 4");
    CHECK(said::codes(plan + "wire W8 K5.87 -> E1.1 2.5 mm2 rated 40 A\n") == "");
    CHECK(said::codes(plan + "wire W8 K5.87 -> E1.1 AWG 12\n") == "LS408 4"); // 38 A in an engine space
    CHECK(said::codes(plan + "wire W8 K5.87 -> E1.1 AWG 10\n") == "");
    CHECK(says(said::of(plan + "wire W8 K5.87 -> E1.1 AWG 12\n"),
               "F1 of 40 A is larger than W8 behind it may carry: AWG 12, 38 A (ABYC E-11, engine space of 50 °C)"));
}

TEST_CASE("loads that surely flow at once are added up, alternatives are not") {
    const std::string plan = battery + R"(switch S1
  at off
  at low 30/A
  at high 30/B
heater E1 1/2 20 A
heater E2 1/2 20 A
wire W3 F1.2 -> S1.30 6 mm2
wire W6 E1.2 -> XE1 6 mm2
wire W7 E2.2 -> XE1 6 mm2
wire W4 S1.A -> E1.1 6 mm2
)";
    CHECK(said::codes(plan + "wire W5 S1.B -> E2.1 6 mm2\n") == "");
    const std::string both = said::of(said::without_line(plan, "  at high") + "wire W5 S1.A -> E2.1 6 mm2\n");
    CHECK(says(both, "E1 and E2 draw 40 A through F1 of 40 A: 100 %"));
    CHECK(says(both, "take a fuse of 50 A or more"));
}

TEST_CASE("watts are turned into amps at the volts of the load, else of the system") {
    const auto lamp = [](const std::string& watts, const std::string& system) {
        return said::codes(R"(plan T-01 "Test"
)" + system + R"(battery G1 12.6 V
ground XE1
fuse F1 5 A
lamp E1 1/31 )" + watts + R"(
wire W1 G1.+ -> F1.1 16 mm2 unfused
wire W2 G1.- -> XE1 25 mm2 unfused
wire W3 F1.2 -> E1.1 6 mm2
wire W4 E1.31 -> XE1 6 mm2
)");
    };
    CHECK(lamp("55 W", "") == "LS409 4");         // 4.6 A
    CHECK(lamp("55 W", "  system 24 V\n") == ""); // 2.3 A
    CHECK(lamp("55 W at 12 V", "  system 24 V\n") == "LS409 5");
    CHECK(lamp("47 W", "") == ""); // 3.9 A of 5 A
}

// --- LS410 ---------------------------------------------------------------------------------------------
TEST_CASE("wires that end nowhere") {
    CHECK(said::codes(battery + "splice J1\nlamp E1 1/31 21 W\nwire W3 F1.2 -> E1.1 6 mm2\nwire W4 E1.31 -> XE1 6 "
                                "mm2\nwire W5 F1.2 -> J1 6 mm2\n") == "LS410 11");
    CHECK(said::codes(battery + "lamp E1 1/31 21 W\nwire W3 F1.2 -> E1.1 6 mm2\nwire W4 E1.31 -> XE1 6 mm2\nwire W5 "
                                "F1.2 -> F1.2 6 mm2\n") == "LS410 10");
}

// --- the fan plan without each of its wires
// ---------------------------------------------------------------------------
TEST_CASE("the fan plan without one of its wires: what is said, read by eye") {
    RealDisk disk;
    std::string fan;
    REQUIRE(disk.read(std::string(LOOMSHEET_ROOT) + "/tests/plans/fan-class.plan", fan).empty());
    std::string table;
    for (int number = 1; number <= 15; ++number) {
        const std::string wire = "W" + std::to_string(number);
        std::string cut = said::without_line(fan, "wire " + wire + " ");
        REQUIRE(cut.size() < fan.size());
        for (const std::string_view blamed : {"W11 ", " W12", " W13"}) // the verdicts that blame it
            if (blamed.find(wire) != std::string_view::npos && (blamed.size() == wire.size() + 1)) {
                const auto at = cut.find(blamed, cut.find("verdict"));
                if (at != std::string::npos) cut.erase(at, blamed.size());
            }
        table += "without " + wire + ":\n";
        std::istringstream lines{said::of(cut)};
        for (std::string line; std::getline(lines, line);)
            if (line.find("LS408") == std::string::npos)
                table += "  " + line.substr(line.find(": ") + 2) + "\n"; // the main fuse, as before
    }
    const std::string path = std::string(LOOMSHEET_ROOT) + "/tests/proof/fan-without-wires.txt";
    std::string golden;
    if (std::getenv("LOOMSHEET_REFRESH") != nullptr) REQUIRE(disk.write_whole(path, table).empty());
    REQUIRE(disk.read(path, golden).empty());
    CHECK(table == golden);
}

TEST_CASE("what a load draws is reckoned with the volts of the car's own battery") {
    const std::string lorry = R"(plan T-01 "Test"
battery G1 25.2 V
ground XE1
fuse F1 5 A
wire W1 G1.+ -> F1.1 2.5 mm2
wire W2 G1.- -> XE1 25 mm2 unfused
lamp E1 1/2 70 W
wire W3 F1.2 -> E1.1 1.5 mm2
wire W4 E1.2 -> XE1 1.5 mm2
)";
    CHECK(said::codes(lorry) == ""); // 2.9 A; at 12 V it would be 5.8 A
}

TEST_CASE("an inner link of an assembly that can be reached needs no wire; a pin that lacks one is told once") {
    const std::string starter = battery + R"(assembly M1 pins 30 50 45 31
relay K2 in M1, coil 50/31 1 ohm, contact 30/45
motor M2 in M1, 45/31 20 A
switch S1 30/50 closed when key crank
wire W3 F1.2 -> M1.30 16 mm2
wire W4 F1.2 -> S1.30 6 mm2
wire W5 S1.50 -> M1.50 6 mm2
)";
    CHECK(said::codes(starter + "wire W6 M1.31 -> XE1 16 mm2\n") == "");
    const std::string bare = said::of(said::without_line(starter, "wire W3") + "wire W6 M1.31 -> XE1 16 mm2\n");
    CHECK(bare.find("M1.45") == bare.rfind("M1.45"));
}

namespace {
std::string of_files(const std::string& plan, const std::string& shared) {
    MemoryDisk disk;
    disk.files["test.plan"] = plan, disk.files["house.plan"] = shared;
    Sources sources;
    Findings found = analyse(sources, disk, {"test.plan"}).findings;
    std::erase_if(found.list(), [](const Diagnostic& finding) { return finding.code / 100 != 4; });
    return render_short(sources, found, {false, 1000});
}
} // namespace

TEST_CASE("what a shared file leaves open is for other plans") {
    const std::string own =
        "use \"house.plan\"\nplan T-01 \"Test\"\nlamp E1 1/2 21 W\nwire W9 F1.2 -> E1.1 6 mm2\nwire W8 E1.2 -> XE1 6 mm2\n";
    const std::string house = "battery G1 12.6 V\nground XE1\nfuse F1 40 A\nfuse F2 10 A\nsplice J1\nwire W1 G1.+ -> F1.1 16 mm2\n"
                              "wire W2 G1.- -> XE1 25 mm2 unfused\nwire W3 F1.2 -> J1 6 mm2\nwire W4 F1.2 -> F2.1 6 mm2\n";
    CHECK(of_files(own, house) == "");
    // what the plan itself leads there is its own affair
    CHECK(says(of_files(own + "splice J2\nwire W5 F1.2 -> J2 6 mm2\n", house), "W5 goes nowhere: it is the only wire at J2"));
    CHECK(says(of_files(own + "fuse F5 10 A\nwire W5 F1.2 -> F5.1 6 mm2\n", house), "no wire comes to F5.2"));
}
