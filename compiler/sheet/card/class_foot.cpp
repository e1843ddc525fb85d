// The foot of a card on the sheets of a class: questions, what the reading proves, the teacher's sign, the planted
// cars.
#include "sheet/card/class_way.hpp"
#include "sheet/card/question.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/told.hpp"
#include "sheet/words/words.hpp"
#include <fmt/format.h>

namespace loomsheet {
namespace {

double label(Card& card, double top, const std::string& words) {
    const Axes& axis = card.axis;
    card.pen.line(axis.edge, top, axis.right, top, stroke::rule);
    card.pen.lines(axis.label, top + 3.9, axis.words - axis.label - 2, type::how_bold, words);
    return top;
}

double questions(Card& card, double y, Told told) {
    int number = 0;
    for (const Question& each : card.check.questions) {
        label(card, y, card.say(Word::question));
        const double marks = each.marks > 0 ? each.marks : card.check.questions.size() == 1 ? card.check.marks : 0;
        y = question(card.say, card.pen, card.axis.words, y, each, marks, told, fmt::format("{} answer {}", card.name, ++number));
    }
    card.pen.point_at(card.check.at);
    return y;
}

} // namespace

void class_column(Card& card, double top, double bottom) {
    const Axes& axis = card.axis;
    constexpr double least = 40, pitch = 9.5, gap = 3; // mm: caption, and three lines at least
    if (!card.shows(CardPart::reasons) || bottom - top < least) return;
    const double room = axis.divider - axis.box - 3;
    double y = top + gap + 3.5;
    y += (card.pen.lines(axis.box, y, room, type::how_bold, card.say(Word::reasons)) - 1) * card.pen.leading(type::how_bold);
    const double first = y;
    while (y + pitch < bottom - 1 && y < first + 6 * pitch) {
        y += pitch;
        card.pen.line(axis.box, y, axis.box + room, y, stroke::rule);
    }
    card.pen.region(page::Role::field, axis.box, first, room, y - first, card.name + " reasons");
    card.reasoned = true;
}

double class_foot(Card& card, double top) {
    const Wording& say = card.say;
    double y = top;
    if (card.shows(CardPart::reasons) && !card.reasoned) {
        label(card, y, say(Word::reasons));
        y = writing_lines(card.pen, card.axis.words, y, 2, card.name + " reasons") + 1.5;
    }
    if (card.shows(CardPart::answers))
        y = questions(card, y, Told::answered);
    else if (card.shows(CardPart::questions))
        y = questions(card, y, Told::asked);
    if (!card.shows(CardPart::planted) || !card.context.planted) return y;
    for (std::size_t i = 0; i < card.context.planted->size(); ++i) {
        const PlantedCar& car = (*card.context.planted)[i];
        if (!car.changes) continue;
        const CheckPrediction& made = car.readings[static_cast<std::size_t>(card.index)];
        std::vector<std::string> list;
        if (made.rows.empty()) list.push_back(told_seen(say, card.check, made));
        for (std::size_t r = 0; r < made.rows.size(); ++r) {
            const std::string reads = told_reading(say, card.circuit(), made.rows[r], card.check.measure);
            list.push_back(made.rows.size() == 1 ? reads : say(Word::proof_two, card.check.rows[r].name, reads));
        }
        const std::string way = ways_words(card.context, card.index, car.outcomes[static_cast<std::size_t>(card.index)]);
        y = foot_row(card, y, card.plan().plants[i].title, say(Word::leads_to, listed(say, list), way));
    }
    return y;
}

} // namespace loomsheet
