// The plans that are shipped, and those of the tests, drawn.
#include "drawn.hpp"
#include <chrono>
#include <doctest/doctest.h>
#include <set>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

std::set<std::string> numbers_in(const std::vector<Picture>& pictures) {
    std::set<std::string> numbers;
    for (const Picture& picture : pictures)
        for (const drawing::Words& words : picture.words)
            if (words.type == drawing::Type::number) numbers.insert(words.text);
    return numbers;
}
std::string words_in(const std::vector<Picture>& pictures) {
    std::string all;
    for (const Picture& picture : pictures)
        for (const drawing::Words& words : picture.words)
            all += words.text + "\n";
    return all;
}

} // namespace

TEST_CASE("all plans are drawn whole, with nothing on anything else") {
    const std::vector<std::string> paths = drawn::all_plans();
    CHECK(paths.size() > 30);
    for (const std::string& path : paths) {
        CAPTURE(path);
        const Plan plan = drawn::plan_file(path);
        drawn::check_whole(plan, drawn::circuit(plan));
    }
}

TEST_CASE("they are drawn so on small paper too") {
    constexpr Area a5{126, 170, 9};
    for (const std::string& path : drawn::all_plans()) {
        CAPTURE(path);
        const Plan plan = drawn::plan_file(path);
        drawn::check_whole(plan, drawn::circuit(plan, a5), a5);
    }
}

TEST_CASE("every check that probes has its number in the drawing") {
    for (const std::string& path : drawn::all_plans()) {
        CAPTURE(path);
        const Plan plan = drawn::plan_file(path);
        const std::set<std::string> numbers = numbers_in(drawn::circuit(plan));
        std::set<std::string> wanted;
        for (const auto& [pin, checks] : drawn::probes(plan).pins)
            for (const int check : checks)
                wanted.insert(std::to_string(check));
        for (const auto& [wire, checks] : drawn::probes(plan).wires)
            for (const int check : checks)
                wanted.insert(std::to_string(check));
        CHECK(numbers == wanted);
    }
}

TEST_CASE("a plan is drawn the same each time") {
    for (const char* path : {"/plans/cooling/fan.plan", "/plans/trailer/socket-13.plan"}) {
        const Plan plan = drawn::plan_file(LOOMSHEET_ROOT + std::string(path));
        CHECK(drawn::dump(drawn::circuit(plan)) == drawn::dump(drawn::circuit(plan)));
    }
}

TEST_CASE("the fan's circuit: one page, plus above ground, names, ratings, places, colours and sizes") {
    const Plan plan = drawn::plan_file(LOOMSHEET_ROOT + std::string("/plans/cooling/fan.plan"));
    const std::vector<Picture> pictures = drawn::circuit(plan, {180, 250, 9});
    REQUIRE(pictures.size() == 1);
    const std::string words = words_in(pictures);
    for (const char* each : {"K5\n", "Fan relay\n", "F14\n", "40 A\n", "X21.1\n", "87\n", "BU/WH\n", "W8  6\n", "XE1\n", "Left wing\n",
                             "below the battery tray\n"})
        CHECK_MESSAGE(words.find(each) != std::string::npos, each);
    double plus = 0, ground = 0;
    for (const drawing::Words& each : pictures[0].words) {
        if (each.text == "F1") plus = each.y;
        if (each.text == "XE1") ground = each.y;
    }
    CHECK(plus < 50);
    CHECK(ground > 200);
}

TEST_CASE("colours have capitals of 3 mm, nothing is below 9 pt") {
    CHECK(drawing::height_of(drawing::Type::colour) >= 3);
    for (const drawing::Type type : {drawing::Type::designator, drawing::Type::number, drawing::Type::small, drawing::Type::small_bold})
        CHECK(size_of(type) >= 9);
}

TEST_CASE("what is too large for a page goes on, and says where") {
    const Plan plan = drawn::plan_file(LOOMSHEET_ROOT + std::string("/plans/trailer/socket-13.plan"));
    const std::vector<Picture> pictures = drawn::circuit(plan, {180, 250, 9});
    REQUIRE(pictures.size() > 1);
    CHECK(words_in({pictures[0]}).find("to circuit ") != std::string::npos);
    CHECK(words_in({pictures.begin() + 1, pictures.end()}).find("from circuit 1") != std::string::npos);
}
