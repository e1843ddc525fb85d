// Where the tips go: the point, its metal, its wire, its place; or what is looked at; and the connector as one sees it.
#include "sheet/card.hpp"
#include "sheet/figure.hpp"
#include "sheet/housing.hpp"
#include "sheet/spot.hpp"
#include "sheet/swatch.hpp"
#include "sheet/symbol.hpp"
#include "sheet/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr double pin_room = axis::wire - axis::pin - 1.5;
constexpr double row_room = axis::face - axis::pin - 2;
constexpr double words_room = axis::face - axis::wire - 1;

struct Lead {
    Word label;
    bool solid;
    Spot spot;
};

std::vector<Colour> colours_of(const Circuit& circuit, const Spot& spot) {
    std::vector<Colour> colours;
    for (const WireId id : spot.wires) {
        const Colour& colour = circuit.wires[id].colour;
        const auto same = [&](const Colour& other) { return other.code() == colour.code(); };
        if (!colour.empty() && std::none_of(colours.begin(), colours.end(), same)) colours.push_back(colour);
    }
    return colours;
}

void lead_pill(Pen& pen, double y, Word label, bool solid) {
    const std::string words = say(label);
    const bool narrow = pen.width(type::block, words) > 14.5;
    pill(pen, axis::probe, y + 0.5, 17, 8, narrow ? type::block_narrow : type::block, words, solid);
}

// Code and swatch on the line of the pin, the words under them; gives the last baseline.
double wire_column(Card& card, double line, const std::vector<Colour>& colours) {
    Pen& pen = card.pen;
    std::vector<std::string> codes, words;
    for (const Colour& colour : colours) {
        codes.push_back(colour.code());
        words.push_back(card.circuit().colour_words(colour));
    }
    const int code_lines = pen.lines(axis::wire, line + half_cap(type::wire_code), words_room, type::wire_code,
                                     join(codes, say(Word::and_wire)));
    if (colours.size() == 1) swatch(pen, axis::swatch, line - swatch_height / 2, colours.front());
    const double first = line + 7.6 + (code_lines - 1) * leading(type::wire_code);
    const int count = pen.lines(axis::wire, first, words_room, type::words, join(words));
    return first + (count - 1) * leading(type::words);
}

// One lead in three lines: point and wire, metal and colour words, place. Gives where the next row may start.
double lead_row(Card& card, double y, const Lead& lead) {
    Pen& pen = card.pen;
    double line = y + 4.5;
    lead_pill(pen, y, lead.label, lead.solid);
    pen.text(axis::pin, line + half_cap(type::pin), type::pin, lead.spot.name);
    const std::vector<Colour> colours = colours_of(card.circuit(), lead.spot);
    const bool long_name = pen.width(type::pin, lead.spot.name) > pin_room;
    if (long_name && !colours.empty()) line += 9;
    double last = line + 7.6;
    if (!colours.empty()) last = wire_column(card, line, colours);
    const double metal_room = colours.empty() ? row_room : pin_room;
    const int metal_lines = pen.lines(axis::pin, line + 7.6, metal_room, type::words, lead.spot.metal);
    last = std::max(last, line + 7.6 + (metal_lines - 1) * leading(type::words)) + 4.1;
    const int place_lines = pen.lines(axis::pin, last, row_room, type::how, lead.spot.place);
    return std::max(y + card::lead_row, last + (place_lines - 1) * leading(type::how) + 1.3);
}

// Where the connector stands: beside the lead that is on it.
double face_of(Card& card, double y, double height, const Spot& red, const Spot* black) {
    if (red.connector == none) return y;
    Housing seen{red.connector, red.view, {red.cavity}};
    if (black && black->connector == red.connector && black->cavity != red.cavity) seen.probed.push_back(black->cavity);
    return housing(card.pen, card.circuit(), seen, axis::face, y + 0.8, axis::right - axis::face, height);
}

double faces_of(Card& card, double top, double black_row, const Spot& red, const Spot& black) {
    constexpr double alone = 17.6, beside = 11;
    const bool two = red.connector != none && black.connector != none && black.connector != red.connector;
    if (!two)
        return red.connector != none ? face_of(card, top, alone, red, &black)
                                     : face_of(card, top, alone, black, nullptr);
    const double first = face_of(card, top, beside, red, nullptr);
    return face_of(card, std::max(black_row, first + 1), beside, black, nullptr);
}

bool same_spot(const PointRef& a, const PointRef& b) {
    return a.metal == b.metal && a.part == b.part && a.pin == b.pin && a.wire == b.wire;
}

Spot spot_for(const Card& card, const PointRef& point, const PointRef& other) {
    return spot_of(card.circuit(), card.check.with, point, part_of(card.circuit(), other));
}

double two_leads(Card& card, double top) {
    const bool lamp = card.check.measure == MeasureKind::testlamp;
    const Word red_label = lamp ? Word::tip : Word::red, black_label = lamp ? Word::clip : Word::black;
    const std::vector<Row>& rows = card.check.rows;
    const bool shared_black =
        std::all_of(rows.begin(), rows.end(), [&](const Row& row) { return same_spot(row.black, rows.front().black); });
    double y = top;
    for (const Row& row : rows) {
        if (rows.size() > 1) {
            card.pen.lines(axis::probe, y + 3.8, axis::right - axis::probe, type::main, row.name);
            y += 1 + leading(type::main) *
                         static_cast<double>(card.pen.wrap(type::main, axis::right - axis::probe, row.name).size());
        }
        const Spot red = spot_for(card, row.red, row.black), black = spot_for(card, row.black, row.red);
        const double start = y;
        double black_row = lead_row(card, y, {red_label, false, red});
        y = black_row;
        const bool last = &row == &rows.back();
        if (!shared_black || last) y = lead_row(card, y, {black_label, true, black});
        const bool faces_both = !shared_black || rows.size() == 1;
        y = std::max(y, faces_both ? faces_of(card, start, black_row, red, black)
                                   : face_of(card, start, 17.6, red, nullptr));
    }
    return y;
}

// Around a wire, or in the place of a part.
double one_lead(Card& card, double top, Word label, Word metal) {
    double y = top;
    for (const Row& row : card.check.rows) {
        Spot spot = spot_for(card, row.red, row.red);
        spot.metal = say(metal);
        const PartId part = part_of(card.circuit(), row.red);
        spot.place = part == none ? "" : part_and_place(card.circuit(), part);
        spot.connector = none;
        y = lead_row(card, y, {label, false, spot});
    }
    return y;
}

// What to see, as a statement; the part it is about beside the pill.
double look(Card& card, double top, Word label) {
    Pen& pen = card.pen;
    lead_pill(pen, top, label, false);
    std::vector<std::string> names, places;
    for (const State& state : card.check.look_states.list) {
        const PartId part = part_of(card.circuit(), state.of);
        if (part == none || std::find(names.begin(), names.end(), card.circuit().parts[part].id) != names.end())
            continue;
        names.push_back(card.circuit().parts[part].id);
        places.push_back(part_and_place(card.circuit(), part));
    }
    const double room = axis::right - axis::pin;
    double y = top + 4.5 + half_cap(type::pin);
    if (!names.empty()) {
        y += (pen.lines(axis::pin, y, room, type::pin, join(names)) - 1) * leading(type::pin) + 5.6;
        y += (pen.lines(axis::pin, y, room, type::how, join(places, say(Word::dot))) - 1) * leading(type::how) + 3.5;
        y = std::max(y, top + card::lead_row + 1) + 2 * half_cap(type::limit);
    }
    y += (pen.lines(axis::pin, y, room, type::limit, card.check.look) - 1) * leading(type::limit);
    return y + 3;
}

} // namespace

double card_leads(Card& card, double top) {
    double end = top;
    switch (card.check.measure) {
    case MeasureKind::look:
    case MeasureKind::none: end = look(card, top, Word::look); break;
    case MeasureKind::read: end = look(card, top, Word::read); break;
    case MeasureKind::clamp: end = one_lead(card, top, Word::clamp_pill, Word::around_it); break;
    case MeasureKind::amps: end = one_lead(card, top, Word::in_line, Word::in_its_place); break;
    default: end = two_leads(card, top); break;
    }
    return std::max(end + 0.5, top + 2 * card::lead_row);
}

} // namespace loomsheet
