#include "printed.hpp"
#include "sheet/layout/route.hpp"
#include "sheet/words/state.hpp"
#include "sheet/words/wording.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

std::string check(const std::string& label, const std::string& with, const std::string& pass, const std::string& fail = "suspects") {
    return "check " + label + " \"" + label + "\"\n" + (with.empty() ? "" : "  with " + with + "\n") +
           "  volts F1.1 to G1.-\n  expect 12 .. 13 V\n  pass -> " + pass + "\n  fail -> " + fail + "\n";
}

// The ticks of a check: "heading: main (how) / main (how)", a line a list.
std::string ticks(const Plan& plan, const std::string& label) {
    const Order order = order_of(plan);
    const Routes routes(plan);
    std::string said;
    for (std::size_t i = 0; i < plan.checks.size(); ++i) {
        if (plan.checks[i].label != label) continue;
        for (const TickList& list : tick_lists(english(), plan, order, routes, static_cast<int>(i))) {
            said += list.heading + ":";
            for (const Step& step : list.steps)
                said += " " + step.main + (step.how.empty() ? "" : " (" + step.how + ")");
            said += "\n";
        }
    }
    return said;
}

} // namespace

TEST_CASE("only what changes is ticked, in safe order, with what goes back") {
    const Plan plan = printed::plan(printed::lamp_plan(check("a", "S1 pressed", "b") +
                                                       check("b", "X1 unplugged, load 21 W across X1.1 to X1.2, S1 pressed", "c") +
                                                       check("c", "F1 pulled", "done")));
    CHECK(ticks(plan, "a") == ": S1 PRESSED (Lamp switch)\n");
    CHECK(ticks(plan, "b") == ": S1 LET GO Lamp cover OFF (5 min, 2 clips) X1 UNPLUGGED (Lamp plug, rear left) "
                              "Lamp 21 W across (X1.1 and X1.2) S1 PRESSED (Lamp switch)\n");
    CHECK(ticks(plan, "c") == ": S1 LET GO Lamp 21 W OFF (from X1.1 and X1.2) X1 PLUGGED IN (lock clicks) F1 PULLED "
                              "(Lamp, dash box, slot 1)\n");
}

TEST_CASE("from the car at rest the key is off and all is connected") {
    const Plan plan = printed::plan(printed::lamp_plan(check("a", "", "done")));
    CHECK(ticks(plan, "a") == ": Key OFF (all connected)\n");
}

TEST_CASE("from two checks with different set-ups two lists; from two that ask for the same, one") {
    const Plan plan =
        printed::plan(printed::lamp_plan(check("a", "", "b", "c") + check("b", "F1 pulled", "d", "e") + check("c", "", "d", "e") +
                                         check("d", "", "done") + check("e", "F1 pulled, S1 pressed", "done")));
    CHECK(ticks(plan, "d") == "coming from 2: F1 FITTED (it was out in 2)\ncoming from 5:\n");
    CHECK(ticks(plan, "e").starts_with("coming from 2: S1 PRESSED"));
    const Plan same = printed::plan(
        printed::lamp_plan(check("a", "", "b", "c") + check("b", "", "d") + check("c", "", "d") + check("d", "F1 pulled", "done")));
    CHECK(ticks(same, "d") == ": F1 PULLED (Lamp, dash box, slot 1)\n");
}

TEST_CASE("many ways that all differ become one list that begins with putting back") {
    std::string plan_text = check("a", "", "b", "z") + check("b", "F1 pulled", "c", "z") + check("c", "X1 unplugged", "d", "z") +
                            check("d", "S1 pressed", "z", "suspects") + check("z", "F1 pulled, S1 pressed", "done");
    const std::string said = ticks(printed::plan(printed::lamp_plan(plan_text)), "z");
    CHECK(said.starts_with("from wherever you come: ALL PUT BACK"));
    CHECK(said.find("F1 PULLED") != std::string::npos);
}

TEST_CASE("a panel is taken off once on a way, and again when one may come with it still on") {
    const Plan once = printed::plan(printed::lamp_plan(check("a", "X1 unplugged", "b") + check("b", "X1 unplugged, S1 pressed", "done")));
    CHECK(ticks(once, "a").find("Lamp cover OFF") != std::string::npos);
    CHECK(ticks(once, "b").find("Lamp cover") == std::string::npos);
    const Plan again = printed::plan(printed::lamp_plan(check("a", "", "b", "c") + check("b", "X1 unplugged", "c", "suspects") +
                                                        check("c", "", "d") + check("d", "X1 unplugged", "done")));
    CHECK(ticks(again, "d").find("Lamp cover OFF") != std::string::npos);
}

TEST_CASE("the proof of a repair starts from the car at rest") {
    const Plan plan = printed::plan(printed::lamp_plan(check("a", "F1 pulled", "b", "bad") + check("b", "S1 pressed", "done") +
                                                       "verdict bad \"Bad\"\n  blames F1\n  repair \"r\"\n  after b\n"));
    CHECK(ticks(plan, "b") == "coming from a repair: S1 PRESSED (Lamp switch)\ncoming from 1: F1 FITTED (it was out in "
                              "1) S1 PRESSED (Lamp switch)\n");
}

TEST_CASE("the whole set-up in one line; the car at rest has words of its own") {
    const Plan plan = printed::plan(
        printed::lamp_plan(check("a", "X1 unplugged, S1 pressed, load 21 W across X1.1 to X1.2, \"wheels chocked\"", "done")));
    CHECK(setup_words(english(), plan.circuit, plan.checks[0].with) ==
          "X1\u00A0unplugged\u00A0· S1\u00A0pressed\u00A0· lamp 21 W across X1.1 and X1.2\u00A0· wheels\u00A0chocked");
    CHECK(setup_words(english(), plan.circuit, {}) == "key off, all connected");
}

TEST_CASE("what any check took apart is put back at the end") {
    const Plan plan =
        printed::plan(printed::lamp_plan(check("a", "F1 pulled", "b") + check("b", "X1 unplugged, load 21 W across X1.1 to X1.2", "c") +
                                         check("c", "F1 pulled, bridge F1.1 to F1.2 fused 10 A", "done")));
    const std::string words = printed::words(printed::sheet(plan).document);
    for (const char* line : {"F1 fitted, 10 A", "X1 plugged in, lock clicks", "Lamp 21 W off", "Bridge lead off", "Lamp cover on"}) {
        CAPTURE(line);
        CHECK(words.find(line) != std::string::npos);
    }
}
