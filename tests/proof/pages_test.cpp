// The developers' page and the README name what is there.
#include "proof/page_blocks.hpp"
#include <doctest/doctest.h>
#include <filesystem>
#include <set>

namespace fs = std::filesystem;
using namespace loomsheet;

namespace {
// What stands in `ticks` or in (brackets) behind a link, and looks like a path of the project.
std::set<std::string> paths_in(const std::string& page) {
    std::set<std::string> found;
    std::string word;
    for (const char c : page) {
        const bool part = std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '/' || c == '.' || c == '_' || c == '-';
        if (part) word += c;
        if (part) continue;
        const auto slash = word.find('/');
        if (slash != std::string::npos && slash > 0) {
            const std::string room = word.substr(0, slash);
            for (const char* top : {"grammar", "compiler", "templates", "plans", "tests", ".ci"})
                if (room == top) found.insert(word);
        }
        word.clear();
    }
    return found;
}
} // namespace

TEST_CASE("every path that the pages name is there") {
    for (const char* page : {"DEVELOPERS.md", "README.md", "grammar/LANGUAGE.md", "grammar/SHEETS.md"}) {
        const auto paths = paths_in(pages::read(page));
        for (auto path : paths) {
            if (path.back() == '.') path.pop_back(); // the end of a sentence
            CHECK_MESSAGE(fs::exists(fs::path(LOOMSHEET_ROOT) / path), std::string(page), " names ", path);
        }
    }
    CHECK(paths_in(pages::read("DEVELOPERS.md")).size() >= 15);
}

TEST_CASE("the developers' page names every room") {
    const auto paths = paths_in(pages::read("DEVELOPERS.md"));
    int rooms = 0;
    for (const auto& entry : fs::directory_iterator(fs::path(LOOMSHEET_ROOT) / "compiler")) {
        if (!entry.is_directory()) continue;
        const std::string room = "compiler/" + entry.path().filename().string() + "/";
        CHECK_MESSAGE(paths.count(room) == 1, "DEVELOPERS.md does not name ", room);
        ++rooms;
    }
    CHECK(rooms >= 8);
}
