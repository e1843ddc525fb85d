// Numbers with their units: in SI, with tolerance, in range, and out of all reach.
#include "grammar/units.hpp"
#include "model/built.hpp"
#include "model/reach.hpp"
#include "model/wire_size.hpp"
#include <cmath>
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {
// The rating of a fuse, the ohms of a coil: whole statements around one value.
Quantity ohms(const std::string& written) {
    const Built built("resistor R1 1/2 " + written + "\n");
    REQUIRE_MESSAGE(built.said() == "", written);
    return *built.part("R1").elements.at(0).value;
}
std::string trouble(const std::string& statement) { return Built(statement + "\n").said(); }
bool says(const std::string& statement, const std::string& words) {
    const auto said = trouble(statement);
    INFO(said);
    return said.find(words) != std::string::npos;
}
} // namespace

TEST_CASE("prefixes come out in SI") {
    CHECK(ohms("85 ohm").si == doctest::Approx(85));
    CHECK(ohms("85 Ω").si == doctest::Approx(85));
    CHECK(ohms("2.2 kohm").si == doctest::Approx(2200));
    CHECK(ohms("1 Mohm").si == doctest::Approx(1e6));
    CHECK(ohms("5 mohm").si == doctest::Approx(0.005));
    const Built built("wire W1 F1.1 -> F1.2 6 mm2 0.6 m rated 50 A\nfuse F1 10 A\n");
    CHECK(built.said() == "");
    CHECK(built.wire("W1").area->si == doctest::Approx(6e-6));
    CHECK(built.wire("W1").gauge == "6 mm²");
    CHECK(built.wire("W1").length->si == doctest::Approx(0.6));
    CHECK(built.wire("W1").rated->si == doctest::Approx(50));
}

TEST_CASE("a tolerance in per cent or in a unit, both as half a width") {
    const auto percent = ohms("85 ohm ±10 %");
    CHECK(percent.plus_minus.value() == doctest::Approx(8.5));
    CHECK(percent.low() == doctest::Approx(76.5)); // trade-data.md, section 14, row 19: accept 76.5 to 93.5 ohm
    CHECK(percent.high() == doctest::Approx(93.5));
    CHECK(percent.written == "85 Ω ±10 %");
    CHECK(ohms("85 ohm +-10 %").plus_minus.value() == doctest::Approx(8.5));
    CHECK(ohms("2.5 kohm ±100 ohm").plus_minus.value() == doctest::Approx(100));
    CHECK_FALSE(ohms("85 ohm").plus_minus);
    CHECK(ohms("85 ohm ±0 %").plus_minus.value() == 0);
    CHECK(ohms("85 ohm").written == "85 Ω");
}

TEST_CASE("ranges: the unit at the right or at both ends, signs, and what runs backwards") {
    const std::string head = "battery G1 12.6 V\ncheck a \"b\"\n  volts G1.+ to G1.-\n  expect ";
    const auto limit = [&](const std::string& written) {
        const Built built(head + written + "\n");
        REQUIRE_MESSAGE(built.places() == "", built.said());
        return built.plan.checks.at(0).limits.at(0);
    };
    CHECK(limit("11.5 .. 12.8 V").low->si == doctest::Approx(11.5));
    CHECK(limit("11.5 .. 12.8 V").high->si == doctest::Approx(12.8));
    CHECK(limit("300 .. 400 mV").low->si == doctest::Approx(0.3));
    CHECK(limit("300 mV .. 0.4 V").low->si == doctest::Approx(0.3));
    CHECK(limit("300 mV .. 0.4 V").high->si == doctest::Approx(0.4));
    CHECK(limit("-0.5 .. 0.5 V").low->si == doctest::Approx(-0.5));
    CHECK(limit("-0.5 .. 0.5 V").low->written == "−0.5 V");
    CHECK(limit("below 0.3 V").kind == LimitKind::below);
    CHECK_FALSE(limit("below 0.3 V").low.has_value());
    CHECK(limit("above 9.6 V").low->si == doctest::Approx(9.6));
    CHECK(Built(head + "12.8 .. 11.5 V\n").places() == "LS207@4:10");
    CHECK(Built(head + "11.5 V .. 12.8 A\n").places() == "LS206@4:10");
}

TEST_CASE("out of reach: what is possible is said, and the prefix that was meant") {
    CHECK(
        says("battery G1 12.6 V, inner 6 Mohm", "`6 Mohm` is not possible: an inner resistance is 0.5 mΩ to 1 Ω (did you mean `6 mohm`?)"));
    CHECK(says("battery G1 126 V", "a battery voltage is 1 to 60 V"));
    CHECK(says("fuse F1 4000 A", "a fuse rating is 0.1 to 600 A (did you mean `4000 mA`?)"));
    CHECK(says("relay K1 coil 86/85 85 mohm, contact 30/87", "did you mean `85 ohm`?"));
    CHECK(says("wire W1 F1.1 -> F1.2 6 mm2 140 m\nfuse F1 10 A", "a length is 5 mm to 50 m"));
    CHECK(says("motor M1 1/2 22 A, stalls at 20 A", "M1 stalls at 20 A, which is not above its running current of 22 A"));
    CHECK(says("relay K1 coil 86/85 85 ohm, contact 30/87, pulls in at 3 V, drops out at 8 V",
               "K1 drops out at 8 V, which is not under the 3 V"));
    CHECK(says("fuse F1 " + std::string(400, '9') + " A", "is not possible"));
    CHECK(says("connector X1 " + std::string(30, '9') + " pins, mates X2", "pins is not possible"));
    CHECK(says("connector X1 2.5 pins, mates X2", "pins is not possible"));
}

TEST_CASE("a cross-section that was written as a length") {
    CHECK(says("wire W1 F1.1 -> F1.2 2.5 mm RD\nfuse F1 10 A",
               "`2.5 mm` is a length, and W1 has no cross-section (did you mean `2.5 mm2`?)"));
    CHECK(says("wire W1 F1.1 -> F1.2 16 mm RD\nfuse F1 10 A", "did you mean `16 mm2`?"));
    CHECK(trouble("wire W1 F1.1 -> F1.2 2.5 mm2 40 mm RD\nfuse F1 10 A") == "");
    CHECK(trouble("wire W1 F1.1 -> F1.2 250 mm RD\nfuse F1 10 A") == "");
}

TEST_CASE("the table of reach has room, words, and a prefix to offer for each end") {
    for (const ReachRow& row : reach_table()) {
        CHECK_MESSAGE(row.low < row.high, std::string(row.role));
        CHECK(find_reach(row.role) == &row);
        CHECK_FALSE(row.limits.empty());
    }
    CHECK(find_reach("colour") == nullptr);
    Quantity value;
    value.unit = find_unit("kohm");
    value.si = 85e3;
    CHECK(other_prefix(value, *find_reach("coil resistance")) == "85 ohm");
    value.unit = find_unit("V");
    value.si = 1e9;
    CHECK(other_prefix(value, *find_reach("battery voltage")) == "");
}

TEST_CASE("AWG sizes against ASTM B258") {
    // d = 0.127 mm × 92^((36 − n)/39). Diameters and areas: trade-data.md, section 2.2 and section 14, rows 1 and 5.
    struct Row {
        const char* size;
        double diameter, area; // mm, mm²
    };
    const Row rows[] = {
        {"18", 1.0237, 0.8230}, {"16", 1.2908, 1.3087},  {"14", 1.6277, 2.0809},  {"12", 2.0525, 3.3088},
        {"10", 2.5882, 5.2612}, {"8", 3.2636, 8.3656},   {"6", 4.1154, 13.302},   {"4", 5.1894, 21.151},
        {"2", 6.5437, 33.631},  {"1/0", 8.2515, 53.475}, {"4/0", 11.684, 107.22},
    };
    for (const Row& row : rows) {
        CHECK_MESSAGE(awg_area(row.size) * 1e6 == doctest::Approx(row.area).epsilon(1e-4), row.size);
        CHECK_MESSAGE(std::sqrt(awg_area(row.size) * 4 / 3.14159265358979) * 1e3 == doctest::Approx(row.diameter).epsilon(1e-4), row.size);
    }
    CHECK(std::abs(awg_area("10") * 1e6 - 5.2612) < 0.0005); // row 1 names this tolerance
    for (const char* none_such : {"41", "-1", "5/0", "0/0", "1/1", "10a", "", "/0"})
        CHECK_MESSAGE(awg_area(none_such) == 0, none_such);
    const Built built("wire W1 F1.1 -> F1.2 AWG 10\nwire W2 F1.1 -> F1.2 AWG 4/0\nfuse F1 10 A\n");
    CHECK(built.said() == "");
    CHECK(built.wire("W1").gauge == "AWG 10");
    CHECK(built.wire("W1").area->si == doctest::Approx(5.2612e-6).epsilon(1e-4));
    CHECK(built.wire("W2").gauge == "AWG 4/0");
    CHECK(says("wire W1 F1.1 -> F1.2 AWG 99\nfuse F1 10 A", "AWG 99 is no size"));
}
