// Dial and blanks: one reading a row, its unit printed; beside a drop the current, at small ohms the leads' own.
#include "sheet/card/card.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/words/told.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr double field_gap = 2;

struct Blank {
    std::string caption, unit, name;
    double height;
    std::string filled; // printed in it already
};

// Rows have their blanks beside their leads; what counts for the whole check stands here.
std::vector<Blank> blanks(const Card& card, const Dial& dial) {
    const Wording& say = card.say;
    constexpr double tall = 12.2, low = 9.5; // never under 25 x 9 mm
    std::vector<Blank> list;
    if (card.check.rows.size() < 2) {
        const std::vector<std::string> names = reading_names(card.plan(), card.check);
        const bool predicted = card.shows(CardPart::predicted), answered = card.shows(CardPart::answered);
        const bool alone = names.size() == 1 && !dial.current_blank && !dial.lead_blank && !predicted;
        for (const std::string& name : names) {
            const std::string ending = name.empty() ? "" : " " + name;
            if (predicted || answered)
                list.push_back({name.empty() ? say(Word::predicted) : say(Word::predicted_of, name), answered ? "" : dial.unit,
                                " predicted" + ending, low, answered && names.size() == 1 ? sound_words(card, 0) : ""});
            if (card.shows(CardPart::blanks))
                list.push_back({name.empty() ? dial.caption : name, dial.unit, " reading" + ending, alone ? tall : low, ""});
        }
    }
    if (!card.shows(CardPart::blanks)) return list;
    if (dial.current_blank) list.push_back({say(Word::current), "A", " current", low, ""});
    if (dial.lead_blank) list.push_back({say(Word::leads_together), dial.unit, " leads", low, ""});
    return list;
}

double dial_rows(Card& card, double top, const Dial& dial) {
    const Axes& axis = card.axis;
    Pen& pen = card.pen;
    const double line = top + 5.2;
    const double start = dial_sign(pen, axis.probe, line, dial), room = axis.probe + card::field_width - start;
    const std::vector<std::string> words = pen.wrap(type::words, room, dial.words);
    const double spread = pen.leading(type::words) * static_cast<double>(words.size() - 1);
    pen.lines(start, line - spread / 2 + pen.half_cap(type::words), room, type::words, dial.words);
    double y = std::max(top + 9.8, line + spread / 2 + 3.5);
    if (!dial.remark.empty()) {
        const int count = pen.lines(axis.probe, y + 3.4, card::field_width, type::main, dial.remark);
        y += pen.leading(type::main) * count + 0.5;
    }
    return y;
}

// What a sound car reads, where it was computed and one reading is asked for.
double sound_car(Card& card, double y) {
    if (!card.context.prediction || card.check.rows.size() != 1) return y;
    const RowPrediction& row = (*card.context.prediction)[static_cast<std::size_t>(card.index)].rows.front();
    const std::string words = card.say(Word::sound_car, told_range(card.say, card.circuit(), row, card.check.measure));
    return y + card.pen.lines(card.axis.probe, y + 3.4, card::field_width, type::how, words) * card.pen.leading(type::how) + 1;
}

} // namespace

std::string sound_words(const Card& card, std::size_t row) {
    if (!card.context.prediction) return {};
    const CheckPrediction& made = (*card.context.prediction)[static_cast<std::size_t>(card.index)];
    if (made.rows.empty()) return told_seen(card.say, card.check, made);
    return told_reading(card.say, card.circuit(), made.rows[row], card.check.measure);
}

double card_reading(Card& card, double top) {
    const Axes& axis = card.axis;
    Pen& pen = card.pen;
    const Dial dial = dial_of(card.say, card.plan(), card.check);
    double y = card.shows(CardPart::dial) ? dial_rows(card, top, dial) : top + 1.5;
    if (card.shows(CardPart::sound)) y = sound_car(card, y);
    const std::vector<Blank> list = blanks(card, dial);
    if (list.empty()) return y;
    for (const Blank& blank : list) {
        // A long name takes lines of its own over the room to write in; so does a long reading.
        constexpr double room = card::field_width - 3;
        const auto lines = static_cast<double>(pen.wrap(type::caption, room, blank.caption).size());
        const auto filled = static_cast<double>(std::max<std::size_t>(1, pen.wrap(type::lead_in, room, blank.filled).size()));
        const double below = (filled - 1) * pen.leading(type::lead_in),
                     height = blank.height + (lines - 1) * pen.leading(type::caption) + (lines > 1 ? 4 : 0) + below;
        field(pen, axis.probe, y, card::field_width, height, blank.caption, blank.unit);
        pen.lines(axis.probe + 1.5, y + height - 1.8 - below, room, type::lead_in, blank.filled);
        pen.region(blank.filled.empty() ? page::Role::reading : page::Role::cell, axis.probe, y, card::field_width, height,
                   card.name + blank.name);
        y += height + field_gap;
    }
    return y - field_gap + 1;
}

} // namespace loomsheet
