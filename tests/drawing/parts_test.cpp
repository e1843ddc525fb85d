// How each kind of part is drawn: its signs, its pins above and below, what is written.
#include "drawing/scheme/elements.hpp"
#include "drawing/scheme/parts.hpp"
#include "drawing/scheme/volts.hpp"
#include "hand.hpp"
#include <algorithm>
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

const std::string supply = "battery G1 12.6 V\nground XE1\nwire W90 G1.- -> XE1\n";

drawing::Node drawn(const std::string& lines, const std::string& part, bool partly = false, const std::vector<std::string>& only = {}) {
    const Circuit circuit = hand::circuit(lines);
    std::vector<char> wired(circuit.pins.size(), only.empty() ? 1 : 0);
    for (const std::string& name : only)
        wired[static_cast<std::size_t>(hand::pin(circuit, name))] = 1;
    return part_node(circuit, circuit.find_part(part), volts_of_pins(circuit), wired, hand::measure(), partly);
}
std::vector<Sign> signs(const drawing::Node& node) {
    std::vector<Sign> list;
    for (const Cell& cell : node.grid.cells)
        list.push_back(cell.sign);
    return list;
}
std::vector<std::string> title(const drawing::Node& node) {
    std::vector<std::string> lines;
    for (const drawing::Words& line : node.title)
        lines.push_back(line.text);
    return lines;
}
const Port& port(const drawing::Node& node, const std::string& name) {
    for (const Port& each : node.ports)
        if (each.name == name) return each;
    FAIL("no port " << name);
    return node.ports.front();
}

} // namespace

TEST_CASE("each part has its own sign") {
    struct Row {
        const char *line, *part;
        Sign sign;
    };
    for (const Row& row :
         {Row{"fuse F1 10 A\n", "F1", Sign::fuse}, Row{"breaker F2 20 A\n", "F2", Sign::breaker},
          Row{"motor M1 1/2 8 A\n", "M1", Sign::motor}, Row{"lamp E1 1/2 5 W\n", "E1", Sign::lamp},
          Row{"heater E2 1/2 100 W at 12 V\n", "E2", Sign::heater}, Row{"solenoid Y1 1/2 24 ohm\n", "Y1", Sign::solenoid},
          Row{"horn H1 1/2 5 A\n", "H1", Sign::horn}, Row{"resistor R1 1/2 5 ohm\n", "R1", Sign::resistor},
          Row{"diode V1 1/2\n", "V1", Sign::diode}, Row{"sensor B1 ntc 1/2 10 kohm at 25 degC beta 3900 K\n", "B1", Sign::ntc},
          Row{"sensor B2 coil 1/2 1.2 kohm\n", "B2", Sign::inductor}, Row{"sensor B3 pot 1/2/3 5 kohm\n", "B3", Sign::pot},
          Row{"battery G1 12.6 V\n", "G1", Sign::battery}}) {
        CAPTURE(row.part);
        const drawing::Node node = drawn(row.line, row.part);
        CHECK(node.kind == NodeKind::part);
        CHECK(signs(node) == std::vector<Sign>{row.sign});
    }
}

TEST_CASE("a relay is an outlined part with coil and contact, linked") {
    const drawing::Node node = drawn(supply + "relay K1 coil 86/85 85 ohm, contact 30/87\nwire W1 G1.+ -> K1.30\n"
                                              "wire W2 G1.+ -> K1.86\nwire W3 K1.85 -> XE1\n",
                                     "K1");
    CHECK(signs(node) == std::vector<Sign>{Sign::coil, Sign::contact});
    CHECK(node.outlined);
    CHECK(node.columns == 2);
    CHECK(node.grid.linked);
    CHECK(port(node, "30").top);
    CHECK(port(node, "86").top);
    CHECK_FALSE(port(node, "85").top);
    CHECK_FALSE(port(node, "87").top);
}

TEST_CASE("a lone sign has no outline") { CHECK_FALSE(drawn("lamp E1 1/2 5 W\n", "E1").outlined); }

TEST_CASE("a change-over has one sign where both throws are below, two contacts where one is above") {
    const std::string relay = "relay K1 coil 86/85 85 ohm, contact 30/87/87a\n";
    const drawing::Node both = drawn(supply + relay +
                                         "lamp E1 1/2 5 W\nlamp E2 1/2 5 W\nwire W1 G1.+ -> K1.30\nwire W2 K1.87 -> E1.1\n"
                                         "wire W3 K1.87a -> E2.1\nwire W4 E1.2 -> XE1\nwire W5 E2.2 -> XE1\n",
                                     "K1");
    CHECK(signs(both) == std::vector<Sign>{Sign::coil, Sign::change_over});
    const drawing::Node parted = drawn(supply + relay +
                                           "motor M1 1/2 5 A\nwire W1 G1.+ -> K1.87\nwire W2 K1.30 -> M1.1\nwire W3 M1.2 -> XE1\n"
                                           "wire W4 K1.87a -> XE1\n",
                                       "K1");
    CHECK(signs(parted) == std::vector<Sign>{Sign::coil, Sign::contact, Sign::contact});
    CHECK_FALSE(parted.grid.cells[1].closed);
    CHECK(parted.grid.cells[2].closed); // the break contact is closed at rest
}

TEST_CASE("a diode that leads up is turned, and stands on its head no more than that") {
    const std::string down = supply + "diode V1 1/2\nlamp E1 1/2 5 W\nwire W2 E1.2 -> XE1\n";
    CHECK_FALSE(drawn(down + "wire W1 G1.+ -> V1.1\nwire W3 V1.2 -> E1.1\n", "V1").grid.cells[0].turned);
    const drawing::Node up = drawn(down + "wire W1 G1.+ -> V1.2\nwire W3 V1.1 -> E1.1\n", "V1");
    CHECK(up.grid.cells[0].turned);
    CHECK(port(up, "2").top);
    CHECK_FALSE(port(up, "1").top);
}

TEST_CASE("the minus of a battery is written with a true minus") {
    const drawing::Node node = drawn(supply, "G1");
    CHECK(port(node, "+").top);
    CHECK_FALSE(port(node, "−").top);
}

TEST_CASE("a switch says when its contacts are closed: a lone one under its name, of several each its own") {
    const drawing::Node lone = drawn(supply + "switch S1 \"Brake\", 1/2 closed when key on crank\n", "S1");
    CHECK(title(lone) == std::vector<std::string>{"S1", "Brake", "on,", "crank"});
    CHECK(lone.grid.cells[0].label.empty());
    const drawing::Node several = drawn(supply + "switch S2\n  at rest 31/A\n  at up 30/A\n  at down 31/A\n", "S2");
    REQUIRE(several.grid.cells.size() == 2);
    std::vector<std::string> labels;
    for (const Cell& cell : several.grid.cells)
        for (const std::string& line : cell.label)
            labels.push_back(line + (cell.closed ? " closed" : ""));
    std::sort(labels.begin(), labels.end());
    CHECK(labels == std::vector<std::string>{"down closed", "rest, closed", "up"});
}

TEST_CASE("a title has designator, rating without its tolerance, and name; what is wide goes on below") {
    CHECK(title(drawn("resistor R1 \"Blower\", 1/2 5 ohm ±10 %\n", "R1")) == std::vector<std::string>{"R1", "5 Ω", "Blower"});
    const drawing::Node fuse = drawn("fuse F1 \"Fan\", 40 A\n", "F1");
    REQUIRE(title(fuse) == std::vector<std::string>{"F1", "40 A", "Fan"});
    CHECK(fuse.title[0].type == Type::designator);
    CHECK(fuse.title[1].type == Type::small);
    CHECK(fuse.title[1].y < 0); // beside the designator
    CHECK(fuse.title[1].x == doctest::Approx(4 + 1.6));
    CHECK(fuse.title[2].y == 0);
    CHECK(title(drawn("battery G1 \"Battery\", 12.6 V\n", "G1")) == std::vector<std::string>{"G1", "Battery"});
    const drawing::Node wide = drawn("fuse F12345678 40 A\n", "F12345678"); // 18 + 1.6 + 8 > 24 mm
    CHECK(title(wide) == std::vector<std::string>{"F12345678", "40 A"});
    CHECK(wide.title[1].y == 0);
}

TEST_CASE("a module is a box: what it is fed with, what comes in and what it pulls down stands at the top") {
    const drawing::Node node = drawn(supply + "module U1 \"Unit\", supply 1, ground 2, draws 1 A\n  output 3 \"lamp\" pulls up 5 A\n"
                                              "  output 4 \"relay\" pulls down 1 A\n  gives 5 5 V\n  pull-up 6 5 V 2.2 kohm\n"
                                              "wire W1 G1.+ -> U1.1\nwire W2 U1.2 -> XE1\n",
                                     "U1");
    CHECK(node.kind == NodeKind::box);
    CHECK(node.columns == 6);
    const auto top = [&](const char* name) { return port(node, name).top; };
    CHECK(top("1"));
    CHECK_FALSE(top("2"));
    CHECK_FALSE(top("3"));
    CHECK(top("4"));
    CHECK_FALSE(top("5"));
    CHECK_FALSE(top("6"));
    CHECK(port(node, "3").inside == "lamp");
    CHECK(port(node, "1").inside.empty());
    for (int c = 0; c < 6; ++c)
        CHECK(node.ports[static_cast<std::size_t>(c)].column == c);
}

TEST_CASE("what has no agreed sign is a box, an assembly with such a part inside too") {
    CHECK(drawn("sensor B1 hall 1/2/3, supply 1, ground 3\n", "B1").kind == NodeKind::box);
    CHECK(drawn("part Y1 \"Toothed ring\"\n", "Y1").ports.empty());
}

TEST_CASE("an assembly shows what is inside it, named, and only the pins that lead out") {
    const drawing::Node node = drawn(supply + "assembly A1 \"Starter\", pins 30 50 31\n"
                                              "relay K2, in A1, coil 50/31 1.5 ohm, contact 30/45\n"
                                              "motor M2, in A1, 45/31 140 A\nwire W1 G1.+ -> A1.30\n"
                                              "wire W2 G1.+ -> A1.50\nwire W3 A1.31 -> XE1\n",
                                     "A1");
    CHECK(signs(node) == std::vector<Sign>{Sign::coil, Sign::contact, Sign::motor});
    CHECK(node.ports.size() == 3);
    CHECK(node.grid.cells[0].label == std::vector<std::string>{"K2"});
    CHECK(node.grid.cells[1].label.empty());
    CHECK(node.grid.cells[2].label == std::vector<std::string>{"M2"});
    CHECK(node.outlined);
}

TEST_CASE("a pin under a plug is named by the plug, and by itself inside a box where it is called otherwise") {
    const drawing::Node lamp = drawn("lamp E1 1/2 5 W\nconnector X1, 2 pins, on E1\n", "E1");
    CHECK(port(lamp, "X1.1").plug);
    const std::string unit = "module U1, supply 15, ground 31\n  output 3 \"lamp\" pulls up 5 A\n";
    const drawing::Node box = drawn(unit + "connector X1, 3 pins, on U1, map 1=15 2=31 3=3\n", "U1");
    CHECK(port(box, "X1.1").inside == "15");
    CHECK(port(box, "X1.3").inside == "lamp");
}

TEST_CASE("of a part that a page shows in part, an element is there with that of its pins which the fewest share") {
    const std::string lamp = "lamp E1 56a/31 55 W, 56b/31 60 W\n"; // 31 is shared
    CHECK(drawn(lamp, "E1", true, {"E1.56a", "E1.31"}).grid.cells.size() == 1);
    CHECK(drawn(lamp, "E1", false, {"E1.56a", "E1.31"}).grid.cells.size() == 2);
}
