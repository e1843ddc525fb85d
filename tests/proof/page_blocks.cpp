#include "proof/page_blocks.hpp"
#include "source/disk.hpp"
#include <cstdlib>
#include <doctest/doctest.h>
#include <sstream>

namespace loomsheet::pages {

namespace {
std::string at_root(const std::string& path) { return std::string(LOOMSHEET_ROOT) + "/" + path; }
} // namespace

std::string read(const std::string& path) {
    RealDisk disk;
    std::string text;
    REQUIRE_MESSAGE(disk.read(at_root(path), text).empty(), path);
    return text;
}

std::vector<Block> blocks(std::string_view page) {
    std::vector<Block> found;
    std::istringstream lines{std::string(page)};
    std::string line;
    bool inside = false;
    for (int number = 1; std::getline(lines, line); ++number) {
        if (line.rfind("```", 0) != 0) {
            if (inside) found.back().text += line + "\n";
            continue;
        }
        inside = !inside;
        if (inside) found.push_back({line.substr(3), "", number + 1});
    }
    CHECK_FALSE_MESSAGE(inside, "a fenced block without its end");
    return found;
}

namespace {
// Between the first `head` and the next `tail`.
void hold(const std::string& path, const std::string& head, const std::string& tail, const std::string& wanted) {
    std::string page = read(path);
    const auto begin = page.find(head);
    REQUIRE_MESSAGE(begin != std::string::npos, path, " has no ", head);
    const auto from = begin + head.size();
    const auto to = page.find(tail, from);
    REQUIRE_MESSAGE(to != std::string::npos, path, ": no end after ", head);
    if (std::getenv("LOOMSHEET_REFRESH") != nullptr) {
        RealDisk disk;
        page.replace(from, to - from, wanted);
        REQUIRE(disk.write_whole(at_root(path), page).empty());
        return;
    }
    CHECK_MESSAGE(page.substr(from, to - from) == wanted, path, " after ", head,
                  ": run this test with LOOMSHEET_REFRESH=1, then read the diff");
}
} // namespace

void hold_table(const std::string& path, const std::string& name, const std::string& wanted) {
    hold(path, "<!-- table " + name + " -->\n", "<!-- end -->", wanted);
}

void hold_block_after(const std::string& path, const std::string& before, const std::string& wanted) {
    hold(path, before + "```\n\n```text\n", "```", wanted);
}

} // namespace loomsheet::pages
