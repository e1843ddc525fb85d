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
    circuit_block, map_block,
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

void write_page_numbers(Draft& draft, Pager& pager) {
    for (const Pager::Waiting& one : pager.waiting()) {
        const auto found = pager.anchors().find(one.later.anchor);
        Piece piece;
        Pen pen = draft.pen(piece, one.at);
        one.later.draw(pen, found == pager.anchors().end() ? 0 : found->second);
        put(pager.pages()[one.page], std::move(piece), one.down);
    }
}

} // namespace

SheetResult lay_out(const Plan& plan, const Faces& faces, const SheetOptions& options) {
    Draft draft(plan, faces, options);
    const PaperSize size = paper_size(options.paper);
    draft.page_room = size.bottom - frame::top;
    Pager pager = place_all(draft, size);
    // Where things stand hangs on how many figures the page numbers have only.
    if (const std::size_t figures = std::to_string(pager.pages().size()).size(); figures > draft.page_figures) {
        draft.page_figures = figures;
        draft.findings = {};
        pager = place_all(draft, size);
    }
    write_page_numbers(draft, pager);

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
