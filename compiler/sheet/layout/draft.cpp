#include "sheet/layout/draft.hpp"

namespace loomsheet {

std::string check_anchor(const Plan& plan, int check) { return "check " + plan.checks[check].label; }
std::string verdict_anchor(const Plan& plan, int verdict) { return "verdict " + plan.verdicts[verdict].label; }

Piece block_title(Draft& draft, const std::string& title, const std::string& note) {
    constexpr double first = 4.2, under = 1.8, gap = 4;
    const double room = axis::right - axis::edge;
    Piece piece;
    Pen pen = draft.pen(piece, draft.plan.at);
    double last = first + (pen.lines(axis::edge, first, room, type::block, title) - 1) * leading(type::block);
    if (pen.width(type::block, title) + gap + pen.width(type::note, note) <= room)
        pen.right(axis::right, first, type::note, note);
    else if (!note.empty())
        last += leading(type::note) * pen.lines(axis::edge, last + leading(type::note), room, type::note, note);
    const double rule = last + under;
    pen.line(axis::edge, rule, axis::right, rule, stroke::heavy);
    pen.region(page::Role::block, axis::edge, 0, axis::right - axis::edge, rule, "title " + title);
    piece.height = rule + 1;
    piece.outline = title;
    return piece;
}

} // namespace loomsheet
