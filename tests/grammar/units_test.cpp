// Units against what stands outside the project.
#include "grammar/units.hpp"
#include <algorithm>
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

TEST_CASE("a prefix in a unit is the one that the SI has, squared in an area") {
    // SI brochure, 9th edition, table 7: c 10^-2, m 10^-3, k 10^3, M 10^6. Units that are whole words by themselves
    // have none.
    const std::pair<char, double> prefixes[] = {{'c', 1e-2}, {'m', 1e-3}, {'k', 1e3}, {'M', 1e6}};
    const std::pair<std::string, double> named[] = {{"V", 1}, {"A", 1}, {"W", 1},  {"ohm", 1}, {"\u03A9", 1},
                                                    {"m", 1}, {"s", 1}, {"Hz", 1}, {"Pa", 1}};
    int prefixed = 0;
    for (const Unit& unit : units()) {
        std::string written(unit.written);
        const bool squared = written.ends_with("2") || written.ends_with("\u00B2");
        if (squared) written.resize(written.find('m') + 2);
        for (const auto& [letter, times] : prefixes)
            for (const auto& [base, factor] : named)
                if (written == letter + base && written != "min") {
                    CHECK_MESSAGE(unit.factor == doctest::Approx(squared ? times * times * factor : times * factor).epsilon(1e-12),
                                  written);
                    ++prefixed;
                }
    }
    CHECK(prefixed == 16);
}

TEST_CASE("every dimension has words and an example in its own unit") {
    for (unsigned i = 0; i < dimensions().size(); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        CHECK(row_of(dimension).word.starts_with("a"));
        const std::string example(row_of(dimension).example);
        const Unit* unit = find_unit(example.substr(example.find(' ') + 1));
        REQUIRE_MESSAGE(unit != nullptr, example);
        CHECK(unit->dimension == dimension);
    }
}

TEST_CASE("a dimension is kept in one base unit, and where the language has that unit its factor is 1") {
    std::set<std::string_view> bases;
    for (std::size_t i = 0; i < dimensions().size(); ++i) {
        const std::string_view base = dimensions()[i].base_unit;
        CHECK_MESSAGE(bases.insert(base).second, base);
        if (const Unit* unit = find_unit(base)) {
            CHECK_MESSAGE(unit->dimension == static_cast<Dimension>(i), base);
            CHECK_MESSAGE(unit->factor == 1, base);
        }
        const bool any =
            std::any_of(units().begin(), units().end(), [i](const Unit& unit) { return unit.dimension == static_cast<Dimension>(i); });
        CHECK_MESSAGE(any, base);
    }
}

TEST_CASE("what is printed for a unit is the same for all ways to type it") {
    for (const Unit& one : units())
        for (const Unit& other : units())
            if (one.dimension == other.dimension && one.factor == other.factor) CHECK(one.printed == other.printed);
}
