// The end of the sheet: readings copied from the cards, putting back together, sign-off.
#include "sheet/blocks/blocks.hpp"
#include "sheet/blocks/fields.hpp"
#include "sheet/card/card.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/card/tick_list.hpp"
#include "sheet/words/state.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>
#include <set>

namespace loomsheet {
namespace {

constexpr double cell_gap = 2.5;
std::size_t cells_a_row(const Axes& axis) { return axis.narrow ? 3 : 5; }
double cell_width(const Axes& axis) {
    const auto count = static_cast<double>(cells_a_row(axis));
    return (axis.right - axis.edge - (count - 1) * cell_gap) / count;
}

struct Cell {
    int check;
    std::string name; // of the reading, where there are several
};

double number_width(const LayoutContext& context, const Pen& pen, const Cell& cell) {
    return tab_width(pen, mark_size, std::to_string(context.order.numbers[cell.check]));
}

double cell_height(const LayoutContext& context, const Pen& pen, const Cell& cell) {
    constexpr double least = 12;
    if (cell.name.empty()) return least;
    const auto lines =
        static_cast<double>(pen.wrap(type::caption, cell_width(context.axis) - number_width(context, pen, cell) - 2, cell.name).size());
    return std::max(least, 3.6 + lines * pen.leading(type::caption) + 4.5);
}

void draw_cell(LayoutContext& context, Pen& pen, const Cell& cell, double x, double height) {
    const Axes& axis = context.axis;
    const Dial dial = dial_of(context.say, context.plan, context.plan.checks[cell.check]);
    const std::string number = std::to_string(context.order.numbers[cell.check]);
    pen.rect(x, 0, cell_width(axis), height, stroke::rule);
    tab(pen, x, 0, mark_size, number);
    const double inner = x + number_width(context, pen, cell) + 1;
    if (!cell.name.empty()) pen.lines(inner, 3.6, x + cell_width(axis) - inner - 1, type::caption, cell.name);
    if (!dial.unit.empty()) {
        pen.right(x + cell_width(axis) - 1.5, height - 1.8, type::block, dial.unit);
    } else {
        pass_mark(pen, x + cell_width(axis) - 16, height - 6);
        fail_mark(pen, x + cell_width(axis) - 5.5, height - 6);
    }
    pen.region(page::Role::field, x, 0, cell_width(axis), height,
               "check " + context.plan.checks[cell.check].label + " reading" + (cell.name.empty() ? "" : " " + cell.name)); // of the card
}

// Everything that any check unplugs, pulls, bridges, loads, switches on: each once, as one set-up.
Setup all_of(const Plan& plan) {
    Setup all;
    for (const Check& check : plan.checks)
        for (const SetupItem& item : setup_of(check).items) {
            const auto same = [&](const SetupItem& other) { return same_subject(other, item); };
            if (std::none_of(all.items.begin(), all.items.end(), same)) all.items.push_back(item);
        }
    return all;
}

std::vector<std::string> put_back(const LayoutContext& context) {
    const Wording& say = context.say;
    const Plan& plan = context.plan;
    std::vector<std::string> words;
    const auto add = [&](std::string one) {
        if (std::find(words.begin(), words.end(), one) == words.end()) words.push_back(std::move(one));
    };
    for (const Change& change : changes(all_of(plan), {}))
        for (std::string& one : put_back_words(say, plan.circuit, change.item))
            add(std::move(one));
    for (std::size_t i = 0; i < plan.checks.size(); ++i)
        for (const PanelId panel : context.routes.panels_of(static_cast<int>(i))) {
            const Panel& one = plan.circuit.panels[panel];
            add(say(Word::panel_on, one.name.empty() ? one.label : one.name));
        }
    if (!plan.codes.empty()) add(say(Word::codes_cleared));
    add(say(Word::tools_counted));
    return words;
}

} // namespace

Block readings_block(LayoutContext& context) {
    const Axes& axis = context.axis;
    Block block;
    block.title = block_title(context, context.say(Word::readings), context.say(Word::readings_note));
    std::vector<Cell> cells;
    for (const int check : context.order.checks)
        for (const std::string& name : reading_names(context.plan, context.plan.checks[check]))
            cells.push_back({check, name});
    for (std::size_t first = 0; first < cells.size(); first += cells_a_row(axis)) {
        const std::size_t last = std::min(cells.size(), first + cells_a_row(axis));
        Box box;
        Pen pen = context.pen(box, context.plan.at);
        double height = 0;
        for (std::size_t i = first; i < last; ++i)
            height = std::max(height, cell_height(context, pen, cells[i]));
        for (std::size_t i = first; i < last; ++i)
            draw_cell(context, pen, cells[i], axis.edge + static_cast<double>(i - first) * (cell_width(axis) + cell_gap), height);
        box.height = height + cell_gap;
        block.rows.push_back(std::move(box));
    }
    return block;
}

Block closing_block(LayoutContext& context) {
    Block block;
    block.together = true;
    block.title = block_title(context, context.say(Word::putting_back), context.say(Word::putting_back_note));
    block.title->anchor = closing_anchor;
    block.rows = tick_list(context, put_back(context), "put back");
    return block;
}

Block sign_off_block(LayoutContext& context) {
    Block block;
    block.together = true;
    block.title = block_title(context, context.say(Word::sign_off), "");
    block.title->height += 1.5;
    block.rows = field_rows(context, context.sheet.sign_off, "sign-off");
    return block;
}

} // namespace loomsheet
