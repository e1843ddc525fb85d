// The pages of the findings as the tests read them: an example that triggers the finding, what is said, an example that
// is right.
#pragma once
#include "source/catalogue.hpp"
#include "source/disk.hpp"
#include <cstdlib>
#include <doctest/doctest.h>
#include <sstream>
#include <string>
#include <vector>

namespace loomsheet::finding_pages {

inline std::string folder() { return std::string(LOOMSHEET_ROOT) + "/grammar/findings"; }
inline std::string path_of(int code) { return folder() + "/" + code_name(code) + ".md"; }
inline bool is_there(int code) {
    RealDisk disk;
    std::string page;
    return disk.read(path_of(code), page).empty();
}
inline std::string text_of(int code) {
    RealDisk disk;
    std::string page;
    REQUIRE_MESSAGE(disk.read(path_of(code), page).empty(), path_of(code));
    return page;
}

// In a block of kind "plan bytes" \xE9 is that byte, \x20{20001} as many of it.
inline std::string bytes_of(const std::string& text) {
    std::string bytes;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text.compare(at, 2, "\\x") != 0) {
            bytes += text[at];
            continue;
        }
        const char byte = static_cast<char>(std::stoi(text.substr(at + 2, 2), nullptr, 16));
        at += 3;
        std::size_t times = 1;
        if (at + 1 < text.size() && text[at + 1] == '{') {
            const std::size_t close = text.find('}', at);
            times = std::stoul(text.substr(at + 2, close - at - 2));
            at = close;
        }
        bytes.append(times, byte);
    }
    return bytes;
}

struct Page {
    std::vector<MemoryDisk> examples; // each with example.plan, or example.sheet, and what it uses
    std::string said;
};
inline Page read(int code) {
    Page page;
    std::string kind, text, line;
    bool inside = false;
    std::istringstream lines{text_of(code)};
    while (std::getline(lines, line)) {
        if (!line.starts_with("```")) {
            text += line + "\n";
            continue;
        }
        inside = !inside;
        if (inside) {
            kind = line.substr(3);
            text.clear();
            continue;
        }
        const std::size_t named = kind.find(" name=");
        if (kind == "sheet")
            page.examples.emplace_back().files["example.sheet"] = text;
        else if (kind == "plan")
            page.examples.emplace_back().files["example.plan"] = text;
        else if (kind == "plan bytes")
            page.examples.emplace_back().files["example.plan"] = bytes_of(text);
        else if (named != std::string::npos)
            page.examples.back().files[kind.substr(named + 6)] = text;
        else if (kind == "text")
            page.said = text;
        else
            FAIL(path_of(code), ": a block of kind ", kind);
    }
    CHECK_FALSE_MESSAGE(inside, path_of(code), ": a block without its end");
    REQUIRE_MESSAGE(page.examples.size() == 2, path_of(code), " needs an example and a cure");
    return page;
}

// Holds the page's words to be `now`; with LOOMSHEET_REFRESH in the environment the page is written anew instead.
inline void hold(int code, const Page& page, const std::string& now) {
    if (std::getenv("LOOMSHEET_REFRESH") == nullptr) {
        CHECK_MESSAGE(now == page.said, path_of(code), ": run this test with LOOMSHEET_REFRESH=1, then read the diff");
        return;
    }
    std::string whole = text_of(code);
    const std::string open = "```text\n";
    const auto at = whole.find(open);
    REQUIRE_MESSAGE(at != std::string::npos, path_of(code));
    whole.replace(at + open.size(), page.said.size(), now);
    RealDisk disk;
    REQUIRE(disk.write_whole(path_of(code), whole).empty());
}

} // namespace loomsheet::finding_pages
