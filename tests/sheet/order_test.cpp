#include "printed.hpp"
#include "sheet/layout/order.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {
std::string check(const std::string& label, const std::string& pass, const std::string& fail, const std::string& more = "") {
    return "check " + label + " \"" + label + "\"\n  volts G1.+ to G1.-\n  expect 12 .. 13 V\n  fail -> " + fail + "\n  pass -> " + pass +
           "\n" + more;
}
} // namespace

TEST_CASE("checks are numbered depth first, pass first; proofs after them, exercises last") {
    const Plan plan = printed::plan(printed::lamp_plan(check("a", "b", "d") + check("exercise-one", "done", "suspects", "  exercise\n") +
                                                       check("proof", "done", "suspects") + check("d", "done", "bad") +
                                                       check("c", "done", "worse") + check("b", "c", "bad") +
                                                       "verdict worse \"Worse\"\n  blames F1\n  repair \"r\"\n  after proof\n"
                                                       "verdict bad \"Bad\"\n  blames G1\n  repair \"r\"\n  after proof\n"));
    const Order order = order_of(plan);
    std::string labels;
    for (const int check : order.checks)
        labels += plan.checks[check].label + " ";
    CHECK(labels == "a b c d proof exercise-one ");
    CHECK(order.numbers[order.checks[3]] == 4);
    // Letters as the checks come to them: b names `bad` before c names `worse`.
    CHECK(order.letters[1] == "A");
    CHECK(order.letters[0] == "B");
}

TEST_CASE("a verdict that goes on is followed as its outcome") {
    const Plan plan =
        printed::plan(printed::lamp_plan(check("a", "c", "flat") + check("b", "done", "suspects") + check("c", "done", "suspects") +
                                         "verdict flat \"Flat\"\n  blames G1\n  repair \"r\"\n  -> b\n"));
    CHECK(order_of(plan).numbers == std::vector<int>{1, 3, 2});
}

TEST_CASE("letters leave out I and O and go on with two") {
    CHECK(verdict_letter(0) == "A");
    CHECK(verdict_letter(7) == "H");
    CHECK(verdict_letter(8) == "J");
    CHECK(verdict_letter(13) == "P");
    CHECK(verdict_letter(23) == "Z");
    CHECK(verdict_letter(24) == "AA");
    CHECK(verdict_letter(24 + 24) == "BA");
}
