#include "sheet/card/cautions.hpp"
#include "sheet/blocks/blocks.hpp"
#include "sheet/card/symbol.hpp"

namespace loomsheet {
namespace {

Box caution_row(LayoutContext& context, Span at, const std::string& lead, const std::string& text) {
    const Axes& axis = context.axis;
    Box box;
    Pen pen = context.pen(box, at);
    const double room = axis.right - axis.text;
    double y = 4.4;
    y += pen.leading(type::lead_in) * (pen.lines(axis.text, y, room, type::lead_in, lead) - 1);
    if (!text.empty()) {
        // The text follows the lead-in; its further lines stand under its first. Where that leaves a thin column, it
        // begins below the lead-in.
        double start = axis.text + pen.width(type::lead_in, lead) + 2;
        if (axis.right - start < room / 2) start = axis.text, y += pen.leading(type::plain);
        y += pen.leading(type::plain) * (pen.lines(start, y, axis.right - start, type::plain, text) - 1);
    }
    box.height = y + 1.3;
    return box;
}

void cautions_of_parts(LayoutContext& context, Block& block) {
    for (const Part& part : context.plan.circuit.parts)
        for (const Words& words : part.cautions)
            block.rows.push_back(caution_row(context, words.at, context.say(Word::caution_of_part, part.id), words.text));
}

} // namespace

Block cautions_block(LayoutContext& context) {
    const Plan& plan = context.plan;
    Block block;
    block.title = block_title(context, context.say(Word::cautions), "");
    for (const Words& words : plan.cautions)
        block.rows.push_back(caution_row(context, words.at, words.text, ""));
    cautions_of_parts(context, block);
    for (const CautionRow& row : usual_cautions())
        if (row.applies(plan)) block.rows.push_back(caution_row(context, plan.at, context.say(row.lead), context.say(row.text)));
    Box& first = block.rows.front();
    Pen pen = context.pen(first, first.at);
    warning_sign(pen, context.axis.edge + 1.8, 1.2, 9);
    return block;
}

} // namespace loomsheet
