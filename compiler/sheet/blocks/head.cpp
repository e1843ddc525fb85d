// The top of the first page: title, fields to fill in, the complaint.
#include "sheet/blocks/blocks.hpp"
#include "sheet/blocks/fields.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/state.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr double writing_line = 9.5;

std::string facts(const Wording& say, const Plan& plan) {
    std::vector<std::string> list;
    if (plan.system) list.push_back(say(Word::system_of, amount(say, *plan.system)));
    for (const std::string& code : plan.codes)
        list.push_back(say(Word::code, code));
    list.push_back(plan.checks.size() == 1 ? say(Word::one_check) : say(Word::check_count, plan.checks.size()));
    if (!plan.author.empty()) list.push_back(say(Word::written_by, plan.author));
    return listed(say, list);
}

Box title_row(LayoutContext& context) {
    const Axes& axis = context.axis;
    const Plan& plan = context.plan;
    Box box;
    Pen pen = context.pen(box, plan.at);
    const double width = axis.right - axis.edge;
    double y = 7.6;
    if (!context.sheet.shop.empty()) {
        y = 4.6 + (pen.lines(axis.edge, 4.6, width, type::lead_in, context.sheet.shop) - 1) * pen.leading(type::lead_in);
        y += 10.4;
    }
    y += (pen.lines(axis.edge, y, width, type::sheet_title, plan.title) - 1) * pen.leading(type::sheet_title);
    y += 6.8;
    y += (pen.lines(axis.edge, y, width, type::text, facts(context.say, plan)) - 1) * pen.leading(type::text);
    box.height = y + 3.5;
    box.outline = plan.title;
    return box;
}

Box writing_lines(LayoutContext& context, const std::string& caption, int count, const std::string& name) {
    const Axes& axis = context.axis;
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    pen.text(axis.edge, 3.6, type::caption, caption);
    for (int i = 1; i <= count; ++i) {
        const double y = 0.5 + i * writing_line;
        pen.line(axis.edge, y, axis.right, y, stroke::rule);
    }
    box.height = 0.5 + count * writing_line;
    pen.region(page::Role::field, axis.edge, 0, axis.right - axis.edge, box.height, name);
    return box;
}

} // namespace

Block head_block(LayoutContext& context) {
    Block block;
    block.rows.push_back(title_row(context));
    for (Box& row : field_rows(context, context.sheet.head, "job"))
        block.rows.push_back(std::move(row));
    block.keep = block.rows.size();
    return block;
}

Block complaint_block(LayoutContext& context) {
    const Axes& axis = context.axis;
    const Wording& say = context.say;
    const Plan& plan = context.plan;
    Block block;
    block.title = block_title(context, say(Word::complaint), "");
    Box words;
    Pen pen = context.pen(words, plan.at);
    double y = 4.6;
    if (!plan.complaint.empty()) {
        y += (pen.lines(axis.edge, y, axis.right - axis.edge, type::block, plan.complaint) - 1) * pen.leading(type::block);
        y += 5.2;
    }
    if (!plan.complaint_with.items.empty()) {
        const std::string with = say(Word::shows_with, setup_words(say, plan.circuit, plan.complaint_with));
        y += (pen.lines(axis.edge, y, axis.right - axis.edge, type::how, with) - 1) * pen.leading(type::how);
        y += 5.2;
    }
    words.height = y - 3.4;
    block.rows.push_back(std::move(words));
    block.rows.push_back(writing_lines(context, say(Word::customers_words), 2, "field complaint"));
    return block;
}

Block work_block(LayoutContext& context) {
    Block block;
    block.title = block_title(context, context.say(Word::work_done), "");
    block.rows.push_back(writing_lines(context, "", 3, "field work done"));
    return block;
}

Block notes_block(LayoutContext& context) {
    const Axes& axis = context.axis;
    Block block;
    for (const Words& note : context.plan.notes) {
        Box box;
        Pen pen = context.pen(box, note.at);
        const int count = pen.lines(axis.text, 4.6, axis.right - axis.text, type::plain, note.text);
        box.height = 1.5 + count * pen.leading(type::plain);
        block.rows.push_back(std::move(box));
    }
    block.title = block_title(context, context.say(Word::notes), "");
    return block;
}

} // namespace loomsheet
