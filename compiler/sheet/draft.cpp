#include "sheet/draft.hpp"

namespace loomsheet {

std::string check_anchor(const Plan& plan, int check) { return "check " + plan.checks[check].label; }
std::string verdict_anchor(const Plan& plan, int verdict) { return "verdict " + plan.verdicts[verdict].label; }

Piece block_title(Draft& draft, const std::string& title, const std::string& note) {
    constexpr double rule = 6;
    Piece piece;
    Pen pen = draft.pen(piece, draft.plan.at);
    pen.text(axis::edge, rule - 1.8, type::block, title);
    pen.right(axis::right, rule - 1.8, type::note, note);
    pen.line(axis::edge, rule, axis::right, rule, stroke::heavy);
    pen.region(page::Role::block, axis::edge, 0, axis::right - axis::edge, rule, "title " + title);
    piece.height = rule + 1;
    piece.outline = title;
    return piece;
}

} // namespace loomsheet
