// A battery beside an alternator, and a case on its ground point: what is left when the way between them is cut.
#include "car.hpp"

using namespace loomsheet;

namespace {

const std::string charging = R"(plan ALT-01 "Battery goes flat"
battery G1 "Battery" 12.6 V, 13.7 V when engine running, inner 6 mohm
battery G2 "Alternator" 14.4 V when engine running, inner 20 mohm, on engine
ground XE1
ground XE2, on engine
fuse F1 "Charge" 150 A
wire W1 G1.- -> XE1 35 mm2 0.7 m unfused
wire W2 XE1 -> XE2 35 mm2 0.7 m
wire W3 G2.- -> XE2 35 mm2 0.2 m
wire W4 G2.+ -> F1.1 25 mm2 1 m
wire W5 F1.2 -> G1.+ 25 mm2 0.5 m
check battery "Battery, engine running"
  with engine running
  volts part G1.+ to part G1.-
  pass -> done
check off "Battery, engine off"
  volts part G1.+ to part G1.-
  pass -> done
plant fuse "Fuse" F1 blown
plant cable "Cable" W4 open
plant strap "Strap" W2 open
plant post "Post" joint G1.+ open
plant poor "Poor" joint F1.1 0.05 ohm
)";

std::string without(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

} // namespace

TEST_CASE("a battery that no alternator is joined to any more has its volts at rest") {
    const Car car(charging);
    CHECK(car.value("battery") > 13.7);
    for (const char* cut : {"fuse", "cable", "strap", "post"})
        CHECK_MESSAGE(car.value("battery", cut) == doctest::Approx(12.6).epsilon(0.001), cut);
    CHECK(car.value("battery", "poor") > 13.7); // poor, but joined
    CHECK(car.value("battery") > 13.7);         // and a sound car after the others
    CHECK(car.value("off") == doctest::Approx(12.6).epsilon(0.001));
}

TEST_CASE("in a set-up that takes the battery off, it has its volts at rest too") {
    const Car car(without(charging, "  with engine running\n", "  with engine running, G1.- disconnected\n"));
    CHECK(car.value("battery") == doctest::Approx(12.6).epsilon(0.001));
}

TEST_CASE("where a plan has no alternator, what it says of its battery holds as written") {
    const Car car(without(charging, "14.4 V when engine running", "14.4 V"));
    CHECK(car.value("battery", "fuse") == doctest::Approx(13.7).epsilon(0.001));
}

namespace {
const std::string starter = R"(plan CASE-01 "Case on a ground point"
battery G1 12.6 V, inner 6 mohm
ground XE2 "Engine", on engine
wire W1 G1.- -> XE2 35 mm2 0.7 m unfused
wire W3 G1.+ -> M5.30 35 mm2 1 m unfused
motor M5 "Motor" 30/31 130 A, needs 9 V, 31 on XE2
check turns "Does it turn?"
  look "It turns": M5 runs
  pass -> done
check ground "Ground side"
  drop M5.31 to G1.-
  pass -> done
plant case "Case" M5.31 open
)";

// The car with a fault of its ground point XE2.
Predictor with_point(const Car& car, FaultKind kind, double ohms = 0) {
    Fault fault;
    fault.at_point.part = car.plan.circuit.find_part("XE2"), fault.at_point.metal = Metal::whole;
    fault.kind = kind, fault.value = Quantity();
    fault.value->si = ohms;
    return {*car.with(""), fault, car.used};
}
Truth turns_loose(const std::string& text) {
    const Car car(text);
    const Check& check = car.check("turns");
    return with_point(car, FaultKind::open).looks(check.with, check.look_states.list.at(0));
}
} // namespace

TEST_CASE("a case lies on the metal of its ground point: loose, that point leaves neither case nor cable the metal") {
    const Car car(starter);
    CHECK(car.looks("turns") == Truth::yes);
    CHECK(car.looks("turns", "case") == Truth::no);
    CHECK(turns_loose(starter) == Truth::no);
    const Check& ground = car.check("ground");
    CHECK(with_point(car, FaultKind::added, 0.02).read(ground.with, ground.measure, ground.rows.at(0)).value > car.value("ground") + 1);
    // without a cable there, on a body that has its strap elsewhere
    const std::string lamp =
        without(without(starter, "W1 G1.- -> XE2", "W1 G1.- -> XE1"), "ground XE2 \"Engine\", on engine", "ground XE1\nground XE2");
    CHECK(Car(lamp).looks("turns") == Truth::yes);
    CHECK(turns_loose(lamp) == Truth::no);
}

TEST_CASE("a case that is bolted down by itself keeps that metal when the ground point is loose") {
    const std::string own = without(starter, "31 on XE2", "31 on XE2, on engine"),
                      second = "ground XE3, on engine\nwire W7 G1.- -> XE3 35 mm2 0.7 m unfused\ncheck turns";
    CHECK(turns_loose(own) == Truth::no); // the strap has lost the engine
    CHECK(turns_loose(without(own, "check turns", second)) == Truth::yes);
    CHECK(turns_loose(without(starter, "check turns", second)) == Truth::no);
}
