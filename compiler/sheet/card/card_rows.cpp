// A check of several rows: each stands with its leads, its blank, its limit and its own outcomes; what counts for all
// of them stands below, at the usual place.
#include "sheet/card/lead.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/words/limit.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr double blank_height = 10;

bool same_spot(const Spot& a, const Spot& b) { return a.name == b.name && a.place == b.place && a.metal == b.metal; }

// What the class predicts, or what it should.
double predicted(Card& card, double y, const Row& row, const Dial& dial, double width) {
    const Axes& axis = card.axis;
    Pen& pen = card.pen;
    const bool answered = card.shows(CardPart::answered);
    const std::string filled = answered ? sound_words(card, static_cast<std::size_t>(&row - card.check.rows.data())) : std::string();
    const std::vector<std::string> lines = pen.wrap(type::how_bold, width - 3, filled);
    const double height = std::max(blank_height, 5 + pen.leading(type::how_bold) * static_cast<double>(lines.size()));
    field(pen, axis.face, y + 0.5, width, height, card.say(Word::predicted), answered ? "" : dial.unit);
    if (answered) pen.lines(axis.face + 1.5, y + 8.2, width - 3, type::how_bold, filled);
    pen.region(answered ? page::Role::cell : page::Role::reading, axis.face, y + 0.5, width, height, card.name + " predicted " + row.name);
    return y + height + 2;
}

// The blank at the right, the row's own limit under it.
double blank(Card& card, double y, const Row& row, const Dial& dial) {
    const Axes& axis = card.axis;
    Pen& pen = card.pen;
    const double blank_width = axis.right - axis.face;
    if (card.shows(CardPart::answered) || card.shows(CardPart::predicted)) y = predicted(card, y, row, dial, blank_width);
    if (!card.shows(CardPart::blanks)) return y;
    field(pen, axis.face, y + 0.5, blank_width, blank_height, card.shows(CardPart::predicted) ? dial.caption : "", dial.unit);
    pen.region(page::Role::reading, axis.face, y + 0.5, blank_width, blank_height, card.name + " reading " + row.name);
    const Limit* limit = limit_of(card.check, row.name);
    if (!limit || !has_own_limits(card.check) || !card.shows(CardPart::limits)) return y + blank_height + 1.5;
    const double first = y + blank_height + 5.4;
    const int count = pen.lines(axis.face, first, blank_width, type::main, limit_words(card.say, *limit, card.check.measure));
    return first + (count - 1) * pen.leading(type::main) + 1.5;
}

// What stands above is not said again: the place, or all but the name and the wire.
Said said_above(const std::vector<Lead>& above, const Lead& lead) {
    Said said = Said::nothing;
    for (const Lead& other : above) {
        if (same_spot(other.spot, lead.spot)) return Said::point;
        if (other.spot.place == lead.spot.place) said = Said::place;
    }
    return said;
}

double own_outcomes(Card& card, double y, const Row& row) {
    for (const OutcomeLine& line : card.outcomes())
        if (line.outcome && line.outcome->row == row.name) y = outcome_row(card, y, line);
    return y;
}

} // namespace

double card_rows(Card& card, double top) {
    const Axes& axis = card.axis;
    const Dial dial = dial_of(card.say, card.plan(), card.check);
    const std::vector<Row>& rows = card.check.rows;
    std::vector<Lead> above; // their places need not be said again
    const std::vector<Lead> first_leads = leads_of(card, rows.front());
    const bool shared = first_leads.size() == 2 && std::all_of(rows.begin(), rows.end(), [&](const Row& row) {
                            return same_spot(leads_of(card, row)[1].spot, first_leads[1].spot);
                        });
    double y = top;
    if (shared) {
        y = lead_row(card, y, first_leads[1]) + 1;
        above.push_back(first_leads[1]);
    }
    for (std::size_t i = card.first_row; i < card.end_row; ++i) {
        const Row& row = rows[i];
        const double room = axis.right - axis.probe;
        if (i != card.first_row || shared) card.pen.line(axis.probe, y, axis.right, y, stroke::rule);
        card.pen.point_at(row.at);
        y += 4.6 + (card.pen.lines(axis.probe, y + 4.6, room, type::main, row.name) - 1) * card.pen.leading(type::main) + 1.4;
        const double start = y;
        std::vector<Lead> leads = leads_of(card, row);
        if (shared) leads.pop_back();
        for (const Lead& lead : leads) {
            y = lead_row(card, y, lead, said_above(above, lead));
            above.push_back(lead);
        }
        y = std::max(y, blank(card, start, row, dial));
        if (card.shows(CardPart::outcomes)) y = own_outcomes(card, y, row);
        y += 0.5;
    }
    card.pen.point_at(card.check.at);
    return y;
}

} // namespace loomsheet
