// A circuit shared out over pages: what stays together, where each part is, what is said where it goes on.
#include "drawing/extracts.hpp"
#include "drawing/scheme/volts.hpp"
#include "hand.hpp"
#include <algorithm>
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

const std::string supply = "battery G1 12.6 V\nground XE1\nground XE2\nwire W90 G1.- -> XE1\n";
// Two lamps, each behind its own fuse, fed from one splice of four wires.
const std::string two_lamps = supply + "splice J1 \"Bar\"\nfuse F1 10 A\nfuse F2 10 A\nfuse F3 10 A\nlamp E1 1/2 5 W\n"
                                       "lamp E2 1/2 5 W\nlamp E3 1/2 5 W\n"
                                       "wire W1 G1.+ -> J1\nwire W2 J1 -> F1.1\nwire W3 J1 -> F2.1\n"
                                       "wire W4 F1.2 -> E1.1\nwire W5 E1.2 -> XE1\nwire W6 F2.2 -> E2.1\n"
                                       "wire W7 E2.2 -> XE1\nwire W8 J1 -> F3.1\nwire W9 F3.2 -> E3.1\n"
                                       "wire W10 E3.2 -> XE2\n";

std::vector<std::string> names(const Circuit& circuit, const Group& group) {
    std::vector<std::string> list;
    for (const WireId wire : group.wires)
        list.push_back(circuit.wires[static_cast<std::size_t>(wire)].id);
    for (const PartId part : group.parts)
        list.push_back(circuit.parts[static_cast<std::size_t>(part)].id);
    return list;
}
using Labels = std::vector<std::string>;
bool shows(const Circuit& circuit, const Extract& page, const std::string& part) {
    return page.parts[static_cast<std::size_t>(circuit.find_part(part))] != 0;
}

} // namespace

TEST_CASE("a splice of four wires, the battery and grounds part groups; all else keeps them together") {
    const Circuit circuit = hand::circuit(two_lamps);
    const Strands strands(circuit);
    const std::vector<Group> groups = groups_of(strands);
    REQUIRE(groups.size() == 5);
    CHECK(names(circuit, groups[0]) == Labels{"W90"});
    CHECK(names(circuit, groups[1]) == Labels{"W1"});
    CHECK(names(circuit, groups[2]) == Labels{"W2", "W4", "W5"});
    CHECK(names(circuit, groups[3]) == Labels{"W3", "W6", "W7"});
    CHECK(names(circuit, groups[4]) == Labels{"W8", "W9", "W10"});
}

TEST_CASE("a splice of three wires holds its group together, and what it joins counts as a wire") {
    const std::string three = supply + "splice J1 \"Bar\"\nlamp E1 1/2 5 W\nlamp E2 1/2 5 W\n";
    const std::string wires = "wire W1 G1.+ -> J1\nwire W2 J1 -> E1.1\nwire W3 J1 -> E2.1\n";
    const Circuit held = hand::circuit(three + wires);
    CHECK(groups_of(Strands(held)).size() == 2); // with W90
    const Circuit joined = hand::circuit(supply +
                                         "splice J1 \"Bar\", joins F1.1\nfuse F1 10 A\nlamp E1 1/2 5 W\n"
                                         "lamp E2 1/2 5 W\n" +
                                         wires);
    CHECK(groups_of(Strands(joined)).size() > 3);
}

TEST_CASE("in-line pairs and plugs keep a pin's wires together, not those of other pins; a part without a wire is there") {
    const Circuit circuit = hand::circuit(supply + "connector X1, 2 pins, mates X2\nlamp E1 1/2 5 W\nlamp E2 1/2 5 W\nlamp E3 1/2 5 W\n"
                                                   "connector X3, 2 pins, on E2\nwire W1 G1.+ -> X1.1\nwire W2 X2.1 -> E1.1\n"
                                                   "wire W3 G1.+ -> X1.2\nwire W4 X2.2 -> X3.1\nwire W5 X3.2 -> XE1\n");
    const std::vector<Group> groups = groups_of(Strands(circuit));
    REQUIRE(groups.size() == 4);
    CHECK(names(circuit, groups[1]) == Labels{"W1", "W2"});
    CHECK(names(circuit, groups[2]) == Labels{"W3", "W4", "W5"});
    CHECK(names(circuit, groups[3]) == Labels{"E3"});
}

TEST_CASE("a group that is too large falls into pieces at parts of three pins and more, at last into wires") {
    const Circuit circuit = hand::circuit(supply + "fuse F1 10 A\nrelay K1 coil 86/85 85 ohm, contact 30/87\n"
                                                   "lamp E1 1/2 5 W\nwire W1 G1.+ -> F1.1\nwire W2 F1.2 -> K1.30\n"
                                                   "wire W3 K1.87 -> E1.1\nwire W4 E1.2 -> XE1\n");
    const Strands strands(circuit);
    const std::vector<Group> groups = groups_of(strands);
    REQUIRE(groups.size() == 2);
    const std::vector<Group> pieces = pieces_of(strands, groups[1]);
    REQUIRE(pieces.size() == 2);
    CHECK(names(circuit, pieces[0]) == Labels{"W1", "W2"});
    CHECK(names(circuit, pieces[1]) == Labels{"W3", "W4"});
    const std::vector<Group> wires = pieces_of(strands, pieces[0]);
    REQUIRE(wires.size() == 2);
    CHECK(names(circuit, wires[0]) == Labels{"W1"});
}

TEST_CASE("a module of eight wired pins is divisible, of seven not; its elements keep their own pins together") {
    const auto module = [](int pins) {
        std::string text = supply + "module U1, supply 1, ground 2\n  between 3/4 120 ohm\n  between 5/6 120 ohm\n"
                                    "  between 7/8 120 ohm\n";
        for (int pin = 1; pin <= pins; ++pin)
            text += "lamp E" + std::to_string(pin) + " 1/2 5 W\nwire W" + std::to_string(pin) + " U1." + std::to_string(pin) + " -> E" +
                    std::to_string(pin) + ".1\n";
        return hand::circuit(text);
    };
    const Circuit seven = module(7), eight = module(8);
    CHECK_FALSE(Strands(seven).is_divisible(seven.find_part("U1")));
    CHECK(Strands(eight).is_divisible(eight.find_part("U1")));
    CHECK(groups_of(Strands(seven)).size() == 2);
    const std::vector<Group> groups = groups_of(Strands(eight));
    REQUIRE(groups.size() == 6); // W90, 1, 2, and three elements of two pins each
    CHECK(names(eight, groups[3]) == Labels{"W3", "W4"});
    CHECK(names(eight, groups[5]) == Labels{"W7", "W8"});
    CHECK(Strands(eight).of(eight.find_part("U1")).size() == 3);
}

TEST_CASE("the key of an element is the pin that the fewest share") {
    const Circuit circuit = hand::circuit("lamp E1 56a/31 55 W, 56b/31 60 W\n");
    const Strands strands(circuit);
    const std::vector<Strand> list = strands.of(circuit.find_part("E1"));
    REQUIRE(list.size() == 2);
    CHECK(list[0].key == hand::pin(circuit, "E1.56a"));
    CHECK(list[1].key == hand::pin(circuit, "E1.56b"));
    CHECK_FALSE(Strands::is_own(list, hand::pin(circuit, "E1.31")));
    CHECK(Strands::is_own(list, hand::pin(circuit, "E1.56a")));
}

TEST_CASE("each part is on one page, grounds and splices on all where they have a wire; both pages name what goes on") {
    const Circuit circuit = hand::circuit(two_lamps);
    const Strands strands(circuit);
    const std::vector<Group> groups = groups_of(strands);
    Group first = groups[0], second = groups[3];
    for (const std::size_t more : {1U, 2U})
        first.wires.insert(first.wires.end(), groups[more].wires.begin(), groups[more].wires.end());
    second.wires.insert(second.wires.end(), groups[4].wires.begin(), groups[4].wires.end());
    const std::vector<double> volts = volts_of_pins(circuit);
    const std::vector<Extract> pages = extracts_of(strands, volts, {first, second}, hand::phrases());
    REQUIRE(pages.size() == 2);
    for (const char* part : {"G1", "F1", "E1"})
        CHECK((shows(circuit, pages[0], part) && !shows(circuit, pages[1], part)));
    for (const char* part : {"F2", "E2", "F3", "E3"})
        CHECK((!shows(circuit, pages[0], part) && shows(circuit, pages[1], part)));
    CHECK((shows(circuit, pages[0], "XE1") && shows(circuit, pages[1], "XE1")));
    CHECK((!shows(circuit, pages[0], "XE2") && shows(circuit, pages[1], "XE2")));
    CHECK((shows(circuit, pages[0], "J1") && shows(circuit, pages[1], "J1")));
    const PinId splice = hand::pin(circuit, "J1");
    CHECK(pages[0].to.at(splice) == "J1\nto 2");
    CHECK(pages[1].from.at(splice) == "J1\nfrom 1");
    CHECK(pages[0].from.empty());
    CHECK(pages[1].to.empty());
    CHECK(pages[0].to.size() == 1); // a ground is drawn on both and not marked
    CHECK(pages[1].from.size() == 1);
}

TEST_CASE("every wire is on one page, and each pin that it leaves on another page is marked on both") {
    hand::Chance chance(7);
    const Circuit circuit = hand::circuit(two_lamps);
    const Strands strands(circuit);
    const std::vector<double> volts = volts_of_pins(circuit);
    for (int round = 0; round < 60; ++round) {
        CAPTURE(round);
        std::vector<Group> groups(3);
        for (WireId wire = 0; wire < static_cast<WireId>(circuit.wires.size()); ++wire)
            groups[static_cast<std::size_t>(chance.below(3))].wires.push_back(wire);
        const std::vector<Extract> pages = extracts_of(strands, volts, groups, hand::phrases());
        for (std::size_t wire = 0; wire < circuit.wires.size(); ++wire)
            CHECK(pages[0].wires[wire] + pages[1].wires[wire] + pages[2].wires[wire] == 1);
        for (const char* part : {"G1", "F1", "F2", "F3", "E1", "E2", "E3"})
            CHECK(shows(circuit, pages[0], part) + shows(circuit, pages[1], part) + shows(circuit, pages[2], part) == 1);
        for (PinId pin = 0; pin < static_cast<PinId>(circuit.pins.size()); ++pin) {
            const PartId part = circuit.pins[static_cast<std::size_t>(pin)].part;
            if (circuit.parts[static_cast<std::size_t>(part)].kind == PartKind::ground) continue;
            std::size_t here = 0, marked = 0, sources = 0;
            for (const Extract& page : pages) {
                bool wired = false;
                for (const WireId wire : strands.wires_at(pin))
                    wired = wired || page.wires[static_cast<std::size_t>(wire)];
                const bool at_home = circuit.parts[static_cast<std::size_t>(part)].kind != PartKind::splice &&
                                     !strands.wires_at(pin).empty() && page.parts[static_cast<std::size_t>(part)];
                here += wired || at_home;
                CHECK(page.from.count(pin) + page.to.count(pin) <= 1);
                marked += page.from.count(pin) + page.to.count(pin);
                sources += page.to.count(pin);
            }
            CHECK(marked == (here > 1 ? here : 0));
            CHECK(sources == (here > 1 ? 1 : 0));
        }
    }
}

TEST_CASE("the marks lead from the page whose volts are higher") {
    const Circuit circuit = hand::circuit(supply + "fuse F1 10 A\nlamp E1 1/2 5 W\nwire W1 G1.+ -> F1.1\n"
                                                   "wire W2 F1.2 -> E1.1\nwire W3 E1.2 -> XE1\n");
    const Strands strands(circuit);
    // The lamp's page comes first: it is fed from the second.
    const std::vector<Extract> pages =
        extracts_of(strands, volts_of_pins(circuit),
                    {{{circuit.find_wire("W3"), circuit.find_wire("W2")}, {}}, {{circuit.find_wire("W1"), circuit.find_wire("W90")}, {}}},
                    hand::phrases());
    const PinId fuse = hand::pin(circuit, "F1.1"); // F1 is on the first page, W1 on the second
    CHECK(pages[0].from.at(fuse) == "F1.1\nfrom 2");
    CHECK(pages[1].to.at(fuse) == "F1.1\nto 1");
}

TEST_CASE("a divisible module is on each page where it has a wire, and an element brings its other pin along") {
    std::string text = supply + "module U1, supply 1, ground 2\n  between 3/4 120 ohm\n  between 5/6 120 ohm\n"
                                "  between 7/8 120 ohm\n";
    for (int pin = 1; pin <= 8; ++pin)
        text += "lamp E" + std::to_string(pin) + " 1/2 5 W\nwire W" + std::to_string(pin) + " U1." + std::to_string(pin) + " -> E" +
                std::to_string(pin) + ".1\n";
    const Circuit circuit = hand::circuit(text);
    const Strands strands(circuit);
    const auto wire = [&](const char* name) { return circuit.find_wire(name); };
    const std::vector<Extract> pages = extracts_of(
        strands, volts_of_pins(circuit),
        {{{wire("W1"), wire("W2"), wire("W3")}, {}}, {{wire("W4"), wire("W5"), wire("W6"), wire("W7"), wire("W8")}, {}}}, hand::phrases());
    CHECK((shows(circuit, pages[0], "U1") && shows(circuit, pages[1], "U1")));
    // The key of 3/4 is 3, on the first page; 4 comes along there, its wire is on the second.
    const PinId four = hand::pin(circuit, "U1.4");
    CHECK(pages[0].from.count(four) + pages[0].to.count(four) == 1);
    CHECK(pages[1].from.count(four) + pages[1].to.count(four) == 1);
    const PinId three = hand::pin(circuit, "U1.3");
    CHECK(pages[0].from.count(three) + pages[0].to.count(three) == 0);
    CHECK(pages[1].from.count(three) + pages[1].to.count(three) == 0);
}
