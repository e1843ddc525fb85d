// `predict`: readings of a sound car, or with a fault that is named as a plan names it.
#include "commands/run.hpp"
#include "scratch.hpp"
#include <doctest/doctest.h>
#include <nlohmann/json.hpp>
#include <sstream>

using namespace loomsheet;

namespace {
struct Said {
    Exit exit;
    std::string out, err;
};
Said predicted(std::vector<const char*> words) {
    MemoryDisk disk;
    disk.files["fan.plan"] = read_file(LOOMSHEET_ROOT "/plans/cooling/fan.plan");
    disk.files["lamp.plan"] = R"(plan LAMP-01 "Lamp stays dark"
  complaint "Dark": E1 dark
  with S1 pressed
battery G1, 12.6 V
ground XE1 "Battery"
ground XE2 "Lamp"
fuse F1, 10 A
switch S1 "Switch", at rest, at pressed 1/2
lamp E1 "Lamp", 1/2 21 W at 12 V
wire W1 G1.- -> XE1 16 mm2 BK 0.4 m unfused
wire W2 G1.+ -> F1.1 2.5 mm2 RD 0.5 m
wire W3 F1.2 -> S1.1 2.5 mm2 RD 1 m
wire W4 S1.2 -> E1.1 1 mm2 BU 2 m
wire W5 E1.2 -> XE2 1 mm2 BN 1 m
check ground-drop "Ground side"
  with S1 pressed
  drop E1.2 to part G1.-
  expect below 0.3 V
  pass -> done
)";
    disk.files["broken.plan"] = "plan A-01 \"x\"\nbattery\n";
    words.insert(words.begin(), {"loomsheet", "predict"});
    std::ostringstream out, err;
    const Exit exit = run(static_cast<int>(words.size()), words.data(), {disk, out, err});
    return {exit, out.str(), err.str()};
}
std::string line_of(const std::string& text, std::string_view beginning) {
    std::istringstream lines{text};
    for (std::string line; std::getline(lines, line);)
        if (line.find(beginning) != std::string::npos) return line;
    return {};
}
bool holds(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }
} // namespace

TEST_CASE("the fan plan: each check with its points, its range, its limit and how they fit") {
    const Said said = predicted({"fan.plan"});
    CHECK(said.exit == Exit::clean);
    CHECK(said.err.empty());
    CHECK(said.out.starts_with("FAN-01 Radiator fan does not run: sound\n"));
    CHECK(holds(line_of(said.out, "coil-side"), "K5.86 to K5.85"));
    CHECK(holds(line_of(said.out, "fan-runs"), "look"));
    CHECK(holds(line_of(said.out, "Contact 1"), "X30.1 to X31.1"));
    CHECK(line_of(said.out, "Contact 1").ends_with("passes"));
}

TEST_CASE("with 5 ohm in a joint of the feed the drop over it fails") {
    const Said said = predicted({"--fault", "joint X30.1 5 ohm", "fan.plan"});
    CHECK(said.exit == Exit::clean);
    CHECK(said.err.empty());
    CHECK(holds(said.out, ": joint X30.1 5 ohm\n"));
    CHECK(line_of(said.out, "Contact 1").ends_with("fails"));
    CHECK(holds(line_of(said.out, "fan-called"), " no"));
}

TEST_CASE("a ground point, and all that proof prints, is put in") {
    const Said open = predicted({"--fault", "XE2 open", "lamp.plan"});
    CHECK(open.exit == Exit::clean);
    CHECK(holds(open.out, ": XE2 open\n"));
    CHECK(line_of(predicted({"lamp.plan"}).out, "ground-drop").ends_with("passes"));
    CHECK(line_of(open.out, "ground-drop").ends_with("fails"));
    CHECK(holds(line_of(open.out, "ground-drop"), "12.6 V"));
    for (const char* fault : {"U1 dead", "U1.47 never on", "U1.47 always on", "M3.1/2 shorted inside", "G1 weak", "W10 0.3 .. 1 ohm",
                              "joint X30.1 100 ohm .. 10 kohm"})
        CHECK_MESSAGE(predicted({"--fault", fault, "fan.plan"}).exit == Exit::clean, fault);
}

TEST_CASE("a short to the body has blown its fuse before the first check") {
    const Said said = predicted({"--fault", "W7 touches ground", "fan.plan"});
    CHECK(said.exit == Exit::clean);
    CHECK(holds(said.out, "F14 (Fan) has blown before the first check.\n"));
}

TEST_CASE("a fault that cannot be, and a plan with errors, are told at their place") {
    const Said fault = predicted({"--fault", "X99.1 open", "fan.plan"});
    CHECK(fault.exit == Exit::errors);
    CHECK(holds(fault.err, "LS201"));
    CHECK(fault.out.empty());
    CHECK(predicted({"--fault", "nonsense", "fan.plan"}).exit == Exit::errors);
    const Said two = predicted({"--fault", "W7 open\nwire W99 K5.30 -> K5.87", "fan.plan"});
    CHECK(two.exit == Exit::errors);
    CHECK_MESSAGE(holds(two.err, "--fault:2:1"), two.err);
    CHECK(predicted({"broken.plan"}).exit == Exit::errors);
    CHECK(predicted({"missing.plan"}).exit == Exit::usage);
}

TEST_CASE("for programs: readings, outcomes and what has blown, alone on its stream") {
    const Said said = predicted({"--format", "json", "--fault", "joint X30.1 5 ohm", "fan.plan"});
    CHECK(said.err.empty());
    const nlohmann::json all = nlohmann::json::parse(said.out);
    const nlohmann::json& fan = all.at("plans").at(0);
    CHECK(fan.at("fault") == "joint X30.1 5 ohm");
    CHECK(fan.at("blown").empty());
    for (const nlohmann::json& check : fan.at("checks")) {
        if (check.at("check") == "fan-called") CHECK(check.at("look") != "yes");
        if (check.at("check") != "drops") continue;
        CHECK(check.at("rows").at(2).at("fit") == "fails");
        CHECK(check.at("rows").at(2).at("amps").get<double>() < 5);
        CHECK(check.at("rows").at(1).at("fit") == "passes");
    }
    CHECK(nlohmann::json::parse(predicted({"--format", "json", "fan.plan"}).out).at("plans").at(0).at("fault").is_null());
    CHECK(nlohmann::json::parse(predicted({"--format", "json", "broken.plan"}).out).at("findings").size() > 0);
}

TEST_CASE("a look says which of its answers holds, a drop how much flows, a limit of some millivolts gets its thousandths") {
    const Said said = predicted({"--fault", "joint X30.1 2.2 ohm", "fan.plan"});
    CHECK(holds(line_of(said.out, "fan-called"), "\"runs, but slowly\""));
    CHECK(holds(line_of(said.out, "Contact 1"), " A "));
}
