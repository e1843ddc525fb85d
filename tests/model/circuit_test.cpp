// Parts, pins, plugs and wires with their names resolved.
#include "model/built.hpp"
#include "source/disk.hpp"
#include <doctest/doctest.h>
#include <set>

using namespace loomsheet;

namespace {
const std::string parts = "battery G1 12.6 V\n"
                          "fuse F1 10 A\n"
                          "motor M3 1/2 22 A, behind shield, at \"behind the radiator\"\n"
                          "ground XE1\n"
                          "splice J1 joins F1.1 G1.+\n"
                          "access shield \"Lower shield\", 12 min\n"
                          "connector X21 2 pins, on M3\n"
                          "connector X30 4 pins, mates X31, half \"body\" \"door\", at \"sill\", named 1=L 2=54g\n";
std::vector<std::string> names(const Built& built, const std::vector<PinId>& pins) {
    std::vector<std::string> all;
    for (const PinId pin : pins)
        all.push_back(built.pin(pin));
    return all;
}
using PinNames = std::vector<std::string>;
} // namespace

TEST_CASE("pins: of fuses and batteries by nature, of others as their phrases name them, of plugs by number") {
    const Built built(parts);
    CHECK(built.said() == "");
    CHECK(names(built, built.part("G1").pins) == PinNames{"G1.+", "G1.-"});
    CHECK(names(built, built.part("F1").pins) == PinNames{"F1.1", "F1.2"});
    CHECK(names(built, built.part("M3").pins) == PinNames{"M3.1", "M3.2"});
    CHECK(names(built, built.part("X21").pins) == PinNames{"X21.1", "X21.2"});
    CHECK(names(built, built.part("XE1").pins) == PinNames{"XE1"});
    CHECK(names(built, built.part("J1").joined) == PinNames{"F1.1", "G1.+"});
}

TEST_CASE("a plug meets its part and an in-line half its twin, pin by pin") {
    const Built built(parts);
    CHECK(built.mate("X21", "1") == "M3.1");
    CHECK(built.mate("M3", "2") == "X21.2");
    CHECK(built.mate("X30", "4") == "X31.4");
    CHECK(built.mate("X31", "4") == "X30.4");
    CHECK(built.mate("F1", "1") == "none");
    const Part &body = built.part("X30"), &door = built.part("X31");
    CHECK(body.first_half);
    CHECK_FALSE(door.first_half);
    CHECK(body.half == "body");
    CHECK(door.half == "door");
    CHECK(door.cavities == 4);
    CHECK(door.place == "sill");
    CHECK(built.circuit().find_pin(built.circuit().find_part("X31"), "54g") != none); // the mark of cavity 2, on both halves
    CHECK(built.circuit().plug_of(built.circuit().find_part("M3")) == built.circuit().find_part("X21"));
    CHECK(built.circuit().plug_of(built.circuit().find_part("X30")) == built.circuit().find_part("X31"));
}

TEST_CASE("`map` where cavity and pin have other numbers") {
    const Built built("switch S1\n  30/15 closed when key on\nconnector X7 2 pins, on S1, map 1=30 2=15\n"
                      "connector X8 3 pins, mates X9, map 1=3 3=1\n");
    CHECK(built.said() == "");
    CHECK(built.mate("X7", "1") == "S1.30");
    CHECK(built.mate("S1", "15") == "X7.2");
    CHECK(built.mate("X8", "1") == "X9.3");
    CHECK(built.mate("X8", "3") == "X9.1");
    CHECK(built.mate("X9", "1") == "X8.3");
    CHECK(built.mate("X8", "2") == "X9.2");
}

TEST_CASE("what sits behind a panel takes its plug along; places are inherited the same way") {
    const Built built(parts);
    const auto& circuit = built.circuit();
    CHECK(circuit.panels.at(circuit.panel_of(circuit.find_part("X21"))).label == "shield");
    CHECK(circuit.place_of(circuit.find_part("X21")) == "behind the radiator");
    CHECK(circuit.panel_of(circuit.find_part("F1")) == none);
    CHECK(circuit.sits_in_holder(circuit.find_part("F1")));
    CHECK_FALSE(circuit.sits_in_holder(circuit.find_part("M3")));
}

TEST_CASE("an assembly lends its pins to what is in it; what it does not list is inside") {
    const Built built("assembly M1 pins 30 50 31, 31 on XE2, at \"gearbox\"\nground XE2 on engine\n"
                      "relay K2 in M1, coil 50/31 1.1 ohm, contact 30/45\nmotor M2 in M1, 45/31 140 A\n");
    CHECK(built.said() == "");
    const Part& assembly = built.part("M1");
    CHECK(built.part("K2").pins.empty());
    CHECK(built.pin(built.part("K2").elements.at(1).a) == "M1.30");
    CHECK(built.pin(built.part("M2").elements.at(0).a) == "M1.45");
    CHECK(built.pin(assembly.bolted_pin) == "M1.31");
    CHECK(built.circuit().parts.at(assembly.bolted_to).metal == "engine");
    std::string inside;
    for (const PinId pin : assembly.pins)
        if (!built.circuit().pins[pin].declared) inside += built.pin(pin);
    CHECK(inside == "M1.45");
    CHECK(built.circuit().place_of(built.circuit().find_part("M2")) == "gearbox");
    CHECK_FALSE(built.circuit().sits_in_holder(built.circuit().find_part("K2")));
}

TEST_CASE("elements: who is a, b and c") {
    const Built built("relay K5 coil 86/85 85 ohm, contact 30/87/87a, diode 86/85\n"
                      "switch S4\n  at rest 31/A\n  at up 30/A 31/B\n"
                      "switch S1\n  30/15 closed when key on crank\n  15/50 closed when engine running\n"
                      "sensor B5 pot 2/4/3 1.2 kohm\n  at released 15 %\n  at pressed 76 %\n"
                      "sensor B2 ntc 1/2\n  at 20 degC 2.5 kohm ±10 %\n  at 80 degC 0.32 kohm\n"
                      "module U1 supply 30 15, ground 31, draws 8 mA, draws 0.4 A when key on, output 47 \"fan\" pulls "
                      "down 1 A for 2 s\n"
                      "  output 6 pulls up 6 A flashes follows S4\n  gives 72 5 V\n  pull-up 9 5 V 2.2 kohm\n  input "
                      "80 100 kohm\n  between 6/7 120 ohm ±1 %\n");
    CHECK_MESSAGE(built.said() == "", built.said());
    const auto& contact = built.part("K5").elements.at(1);
    CHECK(built.pin(contact.a) + " " + built.pin(contact.b) + " " + built.pin(contact.c) == "K5.30 K5.87 K5.87a"); // common, make, break
    CHECK(built.part("S4").elements.size() == 3);
    REQUIRE(built.part("S4").find_position("up") != nullptr);
    CHECK(built.part("S4").find_position("up")->closed.size() == 2);
    CHECK(built.part("S4").positions.front().position == "rest");
    CHECK(built.part("S1").elements.at(0).when->key == std::vector<std::string>{"on", "crank"});
    CHECK(built.part("S1").elements.at(1).when->engine_running);
    const auto& pot = built.part("B5").elements.at(0);
    CHECK(built.pin(pot.a) + " " + built.pin(pot.b) + " " + built.pin(pot.c) == "B5.2 B5.4 B5.3"); // end +, wiper, end -
    CHECK(pot.table.at(1).position == "pressed");
    CHECK(pot.table.at(1).value->si == doctest::Approx(0.76));
    const auto& ntc = built.part("B2").elements.at(0);
    CHECK(ntc.table.at(0).at_value->si == doctest::Approx(20));
    CHECK(ntc.table.at(0).value->plus_minus.value() == doctest::Approx(250));
    const Part& unit = built.part("U1");
    CHECK(names(built, unit.supply_pins) == PinNames{"U1.30", "U1.15"});
    CHECK(unit.draws.at(1).when->key == std::vector<std::string>{"on"});
    CHECK(unit.elements.at(0).pulls_down);
    CHECK(unit.elements.at(0).duration->si == doctest::Approx(2));
    CHECK(unit.elements.at(1).flashes);
    CHECK(unit.elements.at(1).follows == built.circuit().find_part("S4"));
    CHECK(unit.elements.at(3).more->si == doctest::Approx(2200));
}

TEST_CASE("wires, cables, and the shop's own colours") {
    const Built built(parts + "colour TN \"tan\"\nwire W1 G1.+ -> F1.1 6 mm2 RD unfused\nwire W2 F1.2 -> X21.1 2.5 mm2 TN/BK\n"
                              "wire W3 X21.2 -> XE1 blue/white\nwire W4 J1 -> X30.L GNYE\nwire W5 X31.L -> XE1 purple\ncable "
                              "C1 \"Pair\" W2 W3 twisted\n");
    CHECK_MESSAGE(built.said() == "", built.said());
    CHECK(built.wire("W1").unfused);
    CHECK(built.wire("W2").colour.code() == "TN/BK");
    CHECK(built.circuit().own_colours == std::vector<std::pair<std::string, std::string>>{{"TN", "tan"}});
    CHECK(built.wire("W3").colour.code() == "BU/WH");
    CHECK(built.wire("W4").colour.code() == "GNYE"); // one code of its own, trade-data.md, section 1.1 [2]
    CHECK(built.pin(built.wire("W4").from) == "J1");
    CHECK(built.pin(built.wire("W4").to) == "X30.1");
    CHECK(built.wire("W5").colour.code() == "VT");
    CHECK(built.wire("W2").cable == "C1");
    CHECK(built.circuit().cables.at(0).twisted);
    CHECK(built.circuit().wires_at(built.wire("W3").to).size() == 2);
}

TEST_CASE("a battery's volts, an alternator, a meter of the shop") {
    const Built built("battery G1 12.6 V, 13.7 V when engine running, 70 Ah, inner 8 mohm\nbattery G2 14.4 V ±0.3 V "
                      "when engine running, on engine\nmeter clamp ±10 mA\n  volts ±0.5 %\n");
    CHECK(built.said() == "");
    CHECK(built.part("G1").gives.size() == 2);
    CHECK_FALSE(built.part("G1").gives.at(0).when.has_value());
    CHECK(built.part("G1").gives.at(1).when->engine_running);
    CHECK(built.part("G2").gives.at(0).value.plus_minus.value() == doctest::Approx(0.3));
    CHECK(built.part("G2").metal == "engine");
    CHECK(built.circuit().meters.at(0).function == "clamp");
    CHECK(built.circuit().meters.at(0).within.si == doctest::Approx(0.01));
    CHECK(built.circuit().meters.at(1).within.si == doctest::Approx(0.005));
}

TEST_CASE("relay pins of the shipped plans are those of DIN 72552") {
    // trade-data.md, section 4.1: 85 coil end (-), 86 coil start (+), 87/87a/87b contact [16]; 30 common, 87 make, 87a
    // break in the usage of today [16d]. The solenoid of a starter has 30, 50, 31, 45 instead.
    RealDisk disk;
    const std::set<std::string> starter{"30", "31", "45", "50"};
    int relays = 0;
    for (const char* folder : {"/plans", "/tests/plans"})
        for (const auto& path : disk.list(std::string(LOOMSHEET_ROOT) + folder, ".plan")) {
            std::string text;
            REQUIRE(disk.read(path, text).empty());
            const Built built(text);
            const auto name = [&](PinId pin) { return pin == none ? std::string("none") : built.circuit().pins.at(pin).name; };
            for (const Part& part : built.circuit().parts) {
                if (part.kind != PartKind::relay) continue;
                ++relays;
                for (const Element& e : part.elements) {
                    const auto pins = name(e.a) + "/" + name(e.b) + (e.c == none ? "" : "/" + name(e.c));
                    if (part.assembly != none && starter.contains(name(e.b))) {
                        CHECK_MESSAGE((starter.contains(name(e.a)) && starter.contains(name(e.b))), path, " ", part.id, " ", pins);
                    } else if (e.kind == ElementKind::contact) {
                        CHECK_MESSAGE((pins == "30/87" || pins == "30/87/87a" || pins == "30/87a"), path, " ", part.id, " ", pins);
                    } else {
                        CHECK_MESSAGE(pins == "86/85", path, " ", part.id, " ", pins);
                    }
                }
            }
        }
    CHECK(relays >= 4);
}

TEST_CASE("in a list of pins nothing is a unit") {
    const Built built("assembly M1 pins 30 50 31 A\n"
                      "relay K2 in M1, coil 50/31 1 ohm, contact 30/A\n"
                      "module U1 supply 30 15 V, ground 31 W\n");
    CHECK(built.said() == "");
    CHECK(built.part("M1").pins.size() == 4);
    CHECK(built.plan.circuit.find_pin(built.plan.circuit.find_part("M1"), "A") != none);
    CHECK(built.part("U1").supply_pins.size() == 3);
    CHECK(built.part("U1").ground_pins.size() == 2);
    CHECK(Built("assembly M1 pins 30 31 ohm\n").said().find("ohm") != std::string::npos);
}
