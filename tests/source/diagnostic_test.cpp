#include "source/catalogue.hpp"
#include "source/diagnostic.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

TEST_CASE("findings stand in the order of their places, each once") {
    Findings findings;
    findings.add(301, {0, 40, 44}, "late");
    findings.add(204, {1, 0, 3}, "other file");
    findings.add(214, {0, 10, 12}, "early");
    findings.add(301, {0, 40, 44}, "late");
    findings.add(301, {0, 40, 44}, "late, other words");
    findings.sort();
    REQUIRE(findings.list().size() == 4);
    CHECK(findings.list()[0].says == "early");
    CHECK(findings.list()[1].says == "late");
    CHECK(findings.list()[2].says == "late, other words");
    CHECK(findings.list()[3].says == "other file");
}

TEST_CASE("the catalogue says how grave a finding is") {
    Findings findings;
    CHECK_FALSE(findings.has_errors());
    findings.add(214, {}, "a warning");
    findings.add(901, {}, "a note");
    CHECK_FALSE(findings.has_errors());
    findings.add(204, {}, "an error");
    CHECK(findings.has_errors());
    CHECK(findings.count(Severity::error) == 1);
    CHECK(findings.count(Severity::warning) == 1);
    CHECK(findings.count(Severity::note) == 1);
    Findings more;
    more.add(204, {}, "one more");
    findings.add(std::move(more));
    CHECK(findings.count(Severity::error) == 2);
}

TEST_CASE("the catalogue is in order, so that a code is found") {
    int before = -1;
    for (const CatalogueRow& row : catalogue()) {
        CHECK(row.code > before);
        CHECK(find_in_catalogue(row.code) == &row);
        CHECK_FALSE(row.title.empty());
        before = row.code;
    }
    CHECK(find_in_catalogue(299) == nullptr);
    CHECK(code_name(4) == "LS004");
}
