// The plan over the circuit: points, set-ups, checks, limits, verdicts, planted faults, and what comes from other
// files.
#include "model/built.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {
const std::string circuit =
    "battery G1 12.6 V\nfuse F1 10 A\nfuse F2 10 A\nmotor M3 1/2 22 A\nground XE1\nlamp E21 1/2 55 W at 12 V\nlamp E23 "
    "1/2 55 W at 12 V\n"
    "switch S4\n  at rest\n  at up 30/A\nrelay K5 coil 86/85 85 ohm, contact 30/87\nsensor B2 ntc 1/2\n  at 20 degC "
    "2.5 kohm\n"
    "sensor B5 pot 1/2/3 5 kohm\n  at released 15 %\n  at pressed 76 %\nmodule U1 supply 15, ground 31, output 47 "
    "pulls down 1 A\n"
    "connector X21 2 pins, on M3\nwire W1 G1.+ -> F1.1\nwire W4 K5.87 -> X21.1\npart Y1 \"Toothed ring\"\n";

Built plan_with(const std::string& text) {
    Built built(circuit + text);
    REQUIRE_MESSAGE(built.places() == "", built.said());
    return built;
}
std::string told(const Built& built, const PointRef& point) {
    constexpr const char* metals[] = {"wire end", "part", "joint", "body", "whole"};
    std::string all = metals[static_cast<unsigned>(point.metal)];
    if (point.wire != none) return all + " " + built.circuit().wires.at(point.wire).id;
    if (!point.pins.empty()) {
        for (const PinId pin : point.pins)
            all += " " + built.pin(pin);
        return all;
    }
    if (point.pin != none) return all + " " + built.pin(point.pin);
    if (point.part != none) return all + " " + built.circuit().parts.at(point.part).id;
    return all;
}
} // namespace

TEST_CASE("points: wire end, part, joint, element, whole, body") {
    const Built built = plan_with("verdict a blames X21.1 part M3.1 joint X21.1 K5.30/87 W4 XE1 M3 \"engine locked\" X21.1 to XE1\n"
                                  "check b volts part   G1.+ to ground\n");
    const Verdict& verdict = built.plan.verdicts.at(0);
    const char* wanted[] = {"wire end X21.1", "part M3.1", "joint X21.1", "part K5.30 K5.87", "whole W4", "whole XE1", "whole M3"};
    REQUIRE(verdict.blames.size() == std::size(wanted));
    for (std::size_t i = 0; i < std::size(wanted); ++i)
        CHECK(told(built, verdict.blames[i]) == std::string(wanted[i]));
    REQUIRE(verdict.blamed_runs.size() == 1);
    CHECK(told(built, verdict.blamed_runs[0].first) == "wire end X21.1");
    CHECK(told(built, verdict.blamed_runs[0].second) == "whole XE1");
    CHECK(verdict.blamed_words.at(0).text == "engine locked");
    CHECK_FALSE(verdict.blames_nothing);
    CHECK(told(built, built.plan.checks.at(0).rows.at(0).red) == "part G1.+");
    CHECK(told(built, built.plan.checks.at(0).rows.at(0).black) == "body");
}

TEST_CASE("set-up items, each of its kind") {
    const Built built = plan_with("check a look \"x\"\n  with key on, asleep for 20 min, engine running, at 2000 rpm, X21 unplugged, "
                                  "F1 pulled, G1.- disconnected,\n"
                                  "    S4 pressed, U1.47 on, B2 at 80 degC, B2 as found, S4 at up, B5 from released to pressed,\n"
                                  "    bridge K5.30 to K5.87 fused 10 A, load 21 W, load 5 W across X21.1 to X21.2, one of F1 F2 "
                                  "pulled, \"gear lever in neutral\"\n");
    const auto& items = built.plan.checks.at(0).with.items;
    const ItemKind kinds[] = {ItemKind::key,           ItemKind::asleep,   ItemKind::engine_running, ItemKind::engine_speed,
                              ItemKind::unplugged,     ItemKind::pulled,   ItemKind::disconnected,   ItemKind::pressed,
                              ItemKind::output_on,     ItemKind::at_value, ItemKind::as_found,       ItemKind::position,
                              ItemKind::moved,         ItemKind::bridge,   ItemKind::load,           ItemKind::load,
                              ItemKind::one_of_pulled, ItemKind::words};
    REQUIRE(items.size() == std::size(kinds));
    for (std::size_t i = 0; i < items.size(); ++i)
        CHECK(items[i].kind == kinds[i]);
    CHECK(items[0].word == "on");
    CHECK(items[1].time->si == doctest::Approx(1200));
    CHECK(items[3].value->si == doctest::Approx(2000));
    CHECK(built.pin(items[6].pin) == "G1.-");
    CHECK(items[9].value->si == doctest::Approx(80));
    CHECK(items[12].word + items[12].word2 == "releasedpressed");
    CHECK(items[13].value->si == doctest::Approx(10));
    CHECK(items[14].across_points);
    CHECK_FALSE(items[15].across_points);
    CHECK(built.pin(items[15].b.pin) == "X21.2");
    CHECK(items[16].parts.size() == 2);
    CHECK(items[17].word == "gear lever in neutral");
}

TEST_CASE("labels of set-ups are replaced by what they stand for, labels in labels too, each once") {
    const Built built = plan_with("setup called: key on, U1.47 on\nsetup loaded: called, X21 unplugged, load 21 "
                                  "W\ncheck a look \"x\"\n  with loaded, called, F1 pulled\n");
    std::string all;
    for (const auto& item : built.plan.checks.at(0).with.items)
        all += fmt::format("{} ", static_cast<int>(item.kind));
    CHECK(all == fmt::format("{} {} {} {} {} ", static_cast<int>(ItemKind::key), static_cast<int>(ItemKind::output_on),
                             static_cast<int>(ItemKind::unplugged), static_cast<int>(ItemKind::load), static_cast<int>(ItemKind::pulled)));
    CHECK(built.plan.setups.at(0).used);
    CHECK(built.plan.setups.at(1).setup.items.size() == 4);
}

TEST_CASE("a tower of labels, each naming the next one twice, is no trouble up to its limit") {
    std::string text = "check a look \"x\"\n  with s0\n";
    for (int i = 0; i < 30; ++i)
        text += fmt::format("setup s{}: s{}, s{}\n", i, i + 1, i + 1);
    const Built built = plan_with(text + "setup s30: key on\n");
    CHECK(built.plan.checks.at(0).with.items.size() == 1);
    std::string deep = "check a look \"x\"\n  with s0\n";
    for (int i = 0; i < 40; ++i)
        deep += fmt::format("setup s{}: s{}\n", i, i + 1);
    CHECK(Built(circuit + deep + "setup s40: key on\n").said().find("more than 32 deep") != std::string::npos);
}

TEST_CASE("checks: rows, limits by row, outcomes, bands, answers") {
    const Built built = plan_with("check a \"Rows\"\n  volts \"Left\" E21.1 to E21.2\n  volts \"Right\" E23.1 to E23.2\n  expect above "
                                  "11 V\n  expect \"Right\" 0.5 .. 3 V\n"
                                  "  0.3 .. 3 V -> v\n  fail \"Left\" -> b\n  pass -> next\n  no current -> suspects E21.1 to E21.2\n  "
                                  "time 4 min, marks 2\n  steps \"one\"\n  steps \"two\"\n"
                                  "check b\n  look \"Both light\": E21 lit and E23 lit\n  \"one flickers\": E21 dim or E23 dim -> "
                                  "suspects E21 E23\n  pass -> done\n  fail -> v\n"
                                  "check c\n  volts G1.+ to G1.-\n  expect within 0.5 V of a not computed\n  pass -> done\n"
                                  "verdict v blames nothing\n  repair \"x\"\n  after a b\n  -> b\n");
    const Check& a = built.plan.checks.at(0);
    CHECK(a.title == "Rows");
    CHECK(a.measure == MeasureKind::volts);
    CHECK(a.rows.at(1).name == "Right");
    CHECK(a.limits.at(0).row == "");
    CHECK(a.limits.at(1).row == "Right");
    CHECK(a.outcomes.at(0).kind == OutcomeKind::band);
    CHECK(a.outcomes.at(0).band->high->si == doctest::Approx(3));
    CHECK(a.outcomes.at(0).target.kind == TargetKind::verdict);
    CHECK(a.outcomes.at(1).row == "Left");
    CHECK(a.outcomes.at(1).target.index == 1);
    CHECK(a.outcomes.at(2).target.kind == TargetKind::next);
    CHECK(a.outcomes.at(2).target.index == 1);
    CHECK(a.outcomes.at(3).kind == OutcomeKind::no_current);
    CHECK(a.outcomes.at(3).target.run_is_span);
    CHECK(a.time->si == doctest::Approx(240));
    CHECK(a.steps.size() == 2);
    const Check& b = built.plan.checks.at(1);
    CHECK_FALSE(b.look_states.any);
    CHECK(b.look_states.list.size() == 2);
    CHECK(b.outcomes.at(0).answer == "one flickers");
    CHECK(b.outcomes.at(0).states.any);
    CHECK(b.outcomes.at(0).target.run.size() == 2);
    CHECK_FALSE(b.outcomes.at(0).target.run_is_span);
    const Limit& within = built.plan.checks.at(2).limits.at(0);
    CHECK(within.kind == LimitKind::within);
    CHECK(within.reference == 0);
    CHECK(within.not_computed);
    const Verdict& v = built.plan.verdicts.at(0);
    CHECK(v.blames_nothing);
    CHECK(v.after == std::vector<int>{0, 1});
    CHECK(v.then.index == 1);
}

TEST_CASE("the plan's head") {
    const Built built = plan_with("plan FAN-01 \"Fan\"\n  vehicle \"Tarn 1.6 hatch\"\n  complaint \"Still or slow\": "
                                  "M3 still or M3 slow\n  with key on, U1.47 on\n  code P0480\n"
                                  "  revision 3 2026-11-24\n  author \"Office\"\n  system 12 V\n  caution \"One,\"\n   "
                                  "       \"and on.\"\n  note \"n\"\n");
    const Plan& plan = built.plan;
    CHECK(plan.id + plan.title == "FAN-01Fan");
    CHECK(plan.complaint_states.any);
    CHECK(plan.complaint_with.items.size() == 2);
    CHECK(plan.codes == std::vector<std::string>{"P0480"});
    CHECK(plan.revision + " " + plan.date == "3 2026-11-24");
    CHECK(plan.system->si == doctest::Approx(12));
    CHECK(plan.cautions.at(0).text == "One, and on.");
    CHECK_FALSE(plan.broken);
}

TEST_CASE("a complaint that is a measurement; a planted fault's is a state and leaves the plan's alone") {
    const Built built = plan_with("plan FAN-01 \"Fan\"\n  complaint \"Flat in a week\": clamp G1.- above 50 mA\n");
    CHECK(built.plan.complaint_measure == MeasureKind::clamp);
    CHECK(built.plan.complaint_limit->low->si == doctest::Approx(0.05));
    const Built planted(circuit + "plant a M3 seized\n  complaint \"Hot\": volts G1.+ to G1.- below 10 V\n");
    CHECK(planted.places() == "LS203@23:20");
    CHECK(planted.plan.complaint_measure == MeasureKind::nothing);
}

TEST_CASE("planted faults and questions") {
    const Built built = plan_with("plant a \"Card A\" joint X21.1 2.2 ohm\n  how \"h\"\n  undo \"u\"\n  complaint "
                                  "\"Slow\": M3 slow\n  with key on\n  time 30 min, marks 10\n"
                                  "plant b W4 touches W1\nplant c K5.30/87 stuck open\nquestion q \"Why?\", marks 4, "
                                  "space 60 mm\n  answer 2.66 V ±3 %\n");
    const Plant& a = built.plan.plants.at(0);
    CHECK(a.label + a.title + a.how + a.undo + a.complaint == "aCard AhuSlow");
    CHECK(told(built, a.fault.at_point) == "joint X21.1");
    CHECK(a.fault.words == "2.2 ohm");
    CHECK(a.fault.value->si == doctest::Approx(2.2));
    CHECK(a.with.items.size() == 1);
    CHECK(a.marks == 10);
    CHECK(told(built, built.plan.plants.at(1).fault.other) == "whole W1");
    CHECK(built.plan.plants.at(2).fault.words == "stuck open");
    CHECK(built.plan.questions.at(0).expected->plus_minus.value() == doctest::Approx(0.0798));
    CHECK(built.plan.questions.at(0).space->si == doctest::Approx(0.06));
}

TEST_CASE("`use` and `also`: parts of another file, and phrases added to them") {
    const std::string house = "battery G1 12.6 V\nground XE1\nmodule U1 supply 15, ground 31\nconnector X1 4 pins, on "
                              "U1, map 1=15 2=31 3=47\naccess tray\n";
    const Built built(house, "use \"house.plan\"\nplan A-1 \"a\"\nalso U1 output 47 \"horn relay\" pulls down 0.5 A, "
                             "at \"bulkhead\"\nalso XE1 at \"left wing\"\n"
                             "wire W1 X1.2 -> XE1\ncheck a look \"x\" with U1.47 on\n");
    CHECK_MESSAGE(built.places() == "", built.said()); // a panel that the shared file has for other plans is no finding
    CHECK(built.part("U1").elements.at(0).name == "horn relay");
    CHECK(built.part("U1").place == "bulkhead");
    CHECK(built.part("XE1").place == "left wing");
    CHECK(built.mate("X1", "3") == "U1.47");
    CHECK(built.plan.checks.at(0).with.items.at(0).kind == ItemKind::output_on);

    const Built twice(house, "battery G1 12.6 V\n");
    CHECK(twice.said().find("`G1` is declared twice, in 2.plan and in 1.plan") != std::string::npos);
    const Built steps("check a look \"x\"\n", "plan A-1 \"a\"\n");
    CHECK(steps.said().find("a used file holds circuit statements only, not `check`") != std::string::npos);
    const Built unread("fuse F1 \"caf\xE9\" 10 A\n",
                       "wire W1 F1.1 -> F1.2\n"); // bad bytes: what it holds is not missed
    CHECK(unread.places() == "LS001@1:13");
}

TEST_CASE("paths of `use`, as written") {
    Sources sources;
    Findings findings;
    const auto file = sources.add("a.plan", "use \"common/house.plan\"\nuse\nuse \"b.plan\"\n");
    const auto paths = used_paths(sources, parse(sources, file, findings));
    REQUIRE(paths.size() == 2);
    CHECK(paths[0].text == "common/house.plan");
    CHECK(paths[1].text == "b.plan");
}
