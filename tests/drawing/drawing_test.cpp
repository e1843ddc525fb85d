// The whole way for small circuits on paper that is large enough, or not.
#include "collisions.hpp"
#include "drawing/drawing.hpp"
#include "hand.hpp"
#include "picture_text.hpp"
#include "small_circuits.hpp"
#include <algorithm>
#include <doctest/doctest.h>
#include <set>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

std::vector<Picture> drawn(const Circuit& circuit, Area area) {
    return draw_circuit(circuit, small_probes(circuit), hand::measure(), hand::phrases(), area);
}
bool begins_words(const Picture& picture, const std::string& text) {
    return std::any_of(picture.words.begin(), picture.words.end(),
                       [&](const drawing::Words& words) { return words.text.starts_with(text); });
}

} // namespace

TEST_CASE("a circuit that fits is one picture within its area") {
    for (const SmallCircuit& small : small_circuits()) {
        CAPTURE(small.name);
        const std::vector<Picture> pictures = drawn(hand::circuit(small.lines), {190, 260, 10});
        REQUIRE(pictures.size() == 1);
        CHECK(collisions(pictures[0], {190, 260, 10}).empty());
    }
}

TEST_CASE("a circuit that does not fit is shared out: every wire on one picture, what goes on is named on both") {
    const Circuit circuit = hand::circuit(small_circuits()[2].lines); // three lamps on a splice
    const Area area{70, 150, 10};
    const std::vector<Picture> pictures = drawn(circuit, area);
    REQUIRE(pictures.size() > 1);
    std::vector<WireId> wires;
    for (const Picture& picture : pictures) {
        CHECK(collisions(picture, area).empty());
        wires.insert(wires.end(), picture.wires.begin(), picture.wires.end());
    }
    CHECK(wires.size() == circuit.wires.size());
    CHECK(std::set<WireId>(wires.begin(), wires.end()).size() == wires.size());
    CHECK(begins_words(pictures[0], "to 2"));
    CHECK(begins_words(pictures.back(), "from 1"));
}

TEST_CASE("a tangled circuit on small paper: every wire on one picture, no picture larger than the paper") {
    const Circuit circuit = hand::circuit(tangled_circuit(1));
    const Area area{110, 150, 10};
    std::multiset<WireId> wires;
    std::string all;
    for (const Picture& picture : drawn(circuit, area)) {
        for (const std::string& one : collisions(picture, area))
            FAIL_CHECK(one);
        wires.insert(picture.wires.begin(), picture.wires.end());
        all += text_of(picture);
    }
    CHECK(wires.size() == circuit.wires.size());
    CHECK(std::set<WireId>(wires.begin(), wires.end()).size() == circuit.wires.size());
    check_golden("shared-out.digests", digest_of(all) + "  tangled circuit 1\n");
}

TEST_CASE("without parts there is no picture; a single wire is drawn whatever the room") {
    CHECK(drawn({}, {}).empty());
    const std::vector<Picture> pictures = drawn(hand::circuit("lamp E1 1/2 5 W\nlamp E2 1/2 5 W\nwire W1 E1.1 -> E2.1\n"), {10, 10, 10});
    REQUIRE_FALSE(pictures.empty());
    CHECK(pictures[0].wires.size() == 1);
}

TEST_CASE("checks stand where they probe: both leads of a volt meter, the red one of an ammeter, the wire of a clamp") {
    Plan plan;
    plan.circuit = hand::circuit("battery G1 12.6 V\nlamp E1 1/2 5 W\nsplice J1 \"Bar\"\nwire W1 G1.+ -> J1\n"
                                 "wire W2 J1 -> E1.1\n");
    const auto at = [&](const char* name) {
        PointRef point;
        point.pin = hand::pin(plan.circuit, name);
        return point;
    };
    PointRef splice, clamp, body, several;
    splice.metal = Metal::whole, splice.part = plan.circuit.find_part("J1");
    clamp.metal = Metal::whole, clamp.wire = plan.circuit.find_wire("W2");
    body.metal = Metal::body;
    several.pins = {hand::pin(plan.circuit, "E1.1"), hand::pin(plan.circuit, "E1.2")};
    const auto check = [&](MeasureKind measure, const PointRef& red, const PointRef& black) {
        Check made;
        made.measure = measure;
        Row row;
        row.red = red, row.black = black;
        made.rows = {row, row}; // named twice, printed once
        plan.checks.push_back(made);
    };
    check(MeasureKind::volts, at("G1.+"), at("E1.2"));
    check(MeasureKind::volts, splice, body);
    check(MeasureKind::amps, at("G1.+"), at("E1.2"));
    check(MeasureKind::clamp, clamp, body);
    check(MeasureKind::ohms, several, at("G1.-"));
    const Probes probes = probes_of(plan, {11, 7, 5, 3, 9});
    using Numbers = std::vector<int>;
    CHECK(probes.pins.at(hand::pin(plan.circuit, "G1.+")) == Numbers{5, 11});
    CHECK(probes.pins.at(hand::pin(plan.circuit, "E1.2")) == Numbers{9, 11});
    CHECK(probes.pins.at(hand::pin(plan.circuit, "E1.1")) == Numbers{9});
    CHECK(probes.pins.at(hand::pin(plan.circuit, "J1")) == Numbers{7});
    CHECK(probes.pins.at(hand::pin(plan.circuit, "G1.-")) == Numbers{9});
    CHECK(probes.wires.at(clamp.wire) == Numbers{3});
    CHECK(probes.wires.size() == 1);
}
