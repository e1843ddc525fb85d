// Each finding has a page, and its page is true. Those of the sheet (LS8xx) are held in tests/sheet.
#include "analysis/analysis.hpp"
#include "finding_pages.hpp"
#include "proof/verdicts.hpp"
#include "source/render.hpp"

using namespace loomsheet;

namespace {
// What `loomsheet proof` finds adds to what is found without it.
Findings found_in(Sources& sources, MemoryDisk& disk, int code) {
    Analysis made = analyse(sources, disk, {"example.plan", {}, code / 100 == 7 ? Until::proved : Until::predicted});
    made.findings.add(std::move(made.proof_findings));
    return made.findings;
}
} // namespace

TEST_CASE("every finding of the catalogue has its page, and no page is without its finding") {
    for (const CatalogueRow& row : catalogue()) {
        const bool there = finding_pages::is_there(row.code);
        CHECK_MESSAGE(there, code_name(row.code), " has no page");
        const std::string title = "# " + code_name(row.code) + ": " + std::string(row.title) + "\n";
        if (there)
            CHECK_MESSAGE(finding_pages::text_of(row.code).starts_with(title), code_name(row.code),
                          ": the page does not begin with its title");
    }
    RealDisk disk;
    for (const std::string& path : disk.list(finding_pages::folder(), ".md")) {
        const std::string stem = path.substr(path.find_last_of('/') + 1);
        CHECK_MESSAGE(find_in_catalogue(std::atoi(stem.c_str() + 2)) != nullptr, path);
    }
}

TEST_CASE("the example of each page triggers exactly its finding, in the words that the page shows; the cure has no "
          "finding") {
    for (const CatalogueRow& row : catalogue()) {
        const bool of_the_sheet = row.code >= 800 && row.code < 900;
        if (of_the_sheet || !finding_pages::is_there(row.code)) continue;
        finding_pages::Page page = finding_pages::read(row.code);
        Sources sources;
        const Findings found = found_in(sources, page.examples[0], row.code);
        const std::string said = render_text(sources, found, {});
        CHECK_MESSAGE((found.list().size() == 1 && found.list().front().code == row.code), code_name(row.code), " gives\n", said);
        finding_pages::hold(row.code, page, said);
        Sources cured;
        const Findings left = found_in(cured, page.examples[1], row.code);
        CHECK_MESSAGE(left.empty(), code_name(row.code), ": the cure gives\n", render_text(cured, left, {}));
    }
}
