#include "sheet/card/question.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr double sketch_from = 0.035; // m: that much room is a frame
constexpr double line_pitch = 9.5;

} // namespace

std::string marks_words(const Wording& say, double marks) {
    if (marks <= 0) return {};
    return marks == 1 ? say(Word::one_mark) : say(Word::mark_count, number(marks));
}

std::string answer_words(const Wording& say, const Question& question) {
    std::vector<std::string> list = question.answers;
    if (question.expected) list.push_back(rating(say, *question.expected));
    return join(list, say(Word::dot));
}

double writing_lines(Pen& pen, double x, double top, int count, const std::string& name) {
    for (int i = 1; i <= count; ++i)
        pen.line(x, top + i * line_pitch, pen.axis.right, top + i * line_pitch, stroke::rule);
    pen.region(page::Role::field, x, top, pen.axis.right - x, count * line_pitch, name);
    return top + count * line_pitch;
}

double question(const Wording& say, Pen& pen, double x, double top, const Question& question, double marks, Told told,
                const std::string& name) {
    const Axes& axis = pen.axis;
    pen.point_at(question.at);
    const std::string paid = marks_words(say, marks);
    const double room = axis.right - x - (paid.empty() ? 0 : pen.width(type::how_bold, paid) + 4);
    double y = top + 4.4;
    pen.right(axis.right, y, type::how_bold, paid);
    y += (pen.lines(x, y, room, type::main, question.text) - 1) * pen.leading(type::main);
    if (told == Told::answered) {
        const std::string words = answer_words(say, question);
        y += pen.leading(type::words);
        y += (pen.lines(x, y, axis.right - x, type::words, words.empty() ? say(Word::no_answer) : words) - 1) * pen.leading(type::words);
        return y + 2;
    }
    const double room_asked = question.space ? question.space->si * 1000 : 2 * line_pitch;
    if (!question.space || question.space->si < sketch_from)
        return writing_lines(pen, x, y, std::max(1, static_cast<int>(room_asked / line_pitch)), name) + 1.5;
    pen.rect(x, y + 2, axis.right - x, room_asked, stroke::rule);
    pen.region(page::Role::field, x, y + 2, axis.right - x, room_asked, name);
    return y + room_asked + 4;
}

} // namespace loomsheet
