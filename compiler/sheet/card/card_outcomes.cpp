// The outcomes: a mark to tick, the limit in words, the name, number and page of where it leads.
#include "sheet/card/lead.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/limit.hpp"
#include "sheet/words/run.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <iterator>

namespace loomsheet {
namespace {

constexpr double before_arrow = 1, after_arrow = 1.5, least_arrow = 4.5;
constexpr double row_least = 10;

struct Way {
    std::string name;   // of where it leads
    std::string number; // of the check, or the letter of the verdict, or "DONE", "STOP"
    std::string anchor; // empty: no page
    TargetKind kind;
};

// What a stop prints: who is left on the ways that lead here, likeliest first; else what the plan names.
std::string stop_words(const Card& card, const Target& target, std::size_t outcome) {
    const Wording& say = card.say;
    constexpr std::size_t most_left = 5;
    if (card.context.diagnosis) {
        std::vector<std::string> left = suspect_words(say, card.circuit(), suspects_at(*card.context.diagnosis, card.index, outcome));
        const std::size_t more = left.size() > most_left ? left.size() - most_left : 0;
        left.resize(left.size() - more);
        const std::string line = join(left, say(Word::dot));
        if (!left.empty()) return say(Word::stop_left, more > 0 ? say(Word::and_more, line, more) : line);
    }
    if (!target.run_is_span || target.run.size() != 2) return say(Word::stop_name);
    return say(Word::stop_between, point_words(say, card.circuit(), target.run[0]), point_words(say, card.circuit(), target.run[1]));
}

Way way_of(const Card& card, const Target& target, std::size_t outcome) {
    const Plan& plan = card.plan();
    const Order& order = card.context.order;
    if (target.index != none && (target.kind == TargetKind::check || target.kind == TargetKind::next))
        return {plan.checks[target.index].title, std::to_string(order.numbers[target.index]), check_anchor(plan, target.index),
                TargetKind::check};
    if (target.index != none && target.kind == TargetKind::verdict)
        return {plan.verdicts[target.index].title, order.letters[target.index], verdict_anchor(plan, target.index), TargetKind::verdict};
    if (target.kind == TargetKind::done) return {card.say(Word::done_name), card.say(Word::done), "closing", TargetKind::done};
    return {stop_words(card, target, outcome), card.say(Word::stop), "", TargetKind::suspects};
}

double destination_width(const Pen& pen, const Way& way) {
    if (way.kind == TargetKind::check) return tab_width(pen, mark_size, way.number);
    if (way.kind == TargetKind::verdict) return pennant_width(pen, mark_size, way.number);
    return pen.width(type::main, way.number);
}

// Moved left where a wide sign leaves no room for the arrow.
double page_end_before(const Pen& pen, const Way& way) {
    constexpr double page_end = 16.5; // before the right edge: page numbers end here, arrows begin
    return std::min(pen.axis.right - page_end, pen.axis.right - destination_width(pen, way) - after_arrow - least_arrow - before_arrow);
}

// Page, arrow and sign at the right end of the row.
void destination(Card& card, double y, const Way& way) {
    Pen& pen = card.pen;
    constexpr double size = mark_size, line = 3.2;
    const double left = card.axis.right - destination_width(pen, way), end = page_end_before(pen, way);
    if (way.kind == TargetKind::check)
        tab(pen, left, y + 1, size, way.number);
    else if (way.kind == TargetKind::verdict)
        pennant(pen, left, y + 1, size, way.number);
    else
        pen.text(left, y + line + pen.half_cap(type::main), type::main, way.number);
    if (!way.anchor.empty())
        pen.later(way.anchor, [=, &say = card.context.say](Pen& at, std::size_t page) {
            at.right(end, y + line + at.half_cap(type::words), type::words, say(Word::page_short, page + 1));
        });
    arrow(pen, end + before_arrow, left - after_arrow, y + line);
}

// Room for the limit beside the page number, as wide as the widest of this sheet: so no line depends on a page number.
double limit_room(const Card& card, const Way& way) {
    const std::string widest = card.say(Word::page_short, std::string(card.context.page_figures, '0'));
    return page_end_before(card.pen, way) - card.axis.limit - (way.anchor.empty() ? 0 : card.pen.width(type::words, widest) + 1.5);
}

// "reading 1 ____ − 0.8 = ____ V"
double sum_row(Card& card, double y, const Sum& sum) {
    const Axes& axis = card.axis;
    constexpr double most_blank = 16, least_blank = 11, gap = 1.2;
    Pen& pen = card.pen;
    const int reference = card.context.order.numbers[sum.reference];
    const std::string texts[] = {sum.row.empty() ? card.say(Word::reading_number, reference)
                                                 : card.say(Word::reading_number_row, sum.row, reference),
                                 card.say(sum.minus ? Word::minus_equals : Word::plus_equals, sum.figure), sum.unit};
    double room = axis.right - axis.wire + gap; // for the two blanks
    for (const std::string& words : texts)
        room -= pen.width(type::main, words) + gap;
    const double blank = std::min(most_blank, room / 2 - gap);
    if (blank < least_blank)
        pen.does_not_fit(fmt::format("the row's name \"{}\" leaves no room for the sum with reading {}", sum.row, reference), "shorten it");
    const double base = y + 8.2;
    double x = axis.wire;
    for (const std::string& words : texts) {
        pen.text(x, base, type::main, words);
        x += pen.width(type::main, words) + gap;
        if (&words == std::end(texts) - 1) break;
        pen.line(x, base + 0.5, x + std::max(blank, 1.0), base + 0.5, stroke::rule);
        x += blank + gap;
    }
    return y + 10;
}

// Printed with its row, not here.
bool belongs_to_row(const Check& check, const OutcomeLine& line) {
    return check.rows.size() > 1 && line.outcome && !line.outcome->row.empty();
}

} // namespace

double outcome_row(Card& card, double y, const OutcomeLine& line) {
    const Axes& axis = card.axis;
    Pen& pen = card.pen;
    static const Target stop{TargetKind::suspects, none, {}, false, {}};
    const std::size_t outcome =
        line.outcome ? static_cast<std::size_t>(line.outcome - card.check.outcomes.data()) : card.check.outcomes.size();
    const Way way = way_of(card, line.outcome ? line.outcome->target : stop, outcome);
    const auto mark = line.good ? pass_mark : fail_mark;
    mark(pen, axis.wire + mark_size / 2 + 0.2, y + 1 + mark_size / 2);
    double base = y + 4.7;
    base += (pen.lines(axis.limit, base, limit_room(card, way), type::limit, line.words) - 1) * pen.leading(type::limit);
    const double name_room = axis.right - destination_width(pen, way) - 1.5 - axis.limit;
    for (const std::string& name : pen.wrap(type::how, name_room, way.name))
        pen.text(axis.limit, base += 4.0, type::how, name);
    destination(card, y, way);
    const double height = std::max(row_least, base + 1.1 - y);
    pen.region(page::Role::outcome, axis.wire, y, axis.right - axis.wire, height, fmt::format("{} outcome {}", card.name, outcome + 1));
    if (!way.anchor.empty())
        pen.later(way.anchor, [=, &axis](Pen& at, std::size_t page) { at.link(axis.wire, y, axis.right - axis.wire, height, page); });
    return y + height;
}

double card_outcomes(Card& card, double top) {
    double y = top + 0.6;
    if (!card.shows(CardPart::outcomes)) return y;
    if (card.shows(CardPart::limits))
        for (const Sum& sum : sums_of(card.say, card.check))
            y = sum_row(card, y, sum);
    for (const OutcomeLine& line : card.outcomes())
        if (!belongs_to_row(card.check, line)) y = outcome_row(card, y, line);
    return y;
}

} // namespace loomsheet
