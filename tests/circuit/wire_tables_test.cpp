// The tables of wires against figures from outside: trade-data sections 2 and 3, sources beside each.
#include "circuit/wire_tables.hpp"
#include "model/wire_size.hpp"
#include <cmath>
#include <doctest/doctest.h>

using namespace loomsheet;

TEST_CASE("AWG sizes follow ASTM B258") {
    CHECK(gauge_area(10) * 1e6 == doctest::Approx(5.2612).epsilon(2e-4));
    CHECK(gauge_area(-3) * 1e6 == doctest::Approx(107.22).epsilon(2e-4)); // 4/0, worked value 5
    for (const GaugeRow& row : gauges())                                  // ideal copper at 20 degC: AWG 10 3.277 mohm/m, worked value 2
        if (row.n == 10) CHECK(1000 * copper_ohm_mm2_per_m / (gauge_area(row.n) * 1e6) == doctest::Approx(3.277).epsilon(5e-4));
}

TEST_CASE("an engine space takes 15 % off the ampacities of ABYC E-11") {
    for (const GaugeRow& row : gauges())
        CHECK_MESSAGE(std::abs(row.engine_amps - 0.85 * row.amps) <= 0.51, row.awg);
    // Worked value 16: AWG 12, engine space, bundle of 7 to 24 (x 0.50): 19.1 A
    const auto twelve = ampacity("AWG 12", gauge_area(12) * 1e6);
    REQUIRE(twelve);
    CHECK(0.5 * 45 * 0.85 == doctest::Approx(19.1).epsilon(3e-3));
    CHECK(twelve->amps == 38);
    CHECK(twelve->basis == "ABYC E-11, engine space of 50 °C");
}

TEST_CASE("a metric wire resists a little more than ideal copper, more by IEC 60228 than by ISO 6722-1, and a thicker "
          "one less") {
    double before = 1e9, amps_before = 0;
    for (const MetricWireRow& row : metric_wires()) {
        const double ideal = 1000 * copper_ohm_mm2_per_m / row.mm2;
        CHECK_MESSAGE(row.iso6722 > 1.03 * ideal, row.mm2);
        CHECK_MESSAGE(row.iso6722 < 1.12 * ideal, row.mm2); // trade-data 2.3: 5 to 11 % above ideal
        if (row.class5 > 0) CHECK_MESSAGE(row.class5 > row.iso6722, row.mm2);
        CHECK(row.iso6722 < before);
        before = row.iso6722;
        if (row.amps > 0) CHECK(row.amps > amps_before);
        amps_before = row.amps > 0 ? row.amps : amps_before;
    }
}

TEST_CASE("the ampacity of a metric wire is that of the trade table, between two sizes the smaller one's") {
    const auto amps = [](double mm2) { return ampacity("", mm2).value().amps; };
    CHECK(amps(0.5) == 11); // seen
    CHECK(amps(1.5) == 21); // seen
    CHECK(amps(2.5) == 29);
    CHECK(amps(6) == 50);
    CHECK(amps(1.2) == amps(1));
    CHECK(amps(120) == amps(70));
    CHECK_FALSE(ampacity("", 0.2).has_value());
    CHECK(ampacity("", 1.5)->basis == "thin-wall cable, trade table");
    CHECK(ampacity("", 2.5)->basis == "thin-wall cable, trade table, figure from memory");
}
