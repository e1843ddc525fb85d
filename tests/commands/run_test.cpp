#include "commands/each_plan.hpp"
#include "commands/run.hpp"
#include "scratch.hpp"
#include "source/catalogue.hpp"
#include <doctest/doctest.h>
#include <nlohmann/json.hpp>
#include <sstream>
#include <stdexcept>

using namespace loomsheet;

namespace {
struct Said {
    Exit exit;
    std::string out, err;
};
Said say(Disk& disk, std::vector<const char*> words, bool progress = false, bool colour = false) {
    words.insert(words.begin(), "loomsheet");
    std::ostringstream out, err;
    const Exit exit = run(static_cast<int>(words.size()), words.data(), {disk, out, err, colour, colour, progress});
    return {exit, out.str(), err.str()};
}

bool holds(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

const std::string fan = read_file(LOOMSHEET_ROOT "/plans/cooling/fan.plan");
// The fan plan with one name that nothing has.
std::string with_mistake() {
    std::string text = fan;
    return text.replace(text.find("K5.87 "), 6, "K55.87");
}
MemoryDisk disk_of_two() {
    MemoryDisk disk;
    disk.files["good.plan"] = fan;
    disk.files["bad.plan"] = with_mistake();
    return disk;
}
} // namespace

TEST_CASE("help and version go to the output, a wrong command line to the errors") {
    MemoryDisk disk;
    const Said help = say(disk, {"--help"});
    CHECK(help.exit == Exit::clean);
    CHECK(holds(help.out, "explain"));
    CHECK(help.err.empty());
    CHECK(say(disk, {"--version"}).out.starts_with("loomsheet 0."));
    const Said wrong = say(disk, {"print"});
    CHECK(wrong.exit == Exit::usage);
    CHECK(wrong.out.empty());
    CHECK(wrong.err.starts_with("loomsheet: "));
    CHECK(say(disk, {}).exit == Exit::usage);
}

TEST_CASE("a finding is explained however its code is written") {
    MemoryDisk disk;
    const Said said = say(disk, {"explain", "LS204"});
    CHECK(said.exit == Exit::clean);
    CHECK(said.out == finding_page(204));
    CHECK_FALSE(said.out.empty());
    CHECK(say(disk, {"explain", "ls204"}).out == said.out);
    CHECK(say(disk, {"explain", "204"}).out == said.out);
    CHECK(say(disk, {"explain", "LS004"}).out == finding_page(4));
}

TEST_CASE("an unknown code brings those of its family, nonsense all of them") {
    MemoryDisk disk;
    const Said family = say(disk, {"explain", "LS299"});
    CHECK(family.exit == Exit::usage);
    CHECK(family.out.empty());
    CHECK(holds(family.err, "LS299"));
    CHECK(holds(family.err, "LS204"));
    CHECK_FALSE(holds(family.err, "LS301"));
    for (const char* word : {"fan", "20x", "", "LS", "2044", "LS-1"}) {
        const Said all = say(disk, {"explain", word});
        CHECK(all.exit == Exit::usage);
        CHECK(holds(all.err, "LS204"));
        CHECK(holds(all.err, "LS301"));
    }
}

TEST_CASE("proof of a clean plan gives its readings and says that it is clean, and prints no sheet") {
    MemoryDisk disk = disk_of_two();
    const Said said = say(disk, {"proof", "good.plan"});
    CHECK(said.exit == Exit::clean);
    CHECK(said.out.starts_with("FAN-01 Radiator fan does not run\n"));
    CHECK(holds(said.out, "\ncheck "));
    CHECK(said.out.ends_with("good.plan: no findings\n"));
    CHECK(said.err.empty());
    CHECK(disk.files.size() == 2);
}

TEST_CASE("proof says findings on the output, for all plans, with one sum") {
    MemoryDisk disk = disk_of_two();
    const Said said = say(disk, {"proof", "bad.plan", "good.plan"});
    CHECK(said.exit == Exit::errors);
    CHECK(holds(said.out, "bad.plan:"));
    CHECK(holds(said.out, "K55"));
    CHECK(holds(said.out, "2 plans: 1 error\n"));
    CHECK(said.err.empty());
    const Said lines = say(disk, {"proof", "--format", "short", "bad.plan"});
    CHECK(std::count(lines.out.begin(), lines.out.end(), '\n') == 1);
    CHECK(holds(lines.out, ": error LS201: "));
}

TEST_CASE("findings of several plans are one JSON array") {
    MemoryDisk disk = disk_of_two();
    disk.files["worse.plan"] = with_mistake();
    const auto list =
        nlohmann::json::parse(say(disk, {"proof", "--format", "json", "bad.plan", "good.plan", "worse.plan"}).out).at("findings");
    REQUIRE(list.size() == 2);
    CHECK(list[0]["file"] == "bad.plan");
    CHECK(list[1]["file"] == "worse.plan");
    CHECK(nlohmann::json::parse(say(disk, {"proof", "--format", "json", "good.plan"}).out).at("findings").empty());
}

TEST_CASE("a plan that cannot be read is named; the others still have their turn") {
    MemoryDisk disk = disk_of_two();
    const Said said = say(disk, {"proof", "none.plan", "bad.plan"});
    CHECK(said.exit == Exit::usage);
    CHECK(said.err == "loomsheet: none.plan cannot be read: there is no such file or folder\n");
    CHECK(holds(said.out, "K55"));
}

TEST_CASE("print makes a sheet a plan; one with errors gets none, the others do") {
    MemoryDisk disk = disk_of_two();
    const Said said = say(disk, {"print", "bad.plan", "good.plan", "-o", "out"});
    CHECK(said.exit == Exit::errors);
    CHECK(holds(said.err, "K55"));
    CHECK(holds(said.err, "1 of 2 plans printed: 1 error\n"));
    CHECK(said.out.starts_with("out/good.pdf, "));
    REQUIRE(disk.files.contains("out/good.pdf"));
    CHECK(disk.files["out/good.pdf"].starts_with("%PDF-"));
    CHECK_FALSE(disk.files.contains("out/bad.pdf"));
}

TEST_CASE("the same plan gives the same bytes; another paper gives others") {
    MemoryDisk disk = disk_of_two();
    CHECK(say(disk, {"print", "good.plan", "-o", "one"}).exit == Exit::clean);
    CHECK(say(disk, {"print", "good.plan", "-o", "two"}).err.empty());
    CHECK(say(disk, {"print", "good.plan", "-o", "three", "--paper", "letter"}).exit == Exit::clean);
    CHECK((disk.files["one/good.pdf"] == disk.files["two/good.pdf"]));
    CHECK((disk.files["one/good.pdf"] != disk.files["three/good.pdf"]));
}

TEST_CASE("nothing is printed when two sheets would be one file, or the folder cannot be") {
    MemoryDisk disk = disk_of_two();
    disk.files["more/good.plan"] = fan;
    const Said clash = say(disk, {"print", "good.plan", "more", "-o", "out"});
    CHECK(clash.exit == Exit::usage);
    CHECK(holds(clash.err, "more/good.plan"));
    const Said folder = say(disk, {"print", "good.plan", "-o", "bad.plan"});
    CHECK(folder.exit == Exit::usage);
    CHECK(holds(folder.err, "the folder bad.plan cannot be made"));
    CHECK(disk.files.size() == 3);
}

TEST_CASE("a sheet that cannot be written is named; the others are printed") {
    MemoryDisk disk = disk_of_two();
    disk.files["other.plan"] = fan;
    disk.files["out/good.pdf/in-the-way"] = "";
    const Said said = say(disk, {"print", "good.plan", "other.plan", "-o", "out"});
    CHECK(said.exit == Exit::usage);
    CHECK(holds(said.err, "loomsheet: out/good.pdf cannot be written: it is a folder\n"));
    CHECK(disk.files.contains("out/other.pdf"));
}

TEST_CASE("progress is one line that is rewritten, only where it is asked for and there is more than one plan") {
    MemoryDisk disk = disk_of_two();
    CHECK(holds(say(disk, {"proof", "good.plan", "bad.plan"}, true).err, "\r\x1b[K2 of 2  bad.plan\r\x1b[K"));
    CHECK(say(disk, {"proof", "good.plan", "bad.plan"}).err.empty());
    CHECK(say(disk, {"proof", "good.plan"}, true).err.empty());
}

TEST_CASE("colour comes only where it is asked for") {
    MemoryDisk disk = disk_of_two();
    CHECK(holds(say(disk, {"proof", "bad.plan"}, false, true).out, "\x1b[1;31m"));
    CHECK_FALSE(holds(say(disk, {"proof", "bad.plan"}).out, "\x1b"));
    CHECK_FALSE(holds(say(disk, {"proof", "bad.plan", "--format", "json"}, false, true).out, "\x1b"));
}

TEST_CASE("an output that takes nothing is not passed over") {
    MemoryDisk disk = disk_of_two();
    std::ostream nowhere(nullptr);
    std::ostringstream err;
    const char* words[] = {"loomsheet", "proof", "good.plan"};
    CHECK(run(3, words, {disk, nowhere, err}) == Exit::usage);
    CHECK(holds(err.str(), "standard output cannot be written"));
}

TEST_CASE("a fault of ours asks to be reported, ends with 3, and keeps no other plan from its turn") {
    MemoryDisk disk = disk_of_two();
    disk.files["other.plan"] = fan;
    std::ostringstream out, err;
    const Surroundings around{disk, out, err};
    const Tally tally = each_plan({"good.plan", "other.plan", "bad.plan"}, around, {out, false, Format::text}, {},
                                  [](const std::string& path, const Analysis&) -> Done {
                                      if (path == "good.plan") throw std::logic_error("the roof fell in");
                                      return {{}, path + " done\n"};
                                  });
    CHECK(tally.exit == Exit::bug);
    CHECK(tally.well == 1);
    CHECK(holds(err.str(), "this is a fault of Loomsheet, not of good.plan: the roof fell in"));
    CHECK(holds(err.str(), "report"));
    CHECK(holds(out.str(), "other.plan done\n"));
}

TEST_CASE("a shop's own template prints; with a mistake in it nothing is printed") {
    MemoryDisk disk = disk_of_two();
    disk.files["bay.sheet"] = "sheet bay \"Bay sheet\"\nblocks head, checks\n";
    disk.files["bad.sheet"] = "sheet bay \"Bay sheet\"\nblocks head, chekcs\n";
    const Said good = say(disk, {"print", "-o", "out", "--template", "bay.sheet", "--words", "german", "good.plan"});
    CHECK(good.exit == Exit::clean);
    CHECK(disk.files.count("out/good-bay.pdf") == 1);
    const Said bad = say(disk, {"print", "-o", "out2", "--template", "bad.sheet", "good.plan"});
    CHECK(bad.exit == Exit::errors);
    CHECK(holds(bad.err, "bad.sheet:2:14: error LS852"));
    CHECK(disk.files.count("out2/good-bay.pdf") == 0);
    CHECK(say(disk, {"print", "--template", "none.sheet", "good.plan"}).exit == Exit::usage);
}
