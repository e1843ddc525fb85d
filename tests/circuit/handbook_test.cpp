// Worked values of handbooks, standards and data sheets, through the functions that the program uses. The numbers in
// brackets are rows of trade-data section 14; sources stand beside each. What wire_tables_test.cpp has is not here.
#include "car.hpp"
#include "circuit/meter.hpp"
#include <cmath>
#include <fmt/format.h>
#include <utility>

using namespace loomsheet;

namespace {

// 0.393 % a kelvin at 20 °C: NBS Handbook 100, IEC 60028.
double copper(double degrees) { return 1 + 0.00393 * (degrees - 20); }

// Ohms of a wire without its crimps, freed of the play of its length: ideal copper at 0 °C, the table's most at 60 °C.
struct Ohms {
    double ideal_cold, most_hot;
};
Ohms ohms_of(const std::string& size, double metres) {
    const Car car(fmt::format("plan W-01 \"Wire\"\nbattery G1 12 V\nresistor R1 1/2 1 ohm\nwire W1 G1.+ -> R1.1 {} {} m\n", size, metres));
    const Parameters parameters(car.plan.circuit, 12);
    const Parameter& wire = parameters.list[parameters.wire[0]];
    const double mm2 = car.plan.circuit.wires[0].area->si * 1e6;
    const Parameter crimps = range_of(Usual::crimp, 2e-3 / mm2);
    return {(wire.low - crimps.low) / usual(Usual::wire_length).low, (wire.high - crimps.high) / usual(Usual::wire_length).high};
}
double ideal_at(const Ohms& ohms, double degrees) { return ohms.ideal_cold / copper(0) * copper(degrees); }
double most_at(const Ohms& ohms, double degrees) { return ohms.most_hot / copper(60) * copper(degrees); }

constexpr double foot = 0.3048; // m: a foot, as mohm a foot are ohm a thousand feet

} // namespace

TEST_CASE("wires: ohms of ideal copper") {
    CHECK(1e3 * ideal_at(ohms_of("AWG 10", 1), 20) == doctest::Approx(3.277).epsilon(4e-4)); // mohm/m, ASTM B258 and IACS (2)
    // NEC chapter 9 table 8, solid: 1.21 and 3.07 ohm a thousand feet at 75 °C (3, 4)
    CHECK(1e3 * ideal_at(ohms_of("AWG 10", foot), 75) == doctest::Approx(1.215).epsilon(5e-4));
    CHECK(1e3 * ideal_at(ohms_of("AWG 10", foot), 75) == doctest::Approx(1.21).epsilon(0.005));
    CHECK(1e3 * ideal_at(ohms_of("AWG 14", foot), 75) == doctest::Approx(3.07).epsilon(1e-3));
    CHECK(1e3 * ideal_at(ohms_of("AWG 4/0", 1), 20) == doctest::Approx(0.1608).epsilon(5e-4)); // (5)
    CHECK(1e3 * ideal_at(ohms_of("6 mm2", 2), 60) == doctest::Approx(6.650).epsilon(5e-4));    // IACS (6)
}

TEST_CASE("wires: drops by the tables, at most") {
    // 6 mm², 2 m, 35 A at 60 °C: 0.2673 V by IEC 60228 class 5; ISO 6722-1 gives 0.2544 V, ideal copper 0.2328 V (6, 7,
    // 8)
    CHECK(35 * most_at(ohms_of("6 mm2", 2), 60) == doctest::Approx(0.2673).epsilon(5e-4));
    CHECK(35 * ideal_at(ohms_of("6 mm2", 2), 60) == doctest::Approx(0.2328).epsilon(5e-4));
    // IEC 60228 class 5 at 20 °C (9, 10, 11)
    CHECK(10 * most_at(ohms_of("1.5 mm2", 5), 20) == doctest::Approx(0.665).epsilon(5e-4));
    CHECK(15 * most_at(ohms_of("2.5 mm2", 8), 20) == doctest::Approx(0.9576).epsilon(5e-4));
    CHECK(200 * most_at(ohms_of("35 mm2", 2), 20) == doctest::Approx(0.2216).epsilon(5e-4));
    // 39 ft at 20 °C are 33.70 ft at 60 °C, by 254.5 / (234.5 + T): FAA AC 43.13-1B (15)
    const Ohms wire = ohms_of("6 mm2", 1);
    CHECK(39 * 3.30e-3 / wire.most_hot == doctest::Approx(33.70).epsilon(5e-4));
}

// DIN 72581-3 extract, ISO 8820-3: at 110 % a fuse holds 100 h, at 135 % it has blown within half an hour. (17: 40 A, type E: 54 A)
TEST_CASE("a fuse of 40 A is whole up to 44 A and blown from 54 A; between them it may be either") {
    double most_whole = 0, most_in_doubt = 0, rest = 0;
    Truth before = Truth::yes;
    for (int milliohms = 300; milliohms >= 200; --milliohms) {
        const Car car(fmt::format(R"(plan FUSE-01 "Fuse"
battery G1 12.6 V ±0.01 V, inner 0.5 mohm
fuse F1 40 A, type E
resistor R1 1/2 {} mohm ±0.1 %
wire W1 G1.+ -> F1.1 95 mm2 0.1 m
wire W2 F1.2 -> R1.1 95 mm2 0.1 m
wire W3 R1.2 -> G1.- 95 mm2 0.1 m
check amps "Current"
  clamp W3
  pass -> done
check link "Fuse"
  look "Whole": F1 whole
  pass -> done
)",
                                  milliohms));
        const Truth whole = car.looks("link");
        CHECK((whole == before || (before == Truth::yes ? whole == Truth::maybe : whole == Truth::no && before == Truth::maybe)));
        before = whole;
        const double amps = 12.6 / (1e-3 * milliohms + rest);
        if (whole == Truth::yes) {
            most_whole = car.read("amps").bare_high;
            rest = 12.6 / car.value("amps") - 1e-3 * milliohms;
        } else if (whole == Truth::maybe) {
            most_in_doubt = amps;
            CHECK(car.read("amps").bare_low == doctest::Approx(0));
        } else {
            CHECK(amps > 54);
            CHECK(car.value("amps") == doctest::Approx(0));
        }
    }
    CHECK(before == Truth::no);
    CHECK(most_whole <= 44);
    CHECK(most_whole > 43.5);
    CHECK(most_in_doubt > 54);
    CHECK(most_in_doubt < 55);
}

// Relay data sheet (general mini relays): 85 ohm ±10 % and 255 ohm. (19)
TEST_CASE("coil currents and ohms") {
    const auto coil = [](int volts, int ohms) {
        return Car(fmt::format(R"(plan COIL-01 "Coil"
  system {0} V
battery G1 {0} V
relay K1 coil 86/85 {1} ohm, contact 30/87
wire W1 G1.+ -> K1.86 1 mm2 0.1 m
wire W2 K1.85 -> G1.- 1 mm2 0.1 m
check amps "Coil"
  clamp W1
  pass -> done
check ohms "Coil"
  with K1 pulled
  ohms part K1.86 to part K1.85
  pass -> done
)",
                               volts, ohms));
    };
    CHECK(coil(12, 85).value("amps") == doctest::Approx(0.1412).epsilon(0.001));
    CHECK(coil(24, 255).value("amps") == doctest::Approx(0.0941).epsilon(0.001));
    const double watts = 12 * coil(12, 85).value("amps");
    CHECK(watts == doctest::Approx(1.694).epsilon(0.001));
    const Reading ohms = coil(12, 85).read("ohms");
    CHECK(ohms.bare_low == doctest::Approx(76.5 * copper(0)).epsilon(1e-6)); // 76.5 to 93.5 ohm at 20 °C; 0 to 60 °C on a car
    CHECK(ohms.bare_high == doctest::Approx(93.5 * copper(60)).epsilon(1e-6));
}

// A relay with a damping resistor across its coil; 115 mA were measured on such a one. (20)
TEST_CASE("120 ohm with 680 ohm beside it") {
    const Car car(R"(plan PAIR-01 "Pair"
battery G1 12 V
resistor R1 1/2 120 ohm
resistor R2 1/2 680 ohm
wire W1 G1.+ -> R1.1 1 mm2 0.1 m
wire W2 R1.1 -> R2.1 1 mm2 0.1 m
wire W3 R2.2 -> R1.2 1 mm2 0.1 m
wire W4 R1.2 -> G1.- 1 mm2 0.1 m
check amps "Both"
  clamp W1
  pass -> done
check ohms "Both"
  with G1.- disconnected
  ohms R1.1 to R1.2
  pass -> done
)");
    CHECK(car.value("amps") == doctest::Approx(0.1176).epsilon(0.001));
    CHECK(car.value("ohms") - 0.2 == doctest::Approx(102.0).epsilon(0.001)); // 0.2 ohm: the leads
}

// Trade-data section 7, why checks without load prove nothing: worked there by Ohm's law. A resistor stands for the
// lamp, whose ohms are held fixed there; the joint is a wire's. (21)
TEST_CASE("a feed of 12.6 V and 2.4 ohm with a poor joint: what the voltmeter, the beeper and the load say") {
    const Car car(R"(plan JOINT-01 "Joint"
battery G1 12.6 V, inner 0.5 mohm
switch S1, at rest 1/2, at pressed
resistor R1 1/2 2.4 ohm
connector X1 2 pins, on R1
wire W1 G1.+ -> S1.1 120 mm2 0.05 m
wire W2 S1.2 -> X1.1 120 mm2 0.05 m
wire W3 X1.2 -> G1.- 120 mm2 0.05 m
check unloaded "Plug off"
  with X1 unplugged
  volts X1.1 to X1.2
  pass -> done
check beep "Beeper"
  with S1 pressed, X1 unplugged
  continuity X1.1 to S1.2
  pass -> done
check amps "Load"
  clamp W3
  pass -> done
check joint "Joint"
  drop S1.2 to X1.1
  pass -> done
check loaded "Load"
  volts X1.1 to X1.2
  pass -> done
plant corroded "A" W2 0.5 ohm
plant film "B" W2 10 kohm
plant moist "C" W2 1 Mohm
plant strands "D" W2 0.7 mohm
)");
    CHECK(car.value("unloaded", "corroded") == doctest::Approx(12.6).epsilon(1e-6)); // 0.63 µV less
    CHECK(car.read("beep", "corroded").kind == ReadingKind::yes);
    CHECK(car.value("amps", "corroded") == doctest::Approx(4.345).epsilon(0.002));
    CHECK(car.value("joint", "corroded") == doctest::Approx(2.172).epsilon(0.002));
    CHECK(car.value("loaded", "corroded") == doctest::Approx(10.428).epsilon(0.002));

    CHECK(car.value("unloaded", "film") == doctest::Approx(12.587).epsilon(5e-5));
    CHECK(car.read("beep", "film").kind == ReadingKind::no);
    CHECK(car.value("amps", "film") == doctest::Approx(0.0013).epsilon(0.04));

    CHECK(car.value("unloaded", "moist") == doctest::Approx(11.45).epsilon(5e-4));
    CHECK(car.read("beep", "moist").kind == ReadingKind::no);
    CHECK(car.value("amps", "moist") < 2e-5);

    // 5 of 50 strands left over 10 mm of 2.5 mm²: nothing electrical finds it.
    CHECK(car.value("unloaded", "strands") == doctest::Approx(12.6).epsilon(1e-6));
    CHECK(car.read("beep", "strands").kind == ReadingKind::yes);
    CHECK(car.value("amps", "strands") == doctest::Approx(car.value("amps")).epsilon(0.001));
}

TEST_CASE("what a meter is off") {
    const Circuit circuit;
    const Meter volts = meter_for(circuit, MeterFunction::volts), ohms = meter_for(circuit, MeterFunction::ohms);
    CHECK(volts.error(12.60) == doctest::Approx(0.083));  // ±(0.5 % + 2 digits), a step of 0.01 V: common practice (22)
    CHECK(volts.error(0.100) == doctest::Approx(0.0025)); // a step of 1 mV
    CHECK(ohms.error(0.5) == doctest::Approx(0.204));     // ±(0.8 % + 2 digits): manual of a 3½ digit meter (23)
}

namespace {
// Component data, curve "8016" of 10 kohm: R/R25.
const char* const curve = R"(
  ntc 1/2
  at -20 degC 97.07 kohm
  at 0 degC 32.65 kohm
  at 20 degC 12.49 kohm
  at 25 degC 10 kohm
  at 80 degC 1.258 kohm
  at 85 degC 1.072 kohm
  at 100 degC 680 ohm
)";
Element ntc_of(const std::string& phrase) {
    const Car car(fmt::format("plan NTC-01 \"Sensor\"\nsensor B1{}\n", phrase));
    return car.plan.circuit.parts[car.plan.circuit.find_part("B1")].elements.at(0);
}
double ohms_at(const Element& ntc, double degrees) { return ntc_ohms(ntc, degrees).value().value; }
} // namespace

TEST_CASE("an NTC by its table and by its B value") {
    const Element table = ntc_of(curve);
    CHECK(ohms_at(table, 80) == doctest::Approx(1258));                // (24)
    CHECK(ohms_at(table, 23) == doctest::Approx(10920).epsilon(5e-4)); // log over 1/T; along a straight line 10 996 (25)
    const Element by_100 = ntc_of(", ntc 1/2 10 kohm at 25 degC beta 3988 K"), by_85 = ntc_of(", ntc 1/2 10 kohm at 25 degC beta 3974 K");
    CHECK(ohms_at(by_100, 25) == doctest::Approx(10000));
    CHECK(ohms_at(by_100, 100) == doctest::Approx(680).epsilon(0.001));
    CHECK(ohms_at(by_85, 85) == doctest::Approx(1072).epsilon(0.001));
    // The B value of 25 and 100 °C is off where it is cold: trade-data section 8.1
    CHECK(ohms_at(by_100, 0) / ohms_at(table, 0) == doctest::Approx(1.042).epsilon(0.002));
    CHECK(ohms_at(by_100, -20) / ohms_at(table, -20) == doctest::Approx(1.11).epsilon(0.005));
}

// 5 V through 4.7 kohm to the same NTC: 4.371, 3.401, 1.056, 0.632 V. (26)
TEST_CASE("an NTC on a pull-up") {
    const Car car(fmt::format(R"(plan NTC-02 "Sensor and unit"
battery G1 12.6 V
module U1 supply 15, ground 31, pull-up 9 5 V 4.7 kohm
sensor B1{}
connector X1 40 pins, on U1
wire W1 G1.+ -> X1.15 1 mm2 1 m
wire W2 X1.31 -> G1.- 1 mm2 1 m
wire W3 X1.9 -> B1.1 1 mm2 1 m
wire W4 B1.2 -> X1.31 1 mm2 1 m
check t0 "0"
  with B1 at 0 degC
  volts X1.9 to X1.31
  pass -> done
check t25 "25"
  with B1 at 25 degC
  volts X1.9 to X1.31
  pass -> done
check t80 "80"
  with B1 at 80 degC
  volts X1.9 to X1.31
  pass -> done
check t100 "100"
  with B1 at 100 degC
  volts X1.9 to X1.31
  pass -> done
)",
                              curve));
    const std::pair<const char*, double> worked[] = {{"t0", 4.371}, {"t25", 3.401}, {"t80", 1.056}, {"t100", 0.632}};
    for (const auto& [check, volts] : worked)
        CHECK(car.value(check) == doctest::Approx(volts).epsilon(0.001)); // the meter's 10 Mohm take 0.05 % at most
}

// UN R37: P21W, at most 26.5 W at 13.5 V; cold 1/15 to 1/10: kfz-tech (Gluehlampe), an encyclopedia. (28)
TEST_CASE("a P21W: its current, its ohms hot and cold, and the law between") {
    const auto lamp = [](double volts) {
        return Car(fmt::format(R"(plan LAMP-01 "Lamp"
battery G1 {} V, inner 0.5 mohm
lamp E1 1/2 26.5 W at 13.5 V
wire W1 G1.+ -> E1.1 120 mm2 0.05 m
wire W2 E1.2 -> G1.- 120 mm2 0.05 m
check amps "Current"
  clamp W1
  pass -> done
check cold "Cold"
  with E1 pulled
  ohms part E1.1 to part E1.2
  pass -> done
)",
                               volts));
    };
    const Car rated = lamp(13.5);
    CHECK(rated.value("amps") == doctest::Approx(1.963).epsilon(0.001));
    CHECK(13.5 / rated.value("amps") == doctest::Approx(6.877).epsilon(0.001));
    const Parameters parameters(rated.plan.circuit, 12);
    const PartId part = rated.plan.circuit.find_part("E1");
    const Parameter hot = parameters.list[parameters.element[part][0].ohms], cold = parameters.list[parameters.element[part][0].second];
    CHECK(hot.value * cold.low == doctest::Approx(0.458).epsilon(0.002));
    CHECK(hot.value * cold.high == doctest::Approx(0.688).epsilon(0.002));
    CHECK(rated.value("cold") - 0.2 == doctest::Approx(6.877 / 12).epsilon(0.001)); // leads of 0.2 ohm
    // Current by the 0.55th power of the volts (from memory).
    CHECK(lamp(6.75).value("amps") == doctest::Approx(1.963 * std::pow(0.5, 0.55)).epsilon(0.001));
    CHECK(lamp(1.35).value("amps") == doctest::Approx(1.963 * std::pow(0.1, 0.55)).epsilon(0.001));
}
