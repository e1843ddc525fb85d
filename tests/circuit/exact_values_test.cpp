// A value whose tolerance is written as nothing.
#include "car.hpp"

using namespace loomsheet;

TEST_CASE("a value with ±0 is exact") {
    const std::string exact = R"(plan Z-01 "Exact"
battery G1 12 V ±0 V, inner 5 mohm
ground XE1
fuse F1 10 A
resistor R1 1/2 100 ohm ±0 %
wire W1 G1.- -> XE1 16 mm2 0.4 m unfused
wire W2 G1.+ -> F1.1 2.5 mm2 0.5 m
wire W3 F1.2 -> R1.1 2.5 mm2 0.5 m
wire W4 R1.2 -> XE1 2.5 mm2 0.5 m
check ohms "R"
  with F1 pulled
  ohms R1.1 to R1.2
  pass -> done
check post "G"
  volts part G1.+ to part G1.-
  pass -> done
)";
    const Car car(exact);
    const Reading ohms = car.read("ohms"), volts = car.read("post");
    CHECK(ohms.low > 97); // its meter and leads alone, not ±5 %
    CHECK(ohms.high < 103);
    CHECK(volts.low > 11.9); // not -0.15 .. +0.25 V
    CHECK(volts.high < 12.1);
}
