// Cars with one fault each, their values drawn over the whole of their tolerances, on the plans that ship and on plans that are drawn.
#include "oracle/program.hpp"
#include <algorithm>
#include <doctest/doctest.h>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <sstream>

using namespace oracle;

namespace {

std::vector<std::string> shipped() {
    std::vector<std::string> files;
    for (const auto& each : std::filesystem::recursive_directory_iterator(LOOMSHEET_ROOT "/plans"))
        if (each.path().extension() == ".plan") files.push_back(each.path().string());
    std::sort(files.begin(), files.end());
    return files;
}

// Shares `cars` among the plans that ship; a few more are drawn, for some faults are too small to be complained of. Of what can be planted
// every `nth` thing is asked of `predict`.
void walk_shipped(std::uint64_t seed, std::size_t cars, std::size_t sound, std::size_t nth) {
    const std::vector<std::string> files = shipped();
    std::size_t walked = 0;
    for (const std::string& file : files) {
        const Json all = prove(file);
        REQUIRE(all.at("plans").size() == 1);
        Asked asked;
        asked.seed = seed, asked.cars = cars / files.size() * 6 / 5, asked.sound_cars = sound, asked.each_harmless = 1,
        asked.old_batteries = 0;
        Opinion opinion = second_opinion(all.at("plans").front(), asked);
        hold_against_planted(all.at("plans").front(), file, seed, opinion, seed % nth, nth);
        std::ostringstream words;
        print(words, std::filesystem::path(file).filename().string(), opinion);
        CHECK_MESSAGE(opinion.disagreements.empty(), words.str());
        MESSAGE(words.str().substr(0, words.str().find('\n')));
        walked += opinion.walked;
    }
    CHECK(walked >= cars);
}

void walk_drawn(std::uint64_t first, std::size_t plans, std::size_t cars) {
    std::ostringstream said;
    const Drawn drawn = hold_against_random(first, plans, cars, said);
    for (const std::string& each : drawn.refused)
        CHECK_MESSAGE(false, "plan " << each);
    CHECK_MESSAGE(drawn.disagree.empty(), said.str());
    MESSAGE(drawn.plans << " plans, " << drawn.cars << " cars");
}

} // namespace

TEST_CASE("8000 cars on the plans that ship end where proof says") { walk_shipped(1, 8000, 60, 12); }
TEST_CASE("Small circuits that are drawn") { walk_drawn(1, 10, 200); }

TEST_SUITE("at length") { // run by `tests/run all`
    TEST_CASE("100000 further cars on each plan that ships") { walk_shipped(2, 400000, 2000, 1); }
    TEST_CASE("500 small circuits that are drawn") { walk_drawn(1000, 500, 200); }
}
