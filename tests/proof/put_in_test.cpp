// Every fault that proof tries, in the words that proof prints, is put in by the command line as it is put in by proof;
// what cannot be put in is said.
#include "analysis/analysis.hpp"
#include "circuit/fault.hpp"
#include "faults/matrix.hpp"
#include "faults/prediction.hpp"
#include "model/build.hpp"
#include "proof/said.hpp"
#include "source/disk.hpp"
#include "syntax/parse.hpp"
#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>
#include <fmt/format.h>

using namespace loomsheet;

namespace {

std::vector<std::string> all_plans() {
    RealDisk disk;
    std::vector<std::string> all;
    for (const std::string folder : {"plans", "tests/plans"})
        for (std::string& path : disk.list(std::string(LOOMSHEET_ROOT) + "/" + folder, ".plan"))
            all.push_back(std::move(path));
    return all;
}

// The trees of a plan and of what it uses.
void load(Sources& sources, const std::string& path, std::vector<Tree>& trees, Findings& findings) {
    RealDisk disk;
    std::string text;
    REQUIRE(disk.read(path, text).empty());
    Tree tree = parse(sources, sources.add(path, text), findings);
    for (const Words& use : used_paths(sources, tree))
        load(sources, path.substr(0, path.rfind('/') + 1) + use.text, trees, findings);
    trees.push_back(std::move(tree));
}

bool near(double a, double b) { return std::abs(a - b) <= 1e-12 * std::max(std::abs(a), std::abs(b)); }

bool same(const Network& one, const Network& other) {
    if (one.branches != other.branches || one.parameters.size() != other.parameters.size()) return false;
    for (std::size_t i = 0; i < one.ends.size(); ++i)
        if (one.ends[i].a != other.ends[i].a || one.ends[i].b != other.ends[i].b) return false;
    for (std::size_t i = 0; i < one.parameters.size(); ++i) {
        const Parameter &a = one.parameters[i], &b = other.parameters[i];
        if (!near(a.low, b.low) || !near(a.value, b.value) || !near(a.high, b.high)) return false;
    }
    return true;
}

std::string asked(const std::string& plan, const std::string& fault) {
    MemoryDisk disk;
    disk.files["test.plan"] = plan;
    Sources sources;
    const Analysis made = analyse(sources, disk, {"test.plan", fault});
    return render_short(sources, made.findings, {false, 1000});
}

const std::string lamp = R"(plan LAMP-01 "Lamp stays dark"
  complaint "The lamp stays dark": E1 dark
  with S1 pressed
battery G1, 12.6 V
ground XE1 "Battery"
ground XE2 "Lamp"
fuse F1, 10 A
splice J1 "Joint in the loom"
switch S1 "Switch", at rest, at pressed 1/2
lamp E1 "Lamp", 1/2 21 W at 12 V
relay K1 "Spare", coil 86/85 85 ohm, contact 30/87/87a
wire W1 G1.- -> XE1 16 mm2 BK 0.4 m unfused
wire W2 G1.+ -> F1.1 2.5 mm2 RD 0.5 m
wire W3 F1.2 -> S1.1 2.5 mm2 RD 1 m
wire W4 S1.2 -> J1 1 mm2 BU 2 m
wire W6 J1 -> E1.1 1 mm2 BU 2 m
wire W7 J1 -> K1.86 1 mm2 BU 2 m
wire W8 K1.85 -> XE1 1 mm2 BN 2 m
wire W9 F1.2 -> K1.30 1 mm2 BU 2 m
wire W5 E1.2 -> XE2 1 mm2 BN 1 m
lamp E2 "Left", 1/2 5 W at 12 V
lamp E3 "Right", 1/2 5 W at 12 V
wire W10 K1.87 -> E2.1 1 mm2 BU 1 m
wire W11 K1.87a -> E3.1 1 mm2 BU 1 m
wire W12 E2.2 -> XE2 1 mm2 BN 1 m
wire W13 E3.2 -> XE2 1 mm2 BN 1 m
check g "Ground side"
  with S1 pressed
  drop E1.2 to part G1.-
  expect below 0.3 V
  pass -> done
)";

} // namespace

TEST_CASE("the words that proof prints of a fault put in that fault, with every plan") {
    std::size_t tried = 0;
    for (const std::string& path : all_plans()) {
        Sources sources;
        std::vector<Tree> trees;
        Findings findings;
        load(sources, path, trees, findings);
        const Plan plan = build(sources, trees, findings);
        if (plan.id.empty() || findings.has_errors()) continue;
        const Parameters parameters(plan.circuit, system_volts(plan));
        std::vector<Setup> setups = normal_use(plan);
        for (const Check& check : plan.checks)
            if (setups.size() < 8) setups.push_back(setup_of(check));
        for (const Candidate& each : all_faults(plan.circuit)) {
            const std::string words = fault_words(plan.circuit, each.fault);
            Findings said;
            const Tree tree = parse_fault(sources, sources.add("--fault", words), said);
            const Plan again = build(sources, trees, said, &tree);
            if (!again.asked || said.has_errors()) {
                FAIL_CHECK(path << ": " << words << ": " << render_short(sources, said, {}));
                continue;
            }
            CHECK_MESSAGE(again.asked->kind == each.fault.kind, words);
            ++tried;
            for (const Setup& setup : setups) {
                const Network sound = build_network(plan.circuit, parameters, setup);
                Network by_proof = sound, by_words = sound;
                const bool changes = put_in(plan.circuit, each.fault, by_proof);
                CHECK_MESSAGE(put_in(plan.circuit, *again.asked, by_words) == changes, words);
                CHECK_MESSAGE(same(by_proof, by_words), words);
                CHECK_MESSAGE(same(sound, by_words) == !changes, words);
            }
        }
    }
    CHECK(tried > 5000);
    MESSAGE(tried, " faults");
}

TEST_CASE("a ground point that is open opens its bolt, and a relay inside an assembly is named either way") {
    const auto changed = [](const std::string& text, const std::string& fault) {
        MemoryDisk disk;
        disk.files["test.plan"] = text;
        Sources sources;
        const Analysis made = analyse(sources, disk, {"test.plan", fault});
        REQUIRE_MESSAGE(made.usable(), render_short(sources, made.findings, {}));
        const Plan& plan = *made.plan;
        const Network sound = build_network(plan.circuit, Parameters(plan.circuit, 12), {});
        Network network = sound;
        put_in(plan.circuit, *plan.asked, network);
        std::string list;
        for (std::size_t i = 0; i < sound.branches.size(); ++i) {
            if (sound.branches[i] == network.branches[i]) continue;
            const Edge& edge = sound.graph.edges[i];
            list += fmt::format("{}{}", list.empty() ? "" : " ",
                                edge.part != none ? plan.circuit.parts[edge.part].id : plan.circuit.wires[edge.wire].id);
        }
        return list;
    };
    CHECK(changed(lamp, "XE2 open") == "XE2");
    CHECK(changed(lamp, "XE2 2 ohm") == "XE2");
    CHECK(changed(lamp, "W5 2 ohm") == "W5");
    CHECK(changed(lamp, "K1.30/87 stuck closed") == "K1 K1"); // one armature: 87a too
    CHECK(changed(lamp, "S1 stuck closed") == "S1");
    const std::string starter = lamp + R"(ground XE3 "Engine", on engine
assembly M1 "Starter", pins 30 50 31, 31 on XE3
relay K2 "Solenoid", coil 50/31 5 ohm, contact 30/45, in M1
motor M5 "Motor", 45/31 130 A, needs 9 V, in M1
wire W20 XE3 -> XE1 16 mm2 1 m unfused
wire W21 G1.+ -> M1.30 35 mm2 1 m unfused
switch S9 "Start", at rest, at pressed 1/2
wire W22 F1.2 -> S9.1 2.5 mm2 1 m
wire W23 S9.2 -> M1.50 2.5 mm2 1 m
)";
    CHECK(changed(starter, "M1.30/45 stuck closed") == "K2");
    CHECK(changed(starter, "K2.30/45 stuck closed") == "K2");
    CHECK(changed(starter, "M1 seized") == "M5");
    CHECK(asked(starter, "M1 open").find("`open` fits several things in M1") != std::string::npos);
}

TEST_CASE("what a fault cannot befall is said where it stands, with what to write instead") {
    const auto holds = [](const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; };
    const auto says = [&](const std::string& fault, std::string_view what) {
        const std::string said = asked(lamp, fault);
        CHECK_MESSAGE(holds(said, what), fault << ": " << said);
        CHECK_MESSAGE(holds(said, "--fault:"), said);
    };
    says("XE2 blown", "`blown` does not fit XE2, which is a ground point");
    says("F1 dead", "`dead` does not fit F1, which is a fuse");
    says("J1 open", "`open` does not fit J1, which is a splice");
    says("J1 5 ohm", "W4 5 ohm");
    says("E1 5 ohm", "joint E1.1 5 ohm");
    says("K1 stuck closed", "fits several things in K1");
    says("K1 stuck closed", "`K1.30/87a stuck closed`");
    says("S1 at left", "LS210");
    says("W4 3 .. 10 V", "LS206");
    says("W4 10 .. 3 ohm", "LS207");
    says("X99.1 open", "LS201");
    says("W4 touches W99", "LS201");
    says("nonsense", "LS1");
    says("marks 2", "this is no fault");
    says("W4 open\nplant two W5 open", "the fault ends before this");
    says("W4 open\nwire W5 W6", "--fault:2:1");
    says("W6 touches J1", "LS711"); // one metal
    says("W6 swapped with W6", "LS711");
    CHECK(asked(lamp, "W4 0.03 .. 0.1 ohm").empty());
    CHECK_MESSAGE(asked(lamp, "W4 3 ohm .. 10 kohm").empty(), asked(lamp, "W4 3 ohm .. 10 kohm"));
    CHECK(asked(lamp, "E1 shorted inside").empty());
}

TEST_CASE("a fault that changes nothing is said with its reason, a complaint that a sound car has, a state that nobody "
          "computes") {
    const auto said_of = [](const std::string& more, const std::string& from = "", const std::string& to = "") {
        std::string text = lamp;
        if (!from.empty()) text.replace(text.find(from), from.size(), to);
        return said::of(text + more);
    };
    const auto holds = [](const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; };
    CHECK(said_of("").empty());
    const std::string twin = said_of("switch S2 \"Main\", at on 1/2, at off\nlamp E4 1/2 5 W\nwire W30 F1.2 -> S2.1 1 "
                                     "mm2 1 m\nwire W31 S2.2 -> E4.1 1 mm2 1 m\nwire W32 E4.2 -> XE2 1 mm2 1 m\n"
                                     "plant a \"A\" S2 stuck closed\n");
    CHECK_MESSAGE(holds(twin, "LS711: S2 stuck closed changes nothing in any set-up of this plan: it conducts in all of them"), twin);
    const std::string lit = said_of("", "E1 dark", "E1 lit");
    CHECK_MESSAGE(holds(lit, "LS710: a sound car has this complaint already: E1 (Lamp) lit in this set-up"), lit);
    const std::string volts = said_of("", "E1 dark", "volts E1.1 to E1.2 below 12.6 V");
    CHECK_MESSAGE(holds(volts, "LS710: a sound car has this complaint already: it reads "), volts);
    const std::string of_switch = said_of("", "E1 dark", "S1 fails");
    CHECK_MESSAGE(holds(of_switch, "LS310: the complaint tells no fault from another: S1 (Switch) has no state that is computed"),
                  of_switch);
    const std::string look = said_of("check h \"Switch\"\n  look \"It clicks\": S1 works\n  pass -> done\n  exercise\n");
    CHECK_MESSAGE(holds(look, "LS310: 'h' proves nothing: S1 (Switch) has no state that is computed"), look);
}

namespace {
// The words of the faults that can cause the complaint, and of those that cannot.
struct Causes {
    std::vector<std::string> can, cannot;
    explicit Causes(const std::string& text) {
        MemoryDisk disk;
        disk.files["test.plan"] = text;
        Sources sources;
        const Analysis made = analyse(sources, disk, {"test.plan"});
        REQUIRE_MESSAGE(made.usable(), render_short(sources, made.findings, {}));
        const Plan& plan = *made.plan;
        const Predictor sound(plan.circuit, system_volts(plan));
        const Matrix matrix = fault_matrix(plan, sound, *made.prediction);
        for (const Candidate& each : matrix.faults)
            can.push_back(fault_words(plan.circuit, each.fault));
        for (const Candidate& each : matrix.harmless)
            cannot.push_back(fault_words(plan.circuit, each.fault));
    }
    bool has(const std::vector<std::string>& list, const std::string& words) const {
        return std::find(list.begin(), list.end(), words) != list.end();
    }
};

const std::string window = R"(plan WINDOW-01 "Window stays cold"
  complaint "The window stays cold": E9 fails
  with key on, S6 pressed
battery G1 "Battery", 12.6 V, inner 6 mohm
fuse    F1 "Window", 30 A
fuse    F7 "Timer", 7.5 A
switch  S1 "Key", 30/15 closed when key on
switch  S6 "Button", at rest, at pressed 1/2
relay   K8 "Relay", coil 86/85 85 ohm, contact 30/87
module  U2 "Timer", supply 15, ground 31, draws 50 mA when key on
  input S 10 kohm
  output R "relay" pulls down 0.5 A follows S6
heater  E9 "Grid", 1/2 1.2 ohm
ground  XE1 "Left wing"
wire W1 G1.+  -> F1.1 6 mm2 RD 0.5 m
wire W2 F1.1  -> S1.30 4 mm2 RD 1 m rated 60 A unfused
wire W3 S1.15 -> F7.1 2.5 mm2 BK 0.5 m unfused
wire W4 F7.2  -> K8.86 0.75 mm2 BK 0.5 m
wire W5 F7.2  -> U2.15 0.75 mm2 BK 0.5 m
wire W6 F7.2  -> S6.1 0.75 mm2 BK 0.5 m
wire W7 S6.2  -> U2.S 0.75 mm2 BU 0.5 m
wire W8 U2.R  -> K8.85 0.75 mm2 BN/WH 0.5 m
wire W9 U2.31 -> XE1 1 mm2 BN 0.5 m
wire W10 F1.2 -> K8.30 6 mm2 RD 0.5 m
wire W11 K8.87 -> E9.1 6 mm2 BK 2 m
wire W12 E9.2 -> XE1 6 mm2 BN 1 m
wire W13 G1.- -> XE1 16 mm2 BK 0.4 m
check relay "Relay clicks, button pressed"
  with key on, S6 pressed
  look "K8 clicks": K8 works
  pass -> suspects
  fail -> input
check input "Button signal at the timer"
  with key on, S6 pressed
  volts U2.S to G1.-
  expect above 10 V
  pass -> suspects
  fail -> button-bad
verdict button-bad "Button or its wires"
  blames S6 W6 W7 joint S6.1 joint S6.2 joint U2.S
  repair "Mend"
  after relay
)";

std::string starter(const std::string& complaint, const std::string& look) {
    return R"(plan STARTER-01 "Starter stands still"
  complaint "Nothing turns": )" +
           complaint + R"(
  with key crank
battery G1, 12.6 V, inner 6 mohm
ground XE1 "Body"
ground XE2 "Engine", on engine
wire W1 G1.- -> XE2 35 mm2 BK 0.7 m unfused
wire W2 XE2 -> XE1 16 mm2 BK 0.7 m unfused
wire W3 G1.+ -> M1.30 35 mm2 RD 1 m unfused
wire W4 G1.+ -> F1.1 6 mm2 RD 1 m
fuse F1, 30 A
wire W5 F1.2 -> S1.30 6 mm2 RD 1 m
switch S1 "Key", 30/50 closed when key crank
wire W6 S1.50 -> M1.50 4 mm2 BK 1 m
assembly M1 "Starter", pins 30 50 31, 31 on XE2
relay K2 "Solenoid", coil 50/31 0.5 ohm, contact 30/45, in M1
motor M5 "Motor", 45/31 130 A, needs 9 V, in M1
fuse F9 "Radio", 5 A
wire W9 G1.+ -> F9.1 1 mm2 RD 1 m
lamp E9 "Radio lamp", 1/2 5 W at 12 V
wire W10 F9.2 -> E9.1 1 mm2 RD 1 m
wire W11 E9.2 -> XE1 1 mm2 BN 1 m
check turns "Does it turn?"
  with key crank
  look "It turns": )" +
           look + R"(
  pass -> sound
  fail -> bad
verdict sound "Sound"
  blames nothing
verdict bad "Bad"
  blames M1 W1 W3 W4 W5 W6 F1 S1 G1 XE2
)";
}
} // namespace

TEST_CASE("a button that is dead can cause what its unit does not do, and a check of its signal finds it") {
    const Causes causes(window);
    for (const std::string fault : {"W6 open", "W7 open", "joint S6.1 open", "joint S6.2 open", "joint U2.S open", "S6.1/2 stuck open",
                                    "W7 touches ground", "U2.S open inside", "U2.R never on", "U2 dead"})
        CHECK_MESSAGE(causes.has(causes.can, fault), fault);
    for (const std::string fault : {"S6.1/2 stuck closed", "W7 10 .. 30 mohm", "U2.R always on"})
        CHECK_MESSAGE(causes.has(causes.cannot, fault), fault);
    CHECK(said::of(window).find("LS704") == std::string::npos);
}

TEST_CASE("an assembly is in the state of what works in it") {
    const Causes of_starter(starter("M1 still", "M1 runs")), of_motor(starter("M5 still", "M5 runs"));
    CHECK(of_starter.can == of_motor.can);
    CHECK(of_starter.cannot == of_motor.cannot);
    CHECK(of_starter.has(of_starter.cannot, "F9 blown"));
    CHECK(said::of(starter("M1 still", "M1 runs")) == said::of(starter("M5 still", "M5 runs")));
    std::string two = starter("M1 still", "M5 runs");
    two.insert(two.find("fuse F9"), "motor M6 \"Second\", 45/31 10 A, in M1\n");
    CHECK_MESSAGE(said::of(two).find("LS203: M1 holds M5 and M6: which of them is meant?") != std::string::npos, said::of(two));
}
