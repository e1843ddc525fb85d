// Whole small drawings: nothing lies on anything else, everything is there, one of them stroke by stroke.
#include "collisions.hpp"
#include "drawing/drawing.hpp"
#include "drawing/layout.hpp"
#include "drawing/paint/paint.hpp"
#include "drawing/paint/wiring.hpp"
#include "drawing/scheme/volts.hpp"
#include "hand.hpp"
#include "picture_text.hpp"
#include "small_circuits.hpp"
#include <algorithm>
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

constexpr Manner manners[] = {{false, false, false}, {true, false, false}, {false, true, false},
                              {true, true, false},   {false, false, true}, {false, true, true}};
constexpr long effort = 60; // orders that are tried

Picture drawn(const Circuit& circuit, const Probes& probes, Manner manner, bool pressed, double width = 180) {
    const Ruler ruler{circuit, hand::measure(), manner};
    const Scheme scheme = make_scheme(circuit, volts_of_pins(circuit), probes, hand::measure());
    return paint(ruler, lay_out(ruler, lay_layers(scheme, pressed), width, effort));
}
const Circuit& circuit_called(const std::string& name) {
    static std::map<std::string, Circuit> made;
    for (const SmallCircuit& each : small_circuits())
        if (each.name == name && !made.contains(name)) made[name] = hand::circuit(each.lines);
    REQUIRE(made.contains(name));
    return made[name];
}
std::vector<double> widths_of(const Picture& picture, Use use) {
    std::vector<double> list;
    for (const Stroke& stroke : picture.strokes)
        if (stroke.use == use && std::find(list.begin(), list.end(), stroke.pt) == list.end()) list.push_back(stroke.pt);
    std::sort(list.begin(), list.end());
    return list;
}
const drawing::Words* find(const Picture& picture, const std::string& text) {
    for (const drawing::Words& words : picture.words)
        if (words.text == text) return &words;
    return nullptr;
}

} // namespace

TEST_CASE("small circuits in every manner: nothing lies on anything else, every wire and every wired pin is there") {
    std::string digests;
    for (const SmallCircuit& small : small_circuits()) {
        const Circuit& circuit = circuit_called(small.name);
        const Probes probes = small_probes(circuit);
        std::string all;
        for (const Manner manner : manners)
            for (const bool pressed : {true, false}) {
                CAPTURE(small.name);
                CAPTURE(manner.names_left);
                CAPTURE(manner.one_line);
                CAPTURE(pressed);
                const Picture picture = drawn(circuit, probes, manner, pressed);
                all += text_of(picture);
                for (const std::string& one : collisions(picture, {500, 500, 0}))
                    FAIL_CHECK(one);
                CHECK(picture.wires.size() == circuit.wires.size());
                CHECK(std::is_sorted(picture.wires.begin(), picture.wires.end()));
                for (const Wire& wire : circuit.wires)
                    for (const PinId pin : {wire.from, wire.to}) {
                        const auto& pins = picture.pins;
                        const bool there = std::find(pins.begin(), pins.end(), pin) != pins.end() ||
                                           std::find(pins.begin(), pins.end(), circuit.mate(pin)) != pins.end();
                        CHECK_MESSAGE(there, circuit.pin_name(pin));
                    }
            }
        digests += digest_of(all) + "  " + small.name + "\n";
    }
    check_golden("small-circuits.digests", digests);
}

TEST_CASE("tangled circuits: nothing lies on anything else") {
    std::string digests;
    for (unsigned seed = 1; seed <= 6; ++seed) {
        CAPTURE(seed);
        const Circuit circuit = hand::circuit(tangled_circuit(seed));
        const Picture picture = drawn(circuit, small_probes(circuit), manners[seed % 6], seed % 2 == 0, 120);
        for (const std::string& one : collisions(picture, {900, 900, 0}))
            FAIL_CHECK(one);
        CHECK(picture.wires.size() == circuit.wires.size());
        digests += digest_of(text_of(picture)) + "  seed " + std::to_string(seed) + "\n";
    }
    check_golden("tangled.digests", digests);
}

TEST_CASE("a lamp, stroke by stroke") {
    const Circuit& circuit = circuit_called("a lamp");
    check_golden("lamp.txt", text_of(drawn(circuit, small_probes(circuit), {}, true)));
}

TEST_CASE("plus is at the top, ground at the bottom") {
    for (const SmallCircuit& small : small_circuits()) {
        const Picture picture = drawn(circuit_called(small.name), {}, {}, true);
        const drawing::Words *plus = find(picture, "G1"), *ground = find(picture, "XE1");
        REQUIRE((plus != nullptr && ground != nullptr));
        CHECK(plus->y < picture.height / 2);
        CHECK(ground->y > picture.height / 2);
    }
}

TEST_CASE("lines are as thick as their wires: from 4 and from 16 mm² on, a battery's rail thicker") {
    const auto widths = [](const std::string& wires) {
        return widths_of(drawn(hand::circuit("lamp E1 1/2 5 W\nlamp E2 1/2 5 W\n" + wires), {}, {}, true), Use::wire);
    };
    CHECK(widths("wire W1 E1.1 -> E2.2 2.5 mm2 RD\n") == std::vector<double>{pt::wire});
    CHECK(widths("wire W1 E1.1 -> E2.2 4 mm2 RD\n") == std::vector<double>{pt::wire, pt::thick});
    CHECK(widths("wire W1 E1.1 -> E2.2 10 mm2 RD\n") == std::vector<double>{pt::wire, pt::thick});
    CHECK(widths("wire W1 E1.1 -> E2.2 16 mm2 RD\n") == std::vector<double>{pt::wire, pt::heavy});
    const std::vector<double> railed = widths_of(drawn(circuit_called("a fan with its relay"), {}, {}, true), Use::wire);
    CHECK(railed.back() == pt::rail);
}

TEST_CASE("wires that a point or a dummy joins are one net, those of different pins are not") {
    const Circuit& circuit = circuit_called("lamps on a splice");
    const Layered layered = lay_layers(make_scheme(circuit, volts_of_pins(circuit), {}, hand::measure()), false);
    Wiring wiring(circuit, layered);
    const auto net_of = [&](const std::string& name) {
        for (std::size_t s = 0; s < layered.segments.size(); ++s)
            if (layered.scheme.edges[static_cast<std::size_t>(layered.segments[s].edge)].wire == circuit.find_wire(name))
                return wiring.net_of(static_cast<int>(s));
        FAIL("no segment of " << name);
        return none;
    };
    CHECK(net_of("W92") == net_of("W11"));
    CHECK(net_of("W11") == net_of("W31"));
    CHECK(net_of("W91") != net_of("W92")); // a fuse lies between
    CHECK(net_of("W12") != net_of("W22"));
    int segments = 0;
    for (std::size_t s = 0; s < layered.segments.size(); ++s) // each of a long wire
        if (layered.scheme.edges[static_cast<std::size_t>(layered.segments[s].edge)].wire == circuit.find_wire("W90")) {
            ++segments;
            CHECK(wiring.net_of(static_cast<int>(s)) == net_of("W90"));
        }
    CHECK(segments > 1);
}

TEST_CASE("three wires that meet have a dot, two that turn a corner have none") {
    const auto dots = [](const Picture& picture) {
        return std::count_if(picture.rings.begin(), picture.rings.end(), [](const Ring& ring) { return ring.fill == Fill::black; });
    };
    CHECK(dots(drawn(circuit_called("a lamp"), {}, {}, true)) == 1); // two wires over one ground
    CHECK(dots(drawn(hand::circuit("lamp E1 1/2 5 W\nlamp E2 1/2 5 W\nwire W1 E1.1 -> E2.1\n"), {}, {}, true)) == 0);
    const Circuit fork = hand::circuit("fuse F1 10 A\nlamp E1 1/2 5 W\nlamp E2 1/2 5 W\nwire W1 F1.2 -> E1.1\n"
                                       "wire W2 F1.2 -> E2.1\nbattery G1 12.6 V\nwire W3 G1.+ -> F1.1\n"
                                       "wire W4 E1.2 -> G1.-\nwire W5 E2.2 -> G1.-\n");
    CHECK(dots(drawn(fork, {}, {}, true)) == 2);
}

TEST_CASE("a drawing in another manner has the same words") {
    const Circuit& circuit = circuit_called("a fan with its relay");
    const auto words = [&](Manner manner) {
        std::vector<std::string> list;
        for (const drawing::Words& each : drawn(circuit, small_probes(circuit), manner, true).words)
            list.push_back(each.text);
        std::sort(list.begin(), list.end());
        return list;
    };
    for (const Manner manner : manners)
        CHECK(words(manner) == words({}));
    CHECK(words({}).size() > 40);
}

TEST_CASE("rough places are about where the fine ones are; the layers alone are about as high as all") {
    for (const SmallCircuit& small : small_circuits()) {
        const Circuit& circuit = circuit_called(small.name);
        const Ruler ruler{circuit, hand::measure(), {}};
        const Layered layered = lay_layers(make_scheme(circuit, volts_of_pins(circuit), {}, hand::measure()), true);
        const Layout fine = lay_out(ruler, layered, 180, effort);
        const Layout rough = place_roughly(ruler, order_roughly(ruler, layered, 180, effort), 180);
        CHECK(rough.width <= 1.2 * fine.width);
        CHECK(rough.width >= 0.8 * fine.width);
        const double least = least_height(ruler, layered); // grounds that are joined may still give a line of words back
        CHECK(fine.height >= least - mm::colour_line);
        CHECK(fine.height <= 1.5 * least);
    }
}
