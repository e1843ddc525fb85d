// Where a reading leads, by the rules of the language's page: for every measure, on paper and in the walk the same.
#include "faults/answers.hpp"
#include "faults/diagnosis.hpp"
#include "model/build.hpp"
#include "proof/rules.hpp"
#include "source/render.hpp"
#include "syntax/parse.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

const std::string circuit = R"(plan L-01 "Lamp is dark"
  complaint "The lamp is dark": E1 dark
  with S1 pressed
battery G1 12.6 V, inner 5 mohm
ground XE1
splice J1 "Bar", joins F1.1 F2.1
fuse F1 "Lamp" 15 A
fuse F2 "Radio" 10 A
switch S1 "Button"
  at rest
  at pressed 1/2
lamp E1 "Lamp" 1/2 21 W at 12 V
heater E2 "Heater" 1/2 2 ohm
connector X1 2 pins, on E1
wire W1 G1.+ -> J1 4 mm2 RD 0.4 m
wire W2 F1.2 -> S1.1 2.5 mm2 RD 1 m
wire W3 S1.2 -> X1.1 2.5 mm2 BU 2 m
wire W4 X1.2 -> XE1 2.5 mm2 BN 1 m
wire W5 G1.- -> XE1 16 mm2 BK 0.4 m
wire W6 F2.2 -> E2.1 1 mm2 RD 1 m
wire W7 E2.2 -> XE1 1 mm2 BN 1 m
)";

Plan read(const std::string& checks) {
    Sources sources;
    Findings errors;
    std::vector<Tree> trees;
    trees.push_back(parse(sources, sources.add("lamp.plan", circuit + checks), errors));
    Plan plan = build(sources, trees, errors);
    REQUIRE_MESSAGE(!errors.has_errors(), render_text(sources, errors, {}));
    return plan;
}

// "1 3": the outcomes from 1; behind the last of the plan stands the fail that it left out; "J" where it jumps.
std::string shown(const Check& check, OutcomeSet set) {
    std::string words;
    for (std::size_t i = 0; i <= check.outcomes.size(); ++i)
        if (set & outcome_bit(i)) words += (words.empty() ? "" : " ") + std::to_string(i + 1);
    return set & stop_bit ? words + "J" : words;
}

// The outcome of one reading of the first check's only row.
std::string at(const Plan& plan, Reading reading) {
    const Check& check = plan.checks.front();
    CheckPrediction made;
    RowPrediction row;
    row.reading = std::move(reading), row.limit = check.limits.front();
    made.turns.push_back({none, {row}});
    return shown(check, outcomes_of(check, made));
}
Reading number(double low, double high) {
    Reading reading;
    reading.kind = ReadingKind::number, reading.low = low, reading.high = high, reading.value = (low + high) / 2;
    return reading;
}
Reading of(ReadingKind kind) {
    Reading reading;
    reading.kind = kind;
    return reading;
}

// Of a car with a fault, at the first check.
std::string with(const Plan& plan, FaultKind kind, std::string_view part, std::string_view wire = "") {
    Fault fault;
    fault.kind = kind, fault.at_point.metal = Metal::whole;
    fault.at_point.part = part.empty() ? PartId{none} : plan.circuit.find_part(part);
    fault.at_point.wire = wire.empty() ? WireId{none} : plan.circuit.find_wire(wire);
    const Predictor sound(plan.circuit, system_volts(plan)), car(sound, fault, normal_use(plan));
    return shown(plan.checks.front(), outcomes_of(plan.checks.front(), predict_check(plan, car, plan.checks.front())));
}
std::string sound(const Plan& plan) {
    const Predictor car(plan.circuit, system_volts(plan));
    return shown(plan.checks.front(), outcomes_of(plan.checks.front(), predict_check(plan, car, plan.checks.front())));
}

} // namespace

TEST_CASE("a range: within, low, high; the ends are good; what may lie on both sides may be either") {
    const Plan plan = read("check a \"A\"\n volts X1.1 to X1.2\n expect 11 .. 13 V\n pass -> done\n low -> suspects\n high -> suspects\n");
    CHECK(at(plan, number(11, 13)) == "1");
    CHECK(at(plan, number(10, 10.9)) == "2");
    CHECK(at(plan, number(13.1, 14)) == "3");
    CHECK(at(plan, number(10.9, 11)) == "1 2");
    CHECK(at(plan, number(-12, -12)) == "2");
    CHECK(at(plan, number(5, 15)) == "1 2 3");
}

TEST_CASE("below in volts: with a minus the leads are swapped, and the size counts") {
    const Plan plan =
        read("check a \"A\"\n drop X1.2 to part G1.-\n expect below 0.15 V\n pass -> done\n 0.15 .. 3 V -> suspects\n fail -> suspects\n");
    CHECK(at(plan, number(0, 0.1)) == "1");
    CHECK(at(plan, number(-0.1, -0.1)) == "1");
    CHECK(at(plan, number(-0.66, -0.66)) == "3");
    CHECK(at(plan, number(0.2, 1)) == "2");
    CHECK(at(plan, number(4, 12)) == "3");
    CHECK(at(plan, number(0.1, 0.2)) == "1 2");
}

TEST_CASE("open is more ohms than any number, unless it has an outcome of its own") {
    const std::string check = "check a \"A\"\n with G1.- disconnected, X1 unplugged\n ohms X1.1 to ground\n";
    CHECK(at(read(check + " expect above 1 kohm\n pass -> done\n fail -> suspects\n"), of(ReadingKind::open)) == "1");
    CHECK(at(read(check + " expect above 1 kohm\n pass -> done\n open -> suspects\n fail -> suspects\n"), of(ReadingKind::open)) == "2");
    CHECK(at(read(check + " expect below 5 ohm\n pass -> done\n high -> suspects\n low -> suspects\n"), of(ReadingKind::open)) == "2");
    CHECK(at(read(check + " expect open\n pass -> done\n fail -> suspects\n"), of(ReadingKind::open)) == "1");
    CHECK(at(read(check + " expect open\n pass -> done\n fail -> suspects\n"), number(5, 6)) == "2");
    Reading either = number(5, 6);
    either.may_be_open = true;
    CHECK(at(read(check + " expect below 10 ohm\n pass -> done\n open -> suspects\n"), either) == "1 2");
}

TEST_CASE("against an earlier reading: that less so much, or more; too much only where the plan asks for it") {
    const std::string rest = "check a \"A\"\n with X1 unplugged\n volts X1.1 to X1.2\n expect within 0.5 V of b\n pass -> b\n";
    const std::string end = " fail -> suspects\ncheck b \"B\"\n volts part G1.+ to part G1.-\n expect above 12 V\n pass -> done\n";
    const auto differs = [](const Plan& plan, double by) {
        CheckPrediction made;
        RowPrediction row;
        row.reading = number(12, 12), row.difference = number(by, by), row.limit = plan.checks.front().limits.front();
        made.turns.push_back({none, {row}});
        return shown(plan.checks.front(), outcomes_of(plan.checks.front(), made));
    };
    CHECK(differs(read(rest + end), 0.2) == "1");
    CHECK(differs(read(rest + end), 0.9) == "1");
    CHECK(differs(read(rest + end), -0.9) == "2");
    CHECK(differs(read(rest + " high -> suspects\n" + end), 0.9) == "2");
}

TEST_CASE("a row's own fail goes before what holds for all rows") {
    const Plan plan = read("check a \"A\"\n volts \"One\" X1.1 to X1.2\n volts \"Two\" X1.1 to ground\n expect above 11 V\n pass -> done\n "
                           "low -> suspects\n fail \"One\" -> suspects\n");
    const Check& check = plan.checks.front();
    const auto rows = [&](double one, double two) {
        CheckPrediction made;
        RowPrediction first, second;
        first.name = "One", first.reading = number(one, one), first.limit = check.limits.front();
        second.name = "Two", second.reading = number(two, two), second.limit = check.limits.front();
        made.turns.push_back({none, {first, second}});
        return shown(check, outcomes_of(check, made));
    };
    CHECK(rows(12, 12) == "1");
    CHECK(rows(5, 12) == "3");
    CHECK(rows(12, 5) == "2");
    CHECK(rows(5, 5) == "3"); // the first that does not pass
}

TEST_CASE("no current counts where all rows are within: an open contact that is measured across is a fail of its row") {
    const Plan plan =
        read("check a \"A\"\n with S1 pressed\n drop \"Feed\" part G1.+ to X1.1\n drop \"Ground\" X1.2 to part G1.-\n expect below 0.5 V\n"
             " pass -> done\n fail \"Feed\" -> suspects\n fail \"Ground\" -> suspects\n no current -> suspects\n");
    CHECK(sound(plan) == "1");
    CHECK(with(plan, FaultKind::open, "", "W3") == "2");
    CHECK(with(plan, FaultKind::open, "", "W4") == "3");
    CHECK(with(plan, FaultKind::open, "E1") ==
          "1 4"); // in W1 the heater's current still flows: one sees it there, another sees none behind
    const Plan behind = read("check a \"A\"\n with S1 pressed\n drop F1.2 to X1.1\n expect below 0.5 V\n pass -> done\n fail -> suspects\n "
                             "no current -> suspects\n");
    CHECK(sound(behind) == "1");
    CHECK(with(behind, FaultKind::open, "E1") == "3"); // F1.2 and behind it nothing else flows
}

TEST_CASE("one of several fuses pulled, each in turn: the part whose pulling brings the reading down names the outcome") {
    const std::string check = "check a \"A\"\n with S1 pressed, one of F1 F2 pulled\n clamp G1.-\n expect below 2.5 A\n";
    const Plan named = read(check + " pass F1 -> suspects\n pass F2 -> suspects\n fail -> done\n");
    CHECK(sound(named) == "2"); // the lamp alone draws less, the heater alone more
    CHECK(with(named, FaultKind::open, "E2") == "1");
    CHECK(with(named, FaultKind::open, "E1") == "2");
    const Plan any = read(check + " pass -> done\n fail -> suspects\n");
    CHECK(sound(any) == "1");
}

TEST_CASE("a look: what the parts may be found doing decides, each answer where it holds, NO where none does") {
    const Plan plan =
        read("check a \"A\"\n with S1 pressed\n look \"Lamp\": E1 lit\n pass -> done\n \"dim\": E1 dim -> suspects\n fail -> suspects\n");
    CHECK(sound(plan) == "1");
    CHECK(with(plan, FaultKind::open, "", "W3") == "3");
    // A heater may get what it needs or not: YES and NO are both possible, for `works` as for `lit`.
    const Plan either = read("check a \"A\"\n look \"Heater\": E2 works\n pass -> done\n fail -> suspects\n");
    Fault poor;
    poor.kind = FaultKind::added, poor.at_point.metal = Metal::whole, poor.at_point.wire = either.circuit.find_wire("W6");
    poor.value.emplace(), poor.value->si = 0.2, poor.value->plus_minus = 0.15, poor.value->unit = find_unit("ohm");
    const Predictor car(either.circuit, 12), faulty(car, poor, normal_use(either));
    CHECK(shown(either.checks.front(), outcomes_of(either.checks.front(), predict_check(either, faulty, either.checks.front()))) == "1 2");
}

TEST_CASE("what no outcome names has a line of its own on paper, which leads to the suspects") {
    const std::string volts = "check a \"A\"\n volts X1.1 to X1.2\n";
    CHECK(leaves_something(read(volts + " expect 11 .. 13 V\n pass -> done\n low -> suspects\n").checks.front()));
    CHECK(!leaves_something(read(volts + " expect 11 .. 13 V\n pass -> done\n low -> suspects\n high -> suspects\n").checks.front()));
    CHECK(!leaves_something(read(volts + " expect above 11 V\n pass -> done\n low -> suspects\n").checks.front()));
    CHECK(leaves_something(read(volts + " expect below 1 V\n pass -> done\n 1 .. 3 V -> suspects\n").checks.front()));
    const std::string look = "check a \"A\"\n with S1 pressed\n look \"Lamp\"";
    CHECK(leaves_something(read(look + ": E1 lit\n pass -> done\n").checks.front()));
    CHECK(!leaves_something(
        read(look + ": E1 lit\n pass -> done\n \"dim\": E1 dim -> suspects\n \"dark\": E1 dark -> suspects\n").checks.front()));
    CHECK(leaves_something(read(look + "\n \"lit\": E1 lit -> done\n \"dark\": E1 dark -> suspects\n").checks.front()));
}
