#include "commands/gather.hpp"
#include <doctest/doctest.h>

using namespace loomsheet;

TEST_CASE("a folder stands for all its plans, sorted, with those of the folders in it") {
    MemoryDisk disk;
    for (const char* path : {"plans/z.plan", "plans/cooling/fan.plan", "plans/readme.md", "other.plan"})
        disk.files[path] = "";
    const auto gathered = gather(disk, {"other.plan", "plans", "-"});
    CHECK(gathered.error.empty());
    CHECK(gathered.plans == std::vector<std::string>{"other.plan", "plans/cooling/fan.plan", "plans/z.plan", "-"});
}

TEST_CASE("a plan named twice is taken once") {
    MemoryDisk disk;
    disk.files["plans/fan.plan"] = "";
    CHECK(gather(disk, {"plans/fan.plan", "plans", "plans/", "./plans/fan.plan", "plans/../plans/fan.plan"}).plans ==
          std::vector<std::string>{"plans/fan.plan"});
}

TEST_CASE("a folder without a plan is refused by its name") {
    MemoryDisk disk;
    disk.files["notes/readme.md"] = "";
    CHECK(gather(disk, {"notes"}).error == "there is no file ending in .plan in the folder notes");
}

TEST_CASE("a sheet is named after its plan") {
    CHECK(sheet_path(".", "plans/cooling/fan.plan") == "fan.pdf");
    CHECK(sheet_path("out", "fan.v2.plan") == "out/fan.v2.pdf");
    CHECK(sheet_path("out/", "fan") == "out/fan.pdf");
    CHECK(sheet_path("out", "-") == "out/standard-input.pdf");
}

TEST_CASE("two plans that would print into one file are named") {
    CHECK(clash("out", {"a/fan.plan", "b/pump.plan"}).empty());
    const std::string says = clash("out", {"a/fan.plan", "b/pump.plan", "b/fan.plan"});
    for (const char* word : {"a/fan.plan", "b/fan.plan", "out/fan.pdf"})
        CHECK(says.find(word) != std::string::npos);
}
