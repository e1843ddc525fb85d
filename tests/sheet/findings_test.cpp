// The pages of the findings that only the sheet can have: LS8xx.
#include "analysis/analysis.hpp"
#include "finding_pages.hpp"
#include "sheet/sheet.hpp"
#include "sheet/template_read.hpp"
#include "source/render.hpp"

using namespace loomsheet;

namespace {
Findings printed(Sources& sources, MemoryDisk& disk, const Faces& faces) {
    if (disk.files.find("example.sheet") != disk.files.end()) {
        Findings findings;
        const TemplateResult result = read_template(sources, disk, "example.sheet", {}, findings);
        CHECK(result.sheet.has_value() == findings.empty());
        findings.sort();
        return findings;
    }
    Analysis compiled = analyse(sources, disk, {"example.plan"});
    compiled.findings.add(lay_out(*compiled.plan, faces).findings);
    compiled.findings.sort();
    return std::move(compiled.findings);
}
} // namespace

TEST_CASE("the example of each page of the sheet's findings triggers exactly its finding; the cure has none") {
    std::string error;
    const std::optional<Faces> faces = Faces::load(error);
    REQUIRE_MESSAGE(faces, error);
    int pages = 0;
    for (const CatalogueRow& row : catalogue()) {
        if (row.code < 800 || row.code >= 900) continue;
        ++pages;
        finding_pages::Page page = finding_pages::read(row.code);
        Sources sources;
        const Findings found = printed(sources, page.examples[0], *faces);
        const std::string said = render_text(sources, found, {});
        CHECK_MESSAGE((found.list().size() == 1 && found.list().front().code == row.code), code_name(row.code), " gives\n", said);
        finding_pages::hold(row.code, page, said);
        Sources cured;
        const Findings left = printed(cured, page.examples[1], *faces);
        CHECK_MESSAGE(left.empty(), code_name(row.code), ": the cure gives\n", render_text(cured, left, {}));
    }
    CHECK(pages >= 11);
}
