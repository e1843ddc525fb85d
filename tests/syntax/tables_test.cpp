// Units and colours against what stands outside the project.
#include "grammar/colours.hpp"
#include "grammar/units.hpp"
#include <doctest/doctest.h>
#include <set>
#include <string>

using namespace loomsheet;

TEST_CASE("units: each is written once, and the factors are those of the SI") {
    std::set<std::string> written;
    for (const Unit& unit : units()) {
        CHECK_MESSAGE(written.insert(std::string(unit.written)).second, std::string(unit.written));
        CHECK(find_unit(unit.written) == &unit);
        CHECK(unit.factor > 0);
    }
    struct Row {
        const char* written;
        Dimension dimension;
        double factor;
    };
    // Prefixes and units of the SI (BIPM brochure, 9th edition: from memory). Beside them: min and h; bar = 10^5 Pa;
    // degC, rpm, Ah and % stay as they are, AWG is no unit but a size.
    const Row rows[] = {
        {"V", Dimension::volt, 1},           {"mV", Dimension::volt, 1e-3},     {"kV", Dimension::volt, 1e3},
        {"A", Dimension::ampere, 1},         {"mA", Dimension::ampere, 1e-3},   {"W", Dimension::watt, 1},
        {"kW", Dimension::watt, 1e3},        {"ohm", Dimension::ohm, 1},        {"Ω", Dimension::ohm, 1},
        {"kohm", Dimension::ohm, 1e3},       {"kΩ", Dimension::ohm, 1e3},       {"mohm", Dimension::ohm, 1e-3},
        {"mΩ", Dimension::ohm, 1e-3},        {"Mohm", Dimension::ohm, 1e6},     {"MΩ", Dimension::ohm, 1e6},
        {"m", Dimension::metre, 1},          {"cm", Dimension::metre, 1e-2},    {"mm", Dimension::metre, 1e-3},
        {"mm2", Dimension::area, 1e-6},      {"mm²", Dimension::area, 1e-6},    {"ms", Dimension::second, 1e-3},
        {"s", Dimension::second, 1},         {"min", Dimension::second, 60},    {"h", Dimension::second, 3600},
        {"degC", Dimension::temperature, 1}, {"°C", Dimension::temperature, 1}, {"K", Dimension::kelvin, 1},
        {"%", Dimension::percent, 1e-2},     {"Hz", Dimension::hertz, 1},       {"rpm", Dimension::speed, 1},
        {"bar", Dimension::pressure, 1e5},   {"kPa", Dimension::pressure, 1e3}, {"Nm", Dimension::torque, 1},
        {"Ah", Dimension::charge, 1},
    };
    for (const Row& row : rows) {
        const Unit* unit = find_unit(row.written);
        REQUIRE_MESSAGE(unit != nullptr, row.written);
        CHECK_MESSAGE(unit->dimension == row.dimension, row.written);
        CHECK_MESSAGE(unit->factor == row.factor, row.written);
    }
    CHECK(std::size(rows) + 1 == units().size()); // the ohm has two code points, U+03A9 and U+2126
}

TEST_CASE("units: case counts, and words lead to the unit that is meant") {
    CHECK(find_unit("v") == nullptr);
    CHECK(find_unit("Mv") == nullptr);
    CHECK(find_unit("AWG") == nullptr);
    CHECK(unit_meant("Volts")->written == "V");
    CHECK(unit_meant("amp")->written == "A");
    CHECK(unit_meant("ohms")->written == "ohm");
    CHECK(unit_meant("pins") == nullptr);
    for (const Unit& unit : units())
        CHECK_MESSAGE(unit_meant(unit.written) == nullptr, std::string(unit.written));
}

TEST_CASE("every dimension has words and an example in its own unit") {
    for (unsigned i = 0; i <= static_cast<unsigned>(Dimension::charge); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        CHECK(dimension_name(dimension).starts_with("a"));
        const std::string example(dimension_example(dimension));
        const Unit* unit = find_unit(example.substr(example.find(' ') + 1));
        REQUIRE_MESSAGE(unit != nullptr, example);
        CHECK(unit->dimension == dimension);
    }
}

TEST_CASE("colours are those of IEC 60757, in the order of its table") {
    // Source: IEC 757:1983 = GOST 28763-90 and the CEI translation, as taken over in trade-data.md, section 1.1 [1][3].
    struct Row {
        const char *code, *word;
    };
    const Row rows[] = {
        {"BK", "black"}, {"BN", "brown"}, {"RD", "red"},       {"OG", "orange"}, {"YE", "yellow"},
        {"GN", "green"}, {"BU", "blue"},  {"VT", "violet"},    {"GY", "grey"},   {"WH", "white"},
        {"PK", "pink"},  {"GD", "gold"},  {"TQ", "turquoise"}, {"SR", "silver"},
    };
    REQUIRE(colours().size() == std::size(rows) + 1);
    for (std::size_t i = 0; i < std::size(rows); ++i) {
        CHECK(colours()[i].code == rows[i].code);
        CHECK(colours()[i].word == rows[i].word);
        CHECK(find_colour_code(rows[i].code) == &colours()[i]);
        CHECK(find_colour_word(rows[i].word) == &colours()[i]);
    }
    CHECK(colours().back().code == "GNYE"); // green and yellow together: one code of its own, section 1.1 [2]
    // The table's second words: "violet (purple)", "grey (slate)".
    CHECK(find_colour_word("purple")->code == "VT");
    CHECK(find_colour_word("slate")->code == "GY");
    CHECK(find_colour_code("TN") == nullptr); // tan is not in the table, section 1.2
}
