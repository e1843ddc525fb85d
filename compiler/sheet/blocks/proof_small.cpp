// The proof sheet's table of poor joints: from how many ohms on they harm, and from how many on they are surely seen.
#include "proof/blind.hpp"
#include "sheet/blocks/blocks.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>
#include <array>

namespace loomsheet {
namespace {

using SmallCells = std::array<std::string, 4>;

Box small_line(LayoutContext& context, double first, const std::array<Style, 4>& styles, const SmallCells& cells) {
    constexpr double starts[] = {18, 70, 100, 134, 200}; // on A4
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    double end = first;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const double x = context.axis.across(starts[i]), room = context.axis.across(starts[i + 1]) - x - 2;
        end = std::max(end, first + (pen.lines(x, first, room, styles[i], cells[i]) - 1) * pen.leading(styles[i]));
    }
    box.height = end;
    return box;
}

Box small_captions(LayoutContext& context) {
    const Wording& say = context.say;
    Box box =
        small_line(context, 3.6, {type::caption, type::caption, type::caption, type::caption},
                   {say(Word::proof_small_place), say(Word::proof_small_harm), say(Word::proof_small_seen), say(Word::proof_small_by)});
    box.height += 1;
    return box;
}

std::string small_seen(const Wording& say, const SeenFrom& seen) {
    return seen.ohms ? ohms_printed(added_words(*seen.ohms)) : say(seen.open ? Word::small_open : Word::small_no_reading);
}

std::string small_by(const Wording& say, const Plan& plan, const SmallRow& row) {
    if (row.seen.check != none) return plan.checks[row.seen.check].label;
    return say(row.found ? Word::small_left : Word::small_no_check);
}

Box small_row(LayoutContext& context, const SmallRow& row) {
    const Axes& axis = context.axis;
    const std::string place = told_point(context.say, context.plan.circuit, row.place);
    Box box = small_line(
        context, 4.2, {type::how, type::how_bold, type::how, type::how},
        {place, ohms_printed(added_words(row.harms_from)), small_seen(context.say, row.seen), small_by(context.say, context.plan, row)});
    Pen pen = context.pen(box, context.plan.at);
    box.height += 1.6;
    pen.line(axis.edge, box.height, axis.right, box.height, stroke::rule);
    pen.region(page::Role::cell, axis.edge, 0, axis.right - axis.edge, box.height, "small " + place);
    return box;
}

} // namespace

Block proof_small_block(LayoutContext& context) {
    Block block;
    const Predictor sound(context.plan.circuit, system_volts(context.plan));
    const std::vector<SmallRow> rows = small_rows(context.plan, sound, *context.diagnosis, most_proof_rows);
    const auto late = static_cast<std::size_t>(std::count_if(rows.begin(), rows.end(), [](const SmallRow& row) { return row.late; }));
    block.title =
        block_title(context, context.say(Word::proof_small), context.say(Word::proof_small_note, rows.size() - late, rows.size()));
    block.captions = small_captions(context);
    for (const SmallRow& row : rows)
        if (row.late && block.rows.size() < most_proof_rows) block.rows.push_back(small_row(context, row));
    if (late > most_proof_rows) block.rows.push_back(more_row(context, late - most_proof_rows));
    return block;
}

} // namespace loomsheet
