// The proof sheet's table: what every check must read on any sound car.
#include "sheet/blocks/blocks.hpp"
#include "sheet/blocks/reading_line.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/told.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

double points_x(const Axes& axis) { return axis.edge + 11; }
double reads_x(const Axes& axis) { return axis.across(106); }
double limit_x(const Axes& axis) { return axis.across(148); }

} // namespace

Box reading_line(LayoutContext& context, Span at, const ReadingLine& line) {
    const Axes& axis = context.axis;
    Box box;
    Pen pen = context.pen(box, at);
    const double first = 4.2;
    if (line.marked)
        tab(pen, axis.edge, first - 3.6, 4.8, line.number);
    else
        pen.text(axis.edge, first, type::how_bold, line.number);
    int lines = pen.lines(points_x(axis), first, reads_x(axis) - points_x(axis) - 2, type::how, line.points);
    lines = std::max(lines, pen.lines(reads_x(axis), first, limit_x(axis) - reads_x(axis) - 2, type::how_bold, line.reads));
    lines = std::max(lines, pen.lines(limit_x(axis), first, axis.right - limit_x(axis), type::how, line.more));
    box.height = first + (lines - 1) * pen.leading(type::how) + 1.6;
    pen.line(axis.edge, box.height, axis.right, box.height, stroke::rule);
    return box;
}

std::string points_told(const Wording& say, const Plan& plan, const Check& check, const Row& row) {
    const std::string red = told_point(say, plan.circuit, row.red);
    const bool one = check.measure == MeasureKind::amps || check.measure == MeasureKind::clamp;
    const std::string points = one ? red : say(Word::from_to, red, told_point(say, plan.circuit, row.black));
    return row.name.empty() ? points : say(Word::proof_two, row.name, points);
}

Block proof_readings_block(LayoutContext& context) {
    const Wording& say = context.say;
    Block block;
    const Plan& plan = context.plan;
    block.title = block_title(context, say(Word::proof_readings), say(Word::proof_readings_note));
    for (const int index : context.order.checks) {
        const Check& check = plan.checks[index];
        const CheckPrediction& made = (*context.prediction)[index];
        const std::string number = std::to_string(context.order.numbers[index]);
        if (check.measure == MeasureKind::look)
            block.rows.push_back(reading_line(
                context, check.at, {number, check.title, say(Word::proof_two, say(Word::proof_look), told_seen(say, check, made)), ""}));
        for (std::size_t r = 0; r < check.rows.size(); ++r) {
            const RowPrediction& row = made.rows[r];
            block.rows.push_back(
                reading_line(context, check.at,
                             {r == 0 ? number : "", points_told(say, plan, check, check.rows[r]),
                              told_range(say, plan.circuit, row, check.measure), row.limit ? told_limit(say, plan, *row.limit) : ""}));
        }
    }
    return block;
}

} // namespace loomsheet
