// Which parts of a shared file stand on the sheet of a plan that uses a part of it.
#include "analysis/analysis.hpp"
#include "sheet/words/used_parts.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

const std::string house = R"(battery G1 12.6 V
fuse F12 "Horn" 15 A
fuse F13 "Lamp" 10 A
fuse F20 "Key" 10 A
ground XE1
ground XE9
splice J2 joins F12.1 F13.1
switch S1 "Key" 30/15 closed when key on crank
relay K5 "Supply" coil 86/85 85 ohm, contact 30/87
lamp E5 "Lamp" 1/2 21 W
connector X7 2 pins, on E5
wire W1 G1.+ -> J2 2.5 mm2
wire W4 G1.- -> XE1 16 mm2
wire W8 F13.2 -> X7.1 1 mm2
wire W9 X7.2 -> XE9 1 mm2
wire W10 G1.+ -> F20.1 2.5 mm2
wire W11 F20.2 -> S1.30 1 mm2
wire W12 S1.15 -> K5.86 1 mm2
wire W13 K5.85 -> XE9 1 mm2
wire W14 G1.+ -> K5.30 2.5 mm2
)";

std::string used(const std::string& own) {
    MemoryDisk disk;
    disk.files["test.plan"] = "use \"house.plan\"\nplan T-01 \"Test\"\n" + own, disk.files["house.plan"] = house;
    Sources sources;
    const Plan plan = *analyse(sources, disk, {"test.plan"}).plan;
    const std::vector<bool> of = used_parts(plan);
    std::string said;
    for (std::size_t i = 0; i < of.size(); ++i)
        if (of[i]) said += (said.empty() ? "" : " ") + plan.circuit.parts[i].id;
    return said;
}

const std::string horn = "horn H1 1/2 5 A\nwire W3 H1.2 -> XE1 1.5 mm2\n";

} // namespace

TEST_CASE("the parts of a plan are its own, those it wires, and the way to the battery") {
    CHECK(used(horn + "wire W2 F12.2 -> H1.1 1.5 mm2\n") == "G1 F12 XE1 J2 H1");
}

TEST_CASE("with a relay on the way comes what calls it") {
    CHECK(used(horn + "wire W2 K5.87 -> H1.1 1.5 mm2\n") == "G1 F20 XE1 XE9 S1 K5 H1");
}

TEST_CASE("what a check or a set-up names is the plan's too, and what `also` adds words or elements to") {
    const std::string wired = horn + "wire W2 F12.2 -> H1.1 1.5 mm2\n";
    CHECK(used(wired + "check a\n  volts X7.1 to G1.-\n  pass -> done\n") == "G1 F12 F13 XE1 XE9 J2 E5 X7 H1");
    CHECK(used(wired + "check a\n  with F20 pulled\n  volts H1.1 to G1.-\n  pass -> done\n") == "G1 F12 F20 XE1 J2 H1");
    CHECK(used(wired + "also XE9 note \"below the seat\"\n") == "G1 F12 XE1 XE9 J2 H1");
}
