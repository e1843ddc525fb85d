// Where the tips go, or what is looked at; and the connector as one sees it.
#include "sheet/card/housing.hpp"
#include "sheet/card/lead.hpp"
#include "sheet/card/socket.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/words/figure.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr double face_alone = 15, face_both = 11.4, face_beside = 11; // height of the drawing

// The connector, or the socket, that a lead is on.
PartId seen_at(const Lead& lead) { return lead.spot.connector != none ? lead.spot.connector : lead.spot.socket; }

double face_of(Card& card, double y, double height, const Lead& lead, const Lead* other) {
    const Axes& axis = card.axis;
    if (lead.spot.connector == none) {
        Socket seen{lead.spot.socket, {{lead.spot.cavity, lead.label, lead.solid}}};
        if (other) seen.probed.push_back({other->spot.cavity, other->label, other->solid});
        return socket(card.say, card.pen, card.circuit(), seen, axis.face, y + 0.8, axis.right - axis.face);
    }
    Housing seen{lead.spot.connector, lead.spot.view, {{lead.spot.cavity, lead.label, lead.solid}}};
    seen.brief = height <= face_beside;
    if (other) seen.probed.push_back({other->spot.cavity, other->label, other->solid});
    return housing(card.say, card.pen, card.circuit(), seen, axis.face, y + 0.8, axis.right - axis.face, height);
}

// The connector, once when both leads are on it, else beside each lead; returns where the lowest ends.
double faces_of(Card& card, const std::vector<Lead>& leads, const std::vector<double>& rows) {
    std::vector<std::size_t> on; // leads that are on a connector or in a socket
    for (std::size_t i = 0; i < leads.size(); ++i)
        if (seen_at(leads[i]) != none) on.push_back(i);
    if (on.empty() || !card.shows(CardPart::faces)) return 0;
    const Lead& first = leads[on.front()];
    if (on.size() == 1) return face_of(card, rows.front(), face_alone, first, nullptr);
    const Lead& second = leads[on.back()];
    if (seen_at(first) == seen_at(second)) return face_of(card, rows.front(), face_both, first, &second);
    const double end = face_of(card, rows[0], face_beside, first, nullptr);
    return face_of(card, std::max(rows[1], end + 1), face_beside, second, nullptr);
}

double probe(Card& card, double top) {
    if (card.check.rows.empty()) return top;
    const std::vector<Lead> leads = leads_of(card, card.check.rows.front());
    std::vector<double> rows;
    double y = top;
    for (const Lead& lead : leads) {
        rows.push_back(y);
        const bool as_above = &lead != &leads.front() && lead.spot.place == leads.front().spot.place;
        y = lead_row(card, y, lead, as_above ? Said::place : Said::nothing);
    }
    return std::max(y, faces_of(card, leads, rows));
}

// What to see, as a statement; the parts it is about beside the pill.
double look(Card& card, double top, Word label) {
    const Axes& axis = card.axis;
    Pen& pen = card.pen;
    lead_pill(card.say, pen, top, label, false);
    std::vector<std::string> names, places;
    for (const State& state : card.check.look_states.list) {
        const PartId part = part_of(card.circuit(), state.of);
        if (part == none || std::find(names.begin(), names.end(), card.circuit().parts[part].id) != names.end()) continue;
        names.push_back(card.circuit().parts[part].id);
        places.push_back(part_and_place(card.say, card.circuit(), part));
    }
    const double room = axis.right - axis.pin;
    double y = top + 4.5 + pen.half_cap(type::pin);
    if (!names.empty()) {
        y += (pen.lines(axis.pin, y, room, type::pin, join(names)) - 1) * pen.leading(type::pin) + 5.6;
        if (names.size() == 1) pen.lines(axis.pin, y, room, type::how, places.front());
        y = std::max(y + 3.5, top + card::lead_row - 1) + 2 * pen.half_cap(type::limit);
    }
    y += (pen.lines(axis.pin, y, room, type::limit, card.check.look) - 1) * pen.leading(type::limit);
    return y + 3;
}

} // namespace

double card_leads(Card& card, double top) {
    if (!card.shows(CardPart::leads) || !card.has_rows()) return top;
    double end = top;
    switch (card.check.measure) {
    case MeasureKind::look:
    case MeasureKind::nothing: end = look(card, top, Word::look); break;
    case MeasureKind::read: end = look(card, top, Word::read); break;
    case MeasureKind::volts:
    case MeasureKind::volts_ac:
    case MeasureKind::drop:
    case MeasureKind::ohms:
    case MeasureKind::continuity:
    case MeasureKind::amps:
    case MeasureKind::clamp:
    case MeasureKind::testlamp: end = card.check.rows.size() > 1 ? card_rows(card, top) : probe(card, top);
    }
    return card.axis.narrow ? end + 0.5 : std::max(end + 0.5, top + card::least_leads);
}

} // namespace loomsheet
