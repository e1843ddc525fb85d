#include "sheet/layout/context.hpp"

namespace loomsheet {

std::string check_anchor(const Plan& plan, int check) { return "check " + plan.checks[check].label; }
std::string verdict_anchor(const Plan& plan, int verdict) { return "verdict " + plan.verdicts[verdict].label; }

Box block_title(LayoutContext& context, const std::string& title, const std::string& note) {
    const Axes& axis = context.axis;
    constexpr double first = 4.2, under = 1.8, gap = 4;
    const double room = axis.right - axis.edge;
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    double last = first + (pen.lines(axis.edge, first, room, type::block, title) - 1) * pen.leading(type::block);
    if (pen.width(type::block, title) + gap + pen.width(type::note, note) <= room)
        pen.right(axis.right, first, type::note, note);
    else if (!note.empty())
        last += pen.leading(type::note) * pen.lines(axis.edge, last + pen.leading(type::note), room, type::note, note);
    const double rule = last + under;
    pen.line(axis.edge, rule, axis.right, rule, stroke::heavy);
    pen.region(page::Role::block, axis.edge, 0, axis.right - axis.edge, rule, "title " + title);
    box.height = rule + 1;
    box.outline = title;
    return box;
}

} // namespace loomsheet
