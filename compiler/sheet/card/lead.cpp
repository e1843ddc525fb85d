#include "sheet/card/lead.hpp"
#include "sheet/card/swatch.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/words/figure.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

double pin_room(const Axes& axis) { return axis.wire - axis.pin - 1.5; }
double row_room(const Axes& axis) { return axis.face - axis.pin - 2; }
constexpr double metal_below = 7.9; // from the middle of the pin to the baseline under it
double words_room(const Axes& axis) { return axis.face - axis.wire - 1; }

std::vector<Colour> colours_of(const Circuit& circuit, const Spot& spot) {
    std::vector<Colour> colours;
    for (const WireId id : spot.wires) {
        const Colour& colour = circuit.wires[id].colour;
        const auto same = [&](const Colour& other) { return other.code() == colour.code(); };
        if (!colour.empty() && std::none_of(colours.begin(), colours.end(), same)) colours.push_back(colour);
    }
    return colours;
}

// Codes and swatch on the line of the pin; returns the middle line of the last code.
double wire_codes(Card& card, double line, const std::vector<Colour>& colours) {
    const Axes& axis = card.axis;
    std::vector<std::string> codes;
    for (const Colour& colour : colours)
        codes.push_back(colour.code());
    const int count = card.pen.lines(axis.wire, line + card.pen.half_cap(type::wire_code), words_room(axis), type::wire_code,
                                     join(codes, card.say(Word::and_wire)));
    if (colours.size() == 1) swatch(card.pen, axis.swatch, line - swatch_height / 2, colours.front());
    return line + (count - 1) * card.pen.leading(type::wire_code);
}

// The colours in words; returns the last baseline.
double wire_words(Card& card, double baseline, const std::vector<Colour>& colours) {
    std::vector<std::string> words;
    for (const Colour& colour : colours)
        words.push_back(colour_words(card.say, card.circuit(), colour));
    return baseline +
           (card.pen.lines(card.axis.wire, baseline, words_room(card.axis), type::words, join(words)) - 1) * card.pen.leading(type::words);
}

std::string wire_ends(const Wording& say, const Circuit& circuit, const Wire& wire) {
    return say(Word::from_to, pin_words(circuit, wire.from), pin_words(circuit, wire.to));
}

Lead single(const Card& card, const Row& row, Word label, Word metal) {
    Lead lead{label, false, spot_for(card, row.red, row.red)};
    const PartId part = part_of(card.circuit(), row.red);
    lead.spot.metal = metal;
    lead.spot.place = part != none           ? part_and_place(card.say, card.circuit(), part)
                      : row.red.wire != none ? wire_ends(card.say, card.circuit(), card.circuit().wires[row.red.wire])
                                             : "";
    lead.spot.connector = none;
    return lead;
}

} // namespace

void lead_pill(const Wording& say, Pen& pen, double y, Word label, bool solid) {
    const std::string words = say(label);
    constexpr double width = 17, room = 14.5;
    const bool narrow = pen.width(type::block, words) > room;
    if (const double needs = pen.width(type::block_narrow, words); needs > width - 1)
        pen.does_not_fit(fmt::format("\"{}\" is {:.0f} mm long in print, the sign of a lead has {:.0f} mm", words, needs, width - 1),
                         "write another word");
    pill(pen, pen.axis.probe, y + 0.5, width, 8, narrow ? type::block_narrow : type::block, words, solid);
}

double lead_row(Card& card, double y, const Lead& lead, Said said) {
    const Axes& axis = card.axis;
    constexpr double place_below = 4, name_only = 9.5;
    Pen& pen = card.pen;
    double line = y + 4.5;
    lead_pill(card.say, pen, y, lead.label, lead.solid);
    pen.text(axis.pin, line + pen.half_cap(type::pin), type::pin, lead.spot.name);
    const double name_width = pen.width(type::pin, lead.spot.name);
    std::string metal = card.say(lead.spot.metal);
    if (const std::string mark = lead.spot.mark.empty() ? "" : card.say(Word::cavity_mark, lead.spot.mark); !mark.empty()) {
        if (name_width + 1.5 + pen.width(type::words, mark) <= pin_room(axis))
            pen.text(axis.pin + name_width + 1.5, line + pen.half_cap(type::pin), type::words, mark);
        else
            metal += " " + mark;
    }
    const std::vector<Colour> colours = colours_of(card.circuit(), lead.spot);
    const bool long_name = name_width > pin_room(axis);
    if (long_name && !colours.empty()) line += 9;
    const double codes = colours.empty() ? line : wire_codes(card, line, colours);
    if (said == Said::point) return codes - 4.5 + name_only;

    double last = line + metal_below;
    if (!colours.empty()) last = std::max(last, wire_words(card, codes + metal_below, colours));
    const double metal_room = colours.empty() ? row_room(axis) : pin_room(axis);
    const int metal_lines = pen.lines(axis.pin, line + metal_below, metal_room, type::words, metal);
    last = std::max(last, line + metal_below + (metal_lines - 1) * pen.leading(type::words));
    if (said == Said::nothing && !lead.spot.place.empty()) {
        last += place_below;
        last += (pen.lines(axis.pin, last, row_room(axis), type::how, lead.spot.place) - 1) * pen.leading(type::how);
    }
    return last + 0.9;
}

Spot spot_for(const Card& card, const PointRef& point, const PointRef& other) {
    return spot_of(card.say, card.circuit(), card.check.with, point, part_of(card.circuit(), other));
}

std::vector<Lead> leads_of(const Card& card, const Row& row) {
    const MeasureKind measure = card.check.measure;
    if (measure == MeasureKind::clamp)
        return {single(card, row, Word::clamp_pill, row.red.wire != none ? Word::around_wire : Word::around_all)};
    if (measure == MeasureKind::amps) return {single(card, row, Word::in_line, Word::in_its_place)};
    const bool lamp = measure == MeasureKind::testlamp;
    return {{lamp ? Word::tip : Word::red, false, spot_for(card, row.red, row.black)},
            {lamp ? Word::clip : Word::black, true, spot_for(card, row.black, row.red)}};
}

} // namespace loomsheet
