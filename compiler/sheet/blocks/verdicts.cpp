// Verdicts: what failed, the repair, where it is proved, what the verdict blames.
#include "sheet/blocks/blocks.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/run.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

double title_x(const Axes& axis) { return axis.edge + 30; }
// Repairs stand beside the title, or under it.
double repair_x(const Axes& axis) { return axis.narrow ? title_x(axis) : axis.edge + 91; }

struct Onward {
    Word label; // "proof", "go on"
    int check;
};

std::vector<Onward> onward_of(const Verdict& verdict) {
    std::vector<Onward> list;
    for (const int check : verdict.after)
        list.push_back({Word::proof, check});
    if (verdict.then.kind == TargetKind::check && verdict.then.index != none) list.push_back({Word::go_on, verdict.then.index});
    return list;
}

constexpr double before_number = 10; // an arrow

// The room that label, page, arrow and number take at the right, the same for all page numbers of as many figures; 0
// where the verdict is the end.
double onward_room(const LayoutContext& context, const Pen& pen, const Verdict& verdict) {
    constexpr double usual = 42, gap = 2;
    const std::vector<Onward> ways = onward_of(verdict);
    double room = ways.empty() && verdict.then_plan.empty() ? 0 : usual;
    for (const Onward& way : ways) {
        const std::string words = context.say(Word::name_and_page, context.say(way.label), std::string(context.page_figures, '0'));
        room = std::max(room, pen.width(type::words, words) + before_number +
                                  tab_width(pen, mark_size, std::to_string(context.order.numbers[way.check])) + gap);
    }
    return room;
}

// Label, page, arrow and number at the right, one below the other; returns where they end.
double onward(LayoutContext& context, Pen& pen, const Verdict& verdict) {
    const Axes& axis = context.axis;
    double y = 0.5;
    for (const Onward& way : onward_of(verdict)) {
        const std::string number = std::to_string(context.order.numbers[way.check]);
        const double left = axis.right - tab_width(pen, mark_size, number);
        tab(pen, left, y, mark_size, number);
        arrow(pen, left - 8.5, left - 2, y + mark_size / 2);
        pen.later(check_anchor(context.plan, way.check), [=, &axis, &say = context.say](Pen& at, std::size_t page) {
            at.right(left - before_number, y + mark_size / 2 + at.half_cap(type::words), type::words,
                     say(Word::name_and_page, say(way.label), page + 1));
            at.link(left - 30, y, axis.right - left + 30, mark_size, page);
        });
        y += mark_size + 1.5;
    }
    if (!verdict.then_plan.empty()) {
        pen.right(axis.right, y + mark_size / 2 + pen.half_cap(type::main), type::main, context.say(Word::go_on_plan, verdict.then_plan));
        y += mark_size + 1.5;
    }
    return y;
}

double detail(Pen& pen, double baseline, double room, Style style, const std::string& words) {
    return baseline + pen.leading(style) * pen.lines(title_x(pen.axis), baseline, room, style, words);
}

std::string blamed(const Wording& say, const Circuit& circuit, const Verdict& verdict) {
    const std::vector<std::string> blames = blames_of(say, circuit, verdict);
    if (!blames.empty()) return say(Word::blames, listed(say, blames));
    return verdict.blames_nothing ? say(Word::blames_nothing) : "";
}

Box verdict_row(LayoutContext& context, int index) {
    const Axes& axis = context.axis;
    const Verdict& verdict = context.plan.verdicts[index];
    Box box;
    Pen pen = context.pen(box, verdict.at);
    const std::string& letter = context.order.letters[index];
    box.anchor = verdict_anchor(context.plan, index);
    tick_box(pen, axis.box, 1, "tick " + box.anchor);
    pennant(pen, axis.text, 0.5, mark_size, letter);

    const double first = 4.5 + pen.half_cap(type::main);
    const double taken = onward_room(context, pen, verdict), room = axis.narrow ? axis.right - title_x(axis) - taken : 58;
    const double title_lines = pen.lines(title_x(axis), first, room, type::main, verdict.title);
    double y = first + (title_lines - 1) * pen.leading(type::main) + 4.6;
    const std::string blames = blamed(context.say, context.plan.circuit, verdict);
    if (!blames.empty()) y = detail(pen, y, room, type::how, blames);
    for (const Words& caution : verdict.cautions)
        y = detail(pen, y, room, type::how_bold, context.say(Word::caution, caution.text));
    for (const Words& note : verdict.notes)
        y = detail(pen, y, room, type::how, note.text);
    const double onward_end = onward(context, pen, verdict);
    double repaired = axis.narrow ? std::max(y + 0.5, onward_end + 2 * pen.half_cap(type::words)) : first;
    for (const Words& repair : verdict.repairs) {
        pen.point_at(repair.at);
        repaired += pen.leading(type::words) * pen.lines(repair_x(axis), repaired, axis.right - repair_x(axis) - (axis.narrow ? 0 : taken),
                                                         type::words, repair.text) +
                    0.8;
    }
    pen.point_at(verdict.at);

    box.height = std::max({10.0, y - pen.leading(type::how) + 2.5, repaired - pen.leading(type::words) + 1.5, onward_end});
    pen.line(axis.edge, box.height, axis.right, box.height, stroke::rule);
    pen.region(page::Role::cell, axis.edge, 0, axis.right - axis.edge, box.height, box.anchor);
    box.height += 0.8;
    return box;
}

} // namespace

Block verdicts_block(LayoutContext& context) {
    Block block;
    block.title = block_title(context, context.say(Word::verdict), context.say(Word::verdict_note));
    block.new_page = true;
    for (const int verdict : context.order.verdicts)
        block.rows.push_back(verdict_row(context, verdict));
    return block;
}

} // namespace loomsheet
