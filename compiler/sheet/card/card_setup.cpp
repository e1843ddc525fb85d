// The left of a card: its caution, what changes on each way here, the whole set-up, the steps.
#include "sheet/card/card.hpp"
#include "sheet/card/cautions.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/layout/route.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

double room(const Axes& axis) { return axis.divider - axis.text - 1.2; }

// Fills the height of the red lead's row; the boxes then start level with the black lead's.
double caution(Card& card, double top) {
    const Axes& axis = card.axis;
    constexpr double lead = 4.1;
    const std::vector<std::string> cautions = cautions_of(card.say, card.plan(), card.check);
    if (cautions.empty()) return top;
    warning_sign(card.pen, axis.edge + 1.6, top + 1, 9);
    double y = top + 3.6;
    for (const std::string& words : cautions)
        for (const std::string& line : card.pen.wrap(type::how_bold, room(axis), words)) {
            card.pen.text(axis.text, y, type::how_bold, line);
            y += lead;
        }
    constexpr double sign = 11.5;
    return std::max(top + (axis.narrow ? sign : card::lead_row), y - lead + 3);
}

double tick_row(Card& card, double y, const Step& step, int number, Style main, std::string_view what) {
    const Axes& axis = card.axis;
    Pen& pen = card.pen;
    tick_box(pen, axis.box, y, fmt::format("{} {} {}", card.name, what, number));
    const auto main_lines = static_cast<int>(pen.wrap(main, room(axis), step.main).size());
    const auto how_lines = step.how.empty() ? 0 : static_cast<int>(pen.wrap(type::how, room(axis), step.how).size());
    const bool centred = main_lines == 1 && how_lines == 0 && step.blank.empty();
    double baseline = y + (centred ? tick_size / 2 + pen.half_cap(main) : 3.3);
    pen.lines(axis.text, baseline, room(axis), main, step.main);
    baseline += (main_lines - 1) * pen.leading(main);
    if (how_lines > 0) {
        pen.lines(axis.text, baseline + 4.2, room(axis), type::how, step.how);
        baseline += 4.2 + (how_lines - 1) * pen.leading(type::how);
    }
    if (!step.blank.empty()) {
        baseline += 8.5;
        pen.line(axis.text, baseline + 0.6, axis.text + 24, baseline + 0.6, stroke::rule);
        pen.text(axis.text + 25.5, baseline, type::main, step.blank);
    }
    return std::max(y + 9, baseline + 2);
}

double lists(Card& card, double top) {
    const Axes& axis = card.axis;
    double y = top + 1;
    int number = 0;
    const Routes& routes = card.context.routes;
    for (const TickList& list : tick_lists(card.say, card.plan(), card.context.order, routes, card.index)) {
        if (!list.heading.empty()) {
            card.pen.lines(axis.text, y + 3.2, room(axis), type::how_bold, list.heading);
            y += 1 + card.pen.leading(type::how_bold) * static_cast<double>(card.pen.wrap(type::how_bold, room(axis), list.heading).size());
        }
        for (const Step& step : list.steps)
            y = tick_row(card, y, step, ++number, type::main, "tick");
        if (list.steps.empty()) {
            card.pen.text(axis.text, y + 3.6, type::words, card.say(Word::nothing_changes));
            y += 6.5;
        }
    }
    return y;
}

double steps(Card& card, double top) {
    double y = top;
    int number = 0;
    for (const Words& words : card.check.steps) {
        card.pen.point_at(words.at);
        y = tick_row(card, y, {words.text, "", ""}, ++number, type::words, "step");
    }
    card.pen.point_at(card.check.at);
    return y;
}

// Where something can start, or the check feeds what has no feed otherwise.
bool wants_the_teacher(const Card& card) {
    for (const SetupItem& item : setup_of(card.check).items)
        if (item.kind == ItemKind::bridge || item.kind == ItemKind::output_on || item.kind == ItemKind::engine_running) return true;
    return !card.check.cautions.empty();
}

double teacher(Card& card, double y) {
    return tick_row(card, y, {card.say(Word::show_teacher), card.say(Word::show_teacher_why), ""}, 1, type::main, "teacher");
}

} // namespace

double card_setup(Card& card, double top) {
    double y = card.shows(CardPart::caution) ? caution(card, top) : top;
    if (card.shows(CardPart::setup)) y = steps(card, lists(card, y));
    return card.shows(CardPart::teacher) && wants_the_teacher(card) ? teacher(card, y) : y;
}

} // namespace loomsheet
