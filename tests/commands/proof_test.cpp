// `proof`: the answer first, the matrix, and all of it for programs.
#include "commands/run.hpp"
#include "scratch.hpp"
#include <algorithm>
#include <cstdlib>
#include <doctest/doctest.h>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

using namespace loomsheet;

namespace {
struct Said {
    Exit exit;
    std::string out, err;
};
Said proved(std::vector<const char*> words) {
    MemoryDisk disk;
    disk.files["fan.plan"] = read_file(LOOMSHEET_ROOT "/plans/cooling/fan.plan");
    disk.files["fan-usual.plan"] = read_file(LOOMSHEET_ROOT "/plans/cooling/fan-usual.plan");
    disk.files["broken.plan"] = "plan A-01 \"x\"\nbattery\n";
    words.insert(words.begin(), {"loomsheet", "proof"});
    std::ostringstream out, err;
    const Exit exit = run(static_cast<int>(words.size()), words.data(), {disk, out, err});
    return {exit, out.str(), err.str()};
}
bool holds(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }
} // namespace

TEST_CASE("the answer comes first, then what stands behind it") {
    const Said said = proved({"fan.plan"});
    CHECK(said.exit == Exit::clean);
    CHECK(
        said.out.starts_with("FAN-01 Radiator fan does not run\nOf 100 cars with this complaint, this plan surely names the fault on 96;"));
    for (const char* part : {"Every verdict holds", "told apart ", "first try ", "longest way  battery-rest, fan-called",
                             "nothing is blamed on it", "Surely found: "})
        CHECK_MESSAGE(holds(said.out, part), part);
    CHECK(!holds(said.out, "? may pass or not"));
}

TEST_CASE("the matrix has a line for the sound car and one for each kind of fault") {
    const Said said = proved({"--matrix", "fan.plan"});
    CHECK(holds(said.out, "? may pass or not"));
    std::istringstream lines{said.out};
    std::string sound, feed;
    for (std::string line; std::getline(lines, line);) {
        if (line.ends_with("  sound")) sound = line;
        if (holds(line, "W7 (open or more than 10 ohm)")) feed = line;
    }
    REQUIRE(!sound.empty());
    REQUIRE(!feed.empty());
    CHECK(sound.starts_with(".   .   .   ."));
    // W7 is the feed behind the relay: the battery rests well, the fan is still, the relay clicks, the plug has no feed, and of the
    // drops the second, battery to X30, is high.
    CHECK(feed.starts_with(".   N   .   X   X2  "));
}

TEST_CASE("for programs: figures, readings, every fault with its cells and its ends") {
    const Said said = proved({"--format", "json", "fan.plan", "broken.plan"});
    CHECK(said.exit == Exit::errors);
    const nlohmann::json all = nlohmann::json::parse(said.out);
    REQUIRE(all.at("plans").size() == 1); // the broken one has findings only
    CHECK(!all.at("findings").empty());
    const nlohmann::json& fan = all.at("plans").at(0);
    CHECK(fan.at("id") == "FAN-01");
    CHECK(fan.at("figures").at("found").get<double>() > 0.95);
    CHECK(fan.at("figures").at("to_one").get<double>() <= fan.at("figures").at("to_two").get<double>());
    const std::size_t checks = fan.at("checks").size();
    for (const nlohmann::json& fault : fan.at("faults")) {
        CHECK(fault.at("cells").size() == checks);
        CHECK(!fault.at("endings").empty());
        CHECK(fault.at("fate") != "wrong");
    }
    for (const nlohmann::json& small : fan.at("small_faults"))
        CHECK(small.at("harm_from").get<double>() > 0);
    CHECK(fan.at("gaps").empty());
    const nlohmann::json& split = fan.at("splits").at(0);
    CHECK(split.at("verdict") == "main-box-bad");
    CHECK(split.at("pass_leaves").size() < split.at("leaves").size());
    CHECK(split.at("check").get<std::string>().starts_with("check split-main-box-bad "));
    const nlohmann::json& rest = fan.at("checks").at(0);
    CHECK(rest.at("check") == "battery-rest");
    CHECK(rest.at("rows").at(0).at("low").get<double>() < 12.6);
    CHECK(rest.at("rows").at(0).at("high").get<double>() > 12.6);
}

TEST_CASE("the usual way to test the fan: what it misses and why stands on one page, beside the plan") {
    constexpr std::ptrdiff_t page = 70; // lines
    const std::string path = LOOMSHEET_ROOT "/plans/cooling/fan-usual.proof.txt";
    const Said said = proved({"fan-usual.plan"});
    CHECK(said.exit == Exit::clean); // warnings
    const std::string now = said.out.substr(said.out.find("FAN-02"));
    if (std::getenv("LOOMSHEET_REFRESH") != nullptr) std::ofstream(path, std::ios::binary) << now;
    CHECK_MESSAGE(now == read_file(path), "run this test with LOOMSHEET_REFRESH=1, then read the difference");
    const std::size_t cures = now.find("Of 100 cars, "); // checks to paste, after the page
    REQUIRE(cures != std::string::npos);
    CHECK(std::count(now.begin(), now.begin() + static_cast<std::ptrdiff_t>(cures), '\n') <= page);
    // The beeper passes what starves the motor, the relay is found by nobody, the motor is blamed for what it has not done.
    for (const char* part : {"on 64 it may blame something else", "K5 (Fan relay)    0 %", "motor-bad   3", "-beep"})
        CHECK_MESSAGE(holds(now, part), part);
}
