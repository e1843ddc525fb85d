#include "sheet/sheet.hpp"
#include "model/digest.hpp"
#include "page/pager.hpp"
#include "sheet/blocks/frame.hpp"
#include "sheet/layout/context.hpp"
#include "sheet/template_read.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

PaperSize paper_size(const PaperRow& row, const SheetTemplate& sheet, const Axes& axis) {
    constexpr double under_head = 2;
    const double code = sheet.page.has(PagePart::code) ? frame::margin + frame::code + frame::code_white : 0;
    return {row.width, row.height, std::max(sheet.margins.top + under_head, code), content_bottom(axis, row.height)};
}

Pager place_all(LayoutContext& context, PaperSize size) {
    Pager pager(size, context.findings);
    for (const BlockRow* block : context.sheet.blocks)
        pager.place(block->make(context));
    return pager;
}

void write_page_numbers(LayoutContext& context, Pager& pager) {
    for (const Pager::Waiting& one : pager.waiting()) {
        const auto found = pager.anchors().find(one.later.anchor);
        Box box;
        Pen pen = context.pen(box, one.at);
        one.later.draw(pen, found == pager.anchors().end() ? 0 : found->second);
        put(pager.pages()[one.page], std::move(box), one.down);
    }
}

} // namespace

SheetResult lay_out(const Plan& plan, const Faces& faces, const SheetOptions& options) {
    const SheetTemplate& sheet = options.sheet ? *options.sheet : workshop_template();
    const PaperRow& paper = paper_row(options.paper.value_or(sheet.paper));
    const Axes axis = axes_of(paper.width, sheet.margins);
    const PaperSize size = paper_size(paper, sheet, axis);
    LayoutContext context(plan, faces, sheet, options, axis, size.bottom - size.top);
    Pager pager = place_all(context, size);
    // Where things stand depends on the page numbers only by how many figures they have.
    if (const std::size_t figures = std::to_string(pager.pages().size()).size(); figures > context.page_figures) {
        context.page_figures = figures;
        context.findings = {};
        pager = place_all(context, size);
    }
    write_page_numbers(context, pager);

    SheetResult result;
    result.document.title = plan.id + " " + plan.title;
    result.document.language = context.say(Word::language_code);
    result.document.pages = std::move(pager.pages());
    result.document.outline = std::move(pager.outline());
    draw_frames(context, result.document.pages, digest(plan));
    result.findings = std::move(context.findings);
    result.findings.sort();
    return result;
}

} // namespace loomsheet
