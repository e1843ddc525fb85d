// Any bytes, from the file to the model of pages: a plan without errors becomes pages, the same ones twice.
#include "analysis/analysis.hpp"
#include "fuzz/take.hpp"
#include "sheet/sheet.hpp"
#include "source/render.hpp"

using namespace loomsheet;

namespace {
const Faces& faces() {
    static std::string error;
    static const std::optional<Faces> loaded = Faces::load(error);
    promise(loaded.has_value(), error.c_str());
    return *loaded;
}
} // namespace

void take(std::string_view bytes) {
    MemoryDisk disk;
    disk.files["fuzz.plan"] = std::string(bytes);
    Sources sources;
    Analysis result = analyse(sources, disk, {"fuzz.plan"});
    promise(result.unreadable.empty(), "the file is there");
    promise(render_short(sources, result.findings, {}).empty() == result.findings.empty(), "findings show");
    if (!result.usable()) return;
    for (const Paper paper : {Paper::a4, Paper::letter}) {
        const SheetResult sheet = lay_out(*result.plan, faces(), {paper});
        promise(!sheet.document.pages.empty(), "a plan without errors has pages");
        const SheetResult again = lay_out(*result.plan, faces(), {paper});
        promise(dump(sheet.document) == dump(again.document), "the same pages twice");
    }
}
