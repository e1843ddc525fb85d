#include "sheet/card/card.hpp"
#include "faults/outcome.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/item.hpp"
#include "sheet/words/run.hpp"
#include "sheet/words/state.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <optional>

namespace loomsheet {
namespace {

constexpr std::size_t most_ranked = 3;

} // namespace

bool needs_helper(const Check& check) {
    const bool reads = check.measure != MeasureKind::look && check.measure != MeasureKind::nothing;
    return reads && std::any_of(check.with.items.begin(), check.with.items.end(), [](const SetupItem& item) {
               return item.kind == ItemKind::pressed || item.kind == ItemKind::moved ||
                      (item.kind == ItemKind::key && item.word == "crank");
           });
}

double foot_row(Card& card, double top, const std::string& label, const std::string& words) {
    const Axes& axis = card.axis;
    constexpr double first = 3.9;
    const double room = axis.right - axis.words;
    Pen& pen = card.pen;
    pen.line(axis.edge, top, axis.right, top, stroke::rule);
    const int labels = pen.lines(axis.label, top + first, axis.words - axis.label - 2, type::how_bold, label);
    const int count = pen.lines(axis.words, top + first, room, type::how, words);
    return top + first + (std::max(labels, count) - 1) * pen.leading(type::how) + 1.5;
}

namespace {

// As many as fit one line; the rest is counted, together with `more`, and not dropped in silence.
std::string suspects_in_line(const Wording& say, const Pen& pen, const std::vector<std::string>& suspects, std::size_t more = 0) {
    const double room = pen.axis.right - pen.axis.words;
    std::string line;
    for (std::size_t i = 0; i < suspects.size(); ++i) {
        const std::string longer = i == 0 ? suspects[0] : line + say(Word::dot) + suspects[i];
        const std::size_t left = suspects.size() - i - 1 + more;
        const std::string with_rest = left > 0 ? say(Word::and_more, longer, left) : longer;
        if (i > 0 && pen.width(type::how, with_rest) > room) return say(Word::and_more, line, left + 1);
        line = longer;
    }
    return more > 0 ? say(Word::and_more, line, more) : line;
}

// What to do when the reading is not clear. A look at something that rattles has the outcome that the proof gives it.
std::string in_doubt(const Wording& say, const Check& check) {
    if (check.measure != MeasureKind::look) return say(Word::jumps);
    const OutcomeSet rattling = outcome_of_rattling(check), left_out = outcome_bit(check.outcomes.size());
    const auto is = [&](OutcomeKind kind) {
        for (std::size_t i = 0; i < check.outcomes.size(); ++i)
            if (check.outcomes[i].kind == kind && (rattling & outcome_bit(i))) return true;
        return false;
    };
    if (is(OutcomeKind::answer)) return say(Word::does_not_fit); // an answer says that it rattles
    if (rattling == left_out && !leaves_something(check)) return say(Word::jumps);
    const bool answers =
        std::any_of(check.outcomes.begin(), check.outcomes.end(), [](const Outcome& each) { return each.kind == OutcomeKind::answer; });
    return say(Word::comes_and_goes, say(answers ? Word::anything_else : Word::no));
}

// Dial and readings beside the outcomes; the last remark under whichever column ends higher.
double below_the_leads(Card& card, double top) {
    const Axes& axis = card.axis;
    constexpr double first = 3.2; // baseline under what ends
    const double reading = card_reading(card, top), outcomes = card_outcomes(card, top);
    if (!card.shows(CardPart::outcomes)) return std::max(reading, outcomes);
    const std::string words = in_doubt(card.say, card.check);
    const auto ends = [&](double y, double room) {
        const auto lines = static_cast<double>(card.pen.wrap(type::how, room, words).size());
        return y + first + (lines - 1) * card.pen.leading(type::how) + 1.2;
    };
    const double room = axis.right - axis.wire;
    const double under_outcomes = std::max(reading, ends(outcomes, room));
    const double under_reading = std::max(outcomes, ends(reading, card::field_width));
    if (under_outcomes <= under_reading)
        card.pen.lines(axis.wire, outcomes + first, room, type::how, words);
    else
        card.pen.lines(axis.probe, reading + first, card::field_width, type::how, words);
    return std::min(under_outcomes, under_reading);
}

std::string whole_setup(const Card& card) {
    Setup setup = setup_of(card.check);
    for (SetupItem& item : setup.items)
        forget_ends_in_rows(item, card.check);
    std::string words = setup_words(card.say, card.circuit(), setup);
    for (const PanelId panel : card.context.routes.panels_of(card.index)) {
        const Panel& one = card.circuit().panels[panel];
        words += card.say(Word::dot) + card.say(Word::state_panel, one.name.empty() ? one.label : one.name);
    }
    return words;
}

} // namespace

std::vector<std::string> reading_names(const Plan& plan, const Check& check) {
    std::vector<std::string> names;
    for (const Row& row : check.rows)
        if (check.rows.size() > 1) names.push_back(row.name);
    if (names.empty())
        for (const SetupItem& item : check.with.items)
            for (const PartId part : item.parts)
                names.push_back(plan.circuit.parts[part].id);
    if (names.empty()) names.emplace_back();
    return names;
}

double card_title(Card& card) {
    const Axes& axis = card.axis;
    const Wording& say = card.say;
    Pen& pen = card.pen;
    const std::string number = std::to_string(card.context.order.numbers[card.index]);
    pen.line(axis.edge, 0, axis.right, 0, stroke::heavy);
    const double start = std::max(axis.text, axis.edge + tab_width(pen, tab_size, number) + 3);
    tab(pen, axis.edge, 0, tab_size, number);

    constexpr double middle = 5.9;
    std::vector<std::string> side;
    if (card.check.time) side.push_back(minutes(say, *card.check.time));
    if (needs_helper(card.check)) side.push_back(say(Word::helper));
    if (card.check.exercise) side.push_back(say(Word::exercise));
    if (!card.opens) side = {say(Word::continued)};
    const std::string beside = listed(say, side);
    pen.right(axis.right, middle + pen.half_cap(type::minutes), type::minutes, beside);
    const double room = axis.right - start - (beside.empty() ? 0 : pen.width(type::minutes, beside) + 4);
    const int count = pen.lines(start, middle + pen.half_cap(type::check_title), room, type::check_title, card.check.title);
    return card::columns + (count - 1) * pen.leading(type::check_title);
}

double card_foot(Card& card, double top) {
    const Wording& say = card.say;
    double y = top;
    if (card.shows(CardPart::state)) y = foot_row(card, y, say(Word::whole_setup), whole_setup(card));
    if (card.shows(CardPart::notes))
        for (const Words& note : card.check.notes) {
            card.pen.point_at(note.at);
            y = foot_row(card, y, say(Word::note), note.text);
            card.pen.point_at(card.check.at);
        }
    y = class_foot(card, y);
    if (!card.shows(CardPart::suspects)) return y;
    if (const Diagnosis* diagnosis = card.context.diagnosis) {
        std::vector<RankedSuspect> ranked = suspects_if_failing(*diagnosis, card.plan(), card.index);
        const std::size_t more = ranked.size() - std::min(ranked.size(), most_ranked);
        ranked.resize(ranked.size() - more);
        if (!ranked.empty())
            return foot_row(card, y, say(Word::if_it_fails_likeliest),
                            suspects_in_line(say, card.pen, placed_words(say, card.circuit(), ranked), more));
    }
    const std::vector<std::string> named = suspects_of(say, card.plan(), card.check);
    if (!named.empty()) y = foot_row(card, y, say(Word::if_it_fails), suspects_in_line(say, card.pen, named));
    return y;
}

namespace {

// Rows `first` to `end` of a check; `part` counts from 1.
Box card_part(LayoutContext& context, int index, std::size_t first, std::size_t end, bool closes, int part) {
    const Axes& axis = context.axis;
    const Check& check = context.plan.checks[index];
    const bool opens = part == 1;
    Box box;
    Pen pen = context.pen(box, check.at);
    Card card{context, pen, index, check, check_anchor(context.plan, index), first, end, opens, closes};
    const double top = card_title(card);
    // Set-up beside the leads, or over them.
    const double over = axis.narrow && opens ? card_setup(card, top) : top;
    if (over > top) pen.line(axis.edge, over, axis.right, over, stroke::rule);
    const double leads = card_leads(card, over > top ? over + 1 : top);
    if (closes && card.has_rows()) pen.line(axis.probe, leads, axis.right, leads, stroke::rule);
    const double beside = !axis.narrow && opens ? card_setup(card, top) : top;
    const double body = std::max(beside, closes ? below_the_leads(card, leads) : leads);
    if (!axis.narrow && opens) class_column(card, beside, body);
    if (!axis.narrow) pen.line(axis.divider, top + 0.5, axis.divider, body, stroke::rule);
    const double foot = closes ? card_foot(card, body + 1) : foot_row(card, body + 1, "", context.say(Word::goes_over));
    box.height = axis.narrow || !opens || !closes ? foot : std::max(card::least, foot);
    if (opens) {
        box.anchor = card.name;
        box.outline = context.say(Word::outline_check, context.order.numbers[index], check.title);
    }
    const std::string region = opens ? card.name : fmt::format("{} part {}", card.name, part);
    pen.region(page::Role::card, axis.edge, 0, axis.right - axis.edge, box.height, region);
    return box;
}

} // namespace

std::vector<Box> check_card(LayoutContext& context, int index, double page_room) {
    const std::size_t rows = std::max<std::size_t>(1, context.plan.checks[index].rows.size());
    std::vector<Box> parts;
    for (std::size_t first = 0;;) {
        const int part = static_cast<int>(parts.size()) + 1;
        Box rest = card_part(context, index, first, rows, true, part);
        std::size_t end = rest.height > page_room ? rows + 1 : 0;
        std::optional<Box> fits;
        while (end-- > (part == 1 ? 0 : first + 1)) // as many rows as there is room for; the set-up alone at the worst
            if (fits = card_part(context, index, first, end, false, part); fits->height <= page_room) break;
        if (!fits || fits->height > page_room) return parts.push_back(std::move(rest)), parts; // the pager says what is too high
        parts.push_back(std::move(*fits));
        first = end;
    }
}

} // namespace loomsheet
