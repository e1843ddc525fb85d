// The pages of the findings: each shows a plan that triggers exactly its finding, what is said then, and a plan that is right.
#include "proof/compile.hpp"
#include "proof/page_blocks.hpp"
#include "source/catalogue.hpp"
#include "source/render.hpp"
#include <cstdlib>
#include <doctest/doctest.h>

using namespace loomsheet;

namespace {

constexpr bool is_of_the_sheet(int code) { return code >= 800 && code < 900; } // tests/sheet holds those

std::string path_of(int code) { return "grammar/findings/" + code_name(code) + ".md"; }

// A page's plans: the files of the example, then those of the cure. Each begins with the block that has no name of its own.
struct Example {
    MemoryDisk disk;
};
struct Page {
    std::vector<Example> examples;
    std::string said;
};
// In a block of kind "plan bytes" \xE9 is that byte, \x20{20001} as many of it.
std::string bytes_of(const std::string& text) {
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

Page read_page(int code) {
    Page page;
    for (const pages::Block& block : pages::blocks(pages::read(path_of(code)))) {
        constexpr std::string_view named = "plan name=";
        if (block.kind == "plan") page.examples.emplace_back().disk.files["example.plan"] = block.text;
        else if (block.kind == "plan bytes") page.examples.emplace_back().disk.files["example.plan"] = bytes_of(block.text);
        else if (block.kind.starts_with(named)) page.examples.back().disk.files[block.kind.substr(named.size())] = block.text;
        else if (block.kind == "text") page.said = block.text;
        else FAIL(path_of(code), ": a block of kind ", block.kind);
    }
    return page;
}

void refresh(int code, const std::string& said, const std::string& now) {
    RealDisk disk;
    std::string page = pages::read(path_of(code));
    const std::string open = "```text\n";
    const auto at = page.find(open);
    REQUIRE_MESSAGE(at != std::string::npos, path_of(code));
    page.replace(at + open.size(), said.size(), now);
    REQUIRE(disk.write_whole(std::string(LOOMSHEET_ROOT) + "/" + path_of(code), page).empty());
}

} // namespace

TEST_CASE("every finding of the catalogue has its page, and no page is without its finding") {
    RealDisk disk;
    const std::string folder = std::string(LOOMSHEET_ROOT) + "/grammar/findings";
    for (const CatalogueRow& row : catalogue()) {
        std::string page;
        const bool there = disk.read(folder + "/" + code_name(row.code) + ".md", page).empty();
        CHECK_MESSAGE(there, code_name(row.code), " has no page");
        const std::string title = "# " + code_name(row.code) + ": " + std::string(row.title) + "\n";
        if (there) CHECK_MESSAGE(page.starts_with(title), code_name(row.code), ": the page does not begin with its title");
    }
    for (const std::string& path : disk.list(folder, ".md")) {
        const std::string stem = path.substr(path.find_last_of('/') + 1);
        CHECK_MESSAGE(find_in_catalogue(std::atoi(stem.c_str() + 2)) != nullptr, path);
    }
}

TEST_CASE("the example of each page triggers exactly its finding, in the words that the page shows; the cure has no finding") {
    for (const CatalogueRow& row : catalogue()) {
        if (is_of_the_sheet(row.code)) continue;
        RealDisk real;
        std::string there;
        if (!real.read(std::string(LOOMSHEET_ROOT) + "/" + path_of(row.code), there).empty()) continue; // said above
        Page page = read_page(row.code);
        REQUIRE_MESSAGE(page.examples.size() == 2, path_of(row.code), " needs an example and a cure");

        Sources sources;
        const Findings found = compile(sources, page.examples[0].disk, "example.plan").compiled.findings;
        const std::string said = render_text(sources, found, {});
        CHECK_MESSAGE((found.list().size() == 1 && found.list().front().code == row.code), path_of(row.code), " gives\n", said);
        if (std::getenv("LOOMSHEET_REFRESH") != nullptr) refresh(row.code, page.said, said);
        else CHECK_MESSAGE(said == page.said, path_of(row.code), ": run this test with LOOMSHEET_REFRESH=1, then read the diff");

        Sources cured;
        const Findings left = compile(cured, page.examples[1].disk, "example.plan").compiled.findings;
        CHECK_MESSAGE(left.empty(), path_of(row.code), ": the cure gives\n", render_text(cured, left, {}));
    }
}
