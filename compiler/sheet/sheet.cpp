#include "sheet/sheet.hpp"
#include "sheet/digest.hpp"
#include "sheet/draft.hpp"
#include "sheet/frame.hpp"
#include "sheet/pager.hpp"
#include <algorithm>
#include <span>

namespace loomsheet {
namespace {

// The order of the blocks on a sheet.
using BlockMaker = Block (*)(Draft&);
constexpr BlockMaker workshop[] = {
    head_block,   complaint_block, cautions_block, notes_block, tools_block,   parts_block,
    checks_block, verdicts_block,  readings_block, work_block,  closing_block,
};
constexpr BlockMaker proof_of_plan[] = {
    proof_answer_block, proof_figures_block, proof_coverage_block, proof_small_block, proof_groups_block, proof_readings_block, proof_closing_block,
};
std::span<const BlockMaker> blocks_of(SheetKind kind) {
    if (kind == SheetKind::proof) return proof_of_plan;
    return workshop;
}

PaperSize paper_size(Paper paper) {
    PaperSize size;
    if (paper == Paper::letter) size.width = 215.9, size.height = 279.4;
    size.bottom = content_bottom(size.height);
    return size;
}

Pager place_all(Draft& draft, PaperSize size) {
    Pager pager(size, draft.findings);
    for (const auto block : blocks_of(draft.kind))
        pager.place(block(draft));
    return pager;
}

} // namespace

SheetResult lay_out(const Plan& plan, const Faces& faces, const SheetOptions& options) {
    Draft draft(plan, faces, options);
    const PaperSize size = paper_size(options.paper);
    // Once to learn the page numbers, once to print them: where things stand hangs on how many figures they have only.
    Pager first = place_all(draft, size);
    draft.pages = first.anchors();
    draft.page_figures = std::max(draft.page_figures, std::to_string(first.pages().size()).size());
    draft.findings = {};
    Pager pager = place_all(draft, size);

    SheetResult result;
    result.document.title = plan.id + " " + plan.title;
    result.document.pages = std::move(pager.pages());
    result.document.outline = std::move(pager.outline());
    draw_frames(draft, result.document.pages, digest(page::dump(result.document)));
    result.findings = std::move(draft.findings);
    result.findings.sort();
    return result;
}

} // namespace loomsheet
