// What is up and what is down: shares of the supply between parts in series.
#include "drawing/scheme/volts.hpp"
#include "hand.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

// The share at a pin between two parts in series from plus to ground.
double between(const std::string& parts, const std::string& upper, const std::string& joint, const std::string& other,
               const std::string& lower) {
    const Circuit circuit = hand::circuit("battery G1 12.6 V\nground XE1\n" + parts + "wire W1 G1.+ -> " + upper + "\nwire W2 " + joint +
                                          " -> " + other + "\nwire W3 " + lower + " -> XE1\nwire W4 G1.- -> XE1\n");
    return volts_of_pins(circuit)[static_cast<std::size_t>(hand::pin(circuit, joint))];
}

} // namespace

TEST_CASE("plus is 1, ground is 0, each wire and fuse lies a little lower than what feeds it") {
    const Circuit circuit = hand::circuit("battery G1 12.6 V\nground XE1\nfuse F1 10 A\nlamp E1 1/2 21 W\n"
                                          "wire W1 G1.+ -> F1.1\nwire W2 F1.2 -> E1.1\nwire W3 E1.2 -> XE1\n"
                                          "wire W4 G1.- -> XE1\n");
    const std::vector<double> volts = volts_of_pins(circuit);
    const auto at = [&](const char* name) { return volts[static_cast<std::size_t>(hand::pin(circuit, name))]; };
    CHECK(at("G1.+") == doctest::Approx(1).epsilon(0.001));
    CHECK(at("XE1") == doctest::Approx(0).epsilon(1e-6));
    CHECK(at("G1.+") > at("F1.1"));
    CHECK(at("F1.1") > at("F1.2"));
    CHECK(at("F1.2") > at("E1.1"));
    CHECK(at("E1.1") > 0.99);
    const double load = (at("E1.1") - at("E1.2")) / 20; // a lamp has 20 ohm, a fuse 0.1, a wire 0.01, a joint 0.001
    CHECK((at("F1.1") - at("F1.2")) / load == doctest::Approx(0.1 + 2 * 0.001).epsilon(0.02));
    CHECK((at("F1.2") - at("E1.1")) / load == doctest::Approx(0.01 + 2 * 0.001).epsilon(0.2));
    CHECK(at("E1.2") > at("XE1"));
    CHECK(at("E1.2") < 0.01);
}

TEST_CASE("loads share the supply as their usual ohms do") {
    const std::string lamps = "lamp E1 1/2 21 W\nlamp E2 1/2 5 W\n"; // all loads are alike: 20 ohm
    CHECK(between(lamps, "E1.1", "E1.2", "E2.1", "E2.2") == doctest::Approx(0.5).epsilon(0.01));
    const std::string coil = "relay K1 coil 86/85 85 ohm, contact 30/87\nlamp E2 1/2 5 W\n"; // 80 ohm over 20
    CHECK(between(coil, "K1.86", "K1.85", "E2.1", "E2.2") == doctest::Approx(0.2).epsilon(0.01));
    const std::string sensor = "sensor B1 ntc 1/2 10 kohm at 25 degC beta 3900 K\nlamp E2 1/2 5 W\n"; // 200 over 20
    CHECK(between(sensor, "B1.1", "B1.2", "E2.1", "E2.2") == doctest::Approx(20.0 / 220).epsilon(0.01));
    const std::string resistor = "resistor R1 1/2 5 ohm\nlamp E2 1/2 5 W\n"; // whatever its own ohms
    CHECK(between(resistor, "R1.1", "R1.2", "E2.1", "E2.2") == doctest::Approx(0.5).epsilon(0.01));
    const std::string fed = "switch S1 1/2 closed when key on\nlamp E2 1/2 5 W\n"; // closed whatever the key: 1 over 20
    CHECK(between(fed, "S1.1", "S1.2", "E2.1", "E2.2") == doctest::Approx(20.0 / 21).epsilon(0.005));
    const std::string diode = "diode V1 1/2\nlamp E2 1/2 5 W\n"; // likewise
    CHECK(between(diode, "V1.1", "V1.2", "E2.1", "E2.2") == doctest::Approx(20.0 / 21).epsilon(0.005));
}

TEST_CASE("a module draws little through its supply, less through an input") {
    const std::string parts = "module U1, supply 1, ground 2\n  input 5 10 kohm\nlamp E1 1/2 5 W\n";
    CHECK(between(parts, "E1.1", "E1.2", "U1.1", "U1.2") == doctest::Approx(100.0 / 120).epsilon(0.01));
    const Circuit circuit = hand::circuit("battery G1 12.6 V\nground XE1\n" + parts +
                                          "wire W1 G1.+ -> E1.1\nwire W2 E1.2 -> U1.5\nwire W3 U1.2 -> XE1\n"
                                          "wire W4 G1.- -> XE1\n");
    CHECK(volts_of_pins(circuit)[static_cast<std::size_t>(hand::pin(circuit, "U1.5"))] == doctest::Approx(1000.0 / 1020).epsilon(0.005));
}

TEST_CASE("what nothing feeds is 0, also with no battery at all") {
    const Circuit circuit = hand::circuit("lamp E1 1/2 21 W\nlamp E2 1/2 21 W\nwire W1 E1.1 -> E2.1\n");
    for (const double volts : volts_of_pins(circuit))
        CHECK(volts == doctest::Approx(0));
}

TEST_CASE("without a body the minus of the first battery is down") {
    const Circuit circuit = hand::circuit("battery G1 12.6 V\nlamp E1 1/2 21 W\nwire W1 G1.+ -> E1.1\n"
                                          "wire W2 E1.2 -> G1.-\n");
    const std::vector<double> volts = volts_of_pins(circuit);
    CHECK(volts[static_cast<std::size_t>(hand::pin(circuit, "G1.-"))] == doctest::Approx(0).epsilon(1e-6));
    CHECK(volts[static_cast<std::size_t>(hand::pin(circuit, "G1.+"))] == doctest::Approx(1).epsilon(0.001));
}

TEST_CASE("engine and body are one ground: straps are not asked for") {
    const Circuit circuit = hand::circuit("battery G1 12.6 V\nground XE1\nground XE2, on engine\nlamp E1 1/2 21 W\n"
                                          "wire W1 G1.+ -> E1.1\nwire W2 E1.2 -> XE2\nwire W3 G1.- -> XE1\n");
    const std::vector<double> volts = volts_of_pins(circuit);
    CHECK(volts[static_cast<std::size_t>(hand::pin(circuit, "E1.1"))] > 0.99);
    CHECK(volts[static_cast<std::size_t>(hand::pin(circuit, "E1.2"))] < 0.01);
}
