#include "scratch.hpp"
#include "source/disk.hpp"
#include <doctest/doctest.h>
#include <filesystem>
#include <sys/stat.h>
#include <unistd.h>

using namespace loomsheet;
namespace fs = std::filesystem;

namespace {
std::string read_back(const std::string& path) {
    std::string text;
    CHECK(RealDisk().read(path, text) == "");
    return text;
}
} // namespace

TEST_CASE("what is written whole is read back whole, and nothing is left beside it") {
    const Scratch folder;
    RealDisk disk;
    const std::string large(3'000'000, 'x');
    CHECK(disk.write_whole(folder / "a.pdf", large) == "");
    CHECK(read_back(folder / "a.pdf") == large);
    CHECK(disk.write_whole(folder / "a.pdf", "short") == "");
    CHECK(read_back(folder / "a.pdf") == "short");
    CHECK(disk.write_whole(folder / "empty", "") == "");
    CHECK(read_back(folder / "empty").empty());
    CHECK(folder.count() == 2);
}

TEST_CASE("a new file gets the usual rights, an old one keeps its own") {
    const Scratch folder;
    RealDisk disk;
    struct stat state {};
    const mode_t usual = 0666U & ~umask(022);
    umask(022);
    CHECK(usual != 0);
    CHECK(disk.write_whole(folder / "a", "x") == "");
    REQUIRE(stat((folder / "a").c_str(), &state) == 0);
    CHECK((state.st_mode & 0777U) == 0644U);
    REQUIRE(chmod((folder / "a").c_str(), 0600) == 0);
    CHECK(disk.write_whole(folder / "a", "y") == "");
    REQUIRE(stat((folder / "a").c_str(), &state) == 0);
    CHECK((state.st_mode & 0777U) == 0600U);
}

TEST_CASE("a link stays a link, what it points at is replaced") {
    const Scratch folder;
    RealDisk disk;
    CHECK(disk.write_whole(folder / "real", "old") == "");
    fs::create_symlink("real", folder / "link");
    CHECK(disk.write_whole(folder / "link", "new") == "");
    CHECK(fs::is_symlink(folder / "link"));
    CHECK(read_back(folder / "real") == "new");
}

TEST_CASE("what cannot be written names its path and the reason, and leaves the old file alone") {
    const Scratch folder;
    RealDisk disk;
    CHECK(disk.write_whole(folder / "no-such-folder/a", "x") ==
          folder / "no-such-folder/a" + " cannot be written: there is no such file or folder");
    CHECK(disk.write_whole(folder.path.string(), "x") == folder.path.string() + " cannot be written: it is a folder");
    CHECK(disk.write_whole(folder / "file", "old") == "");
    CHECK(disk.write_whole(folder / "file/a", "x") == folder / "file/a" + " cannot be written: a part of its path is a file, not a folder");
    CHECK(disk.make_directory(folder / "file/b") != "");
    CHECK(disk.make_directory(folder / "file") ==
          "the folder " + folder / "file" + " cannot be made: a part of its path is a file, not a folder");
    CHECK(read_back(folder / "file") == "old");
    CHECK(folder.count() == 1);
}

TEST_CASE("devices are written as they are; a full one says so") {
    const Scratch folder;
    RealDisk disk;
    CHECK(disk.write_whole("/dev/null", "x") == "");
    CHECK(fs::is_character_file("/dev/null"));
    CHECK(disk.write_whole("/dev/full", "x") == "/dev/full cannot be written: the disk is full");
    fs::create_symlink("/dev/full", folder / "a.pdf");
    CHECK(disk.write_whole(folder / "a.pdf", "x") == folder / "a.pdf" + " cannot be written: the disk is full");
    CHECK(folder.count() == 1);
}

TEST_CASE("what cannot be read names its path and the reason") {
    const Scratch folder;
    RealDisk disk;
    std::string text = "left over";
    CHECK(disk.read(folder / "none", text) == folder / "none" + " cannot be read: there is no such file or folder");
    CHECK(text.empty());
    CHECK(disk.read(folder.path.string(), text) == folder.path.string() + " cannot be read: it is a folder");
    CHECK(disk.write_whole(folder / "file", "x") == "");
    CHECK(disk.read(folder / "file/a", text) == folder / "file/a" + " cannot be read: a part of its path is a file, not a folder");
    CHECK(disk.read("/dev/zero", text) == "/dev/zero cannot be read: it is larger than a gigabyte");
}

TEST_CASE("pipes are read to their end") {
    int ends[2];
    REQUIRE(pipe(ends) == 0);
    REQUIRE(write(ends[1], "through a pipe", 14) == 14);
    close(ends[1]);
    CHECK(read_back("/dev/fd/" + std::to_string(ends[0])) == "through a pipe");
    close(ends[0]);
}

TEST_CASE("a folder lists its plans and those of the folders in it, sorted") {
    const Scratch folder;
    RealDisk disk;
    CHECK(disk.make_directory(folder / "b/c") == "");
    CHECK(disk.is_directory(folder / "b/c"));
    for (const char* name : {"z.plan", "b/a.plan", "b/c/y.plan", "b/readme.md"})
        disk.write_whole(folder / name, "x");
    disk.make_directory(folder / "not-a-file.plan");
    CHECK(disk.list(folder.path.string(), ".plan") ==
          std::vector<std::string>{folder / "b/a.plan", folder / "b/c/y.plan", folder / "z.plan"});
    CHECK(disk.list(folder / "none", ".plan").empty());
}

TEST_CASE("the disk in memory keeps the same promises") {
    MemoryDisk disk;
    std::string text;
    CHECK(disk.write_whole("plans/a.plan", "x") == "");
    CHECK(disk.read("plans/a.plan", text) == "");
    CHECK(text == "x");
    CHECK(disk.read("plans/b.plan", text) == "plans/b.plan cannot be read: there is no such file or folder");
    CHECK(disk.read("plans", text) == "plans cannot be read: it is a folder");
    CHECK(disk.write_whole("plans", "x") == "plans cannot be written: it is a folder");
    CHECK(disk.is_directory("plans"));
    CHECK_FALSE(disk.is_directory("plan"));
    CHECK(disk.make_directory("out") == "");
    CHECK(disk.is_directory("out"));
    CHECK(disk.make_directory("plans/a.plan") != "");
    CHECK(disk.list("plans", ".plan") == std::vector<std::string>{"plans/a.plan"});
}

TEST_CASE("paths beside a file") {
    CHECK(beside("plans/fan/fan.plan", "../common/house.plan") == "plans/common/house.plan");
    CHECK(beside("fan.plan", "house.plan") == "house.plan");
    CHECK(beside("-", "house.plan") == "house.plan");
    CHECK(beside("plans/fan.plan", "./fan.plan") == "plans/fan.plan");
    CHECK(beside("plans/fan.plan", "/shared/house.plan") == "/shared/house.plan");
}
