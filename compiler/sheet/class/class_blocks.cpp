// What a class has beyond the cards of the checks: the aim, the questions of the plan, the marks.
#include "sheet/class/class_blocks.hpp"
#include "sheet/card/question.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

Box paragraph(LayoutContext& context, const std::string& words) {
    const Axes& axis = context.axis;
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    box.height = 1.5 + pen.lines(axis.edge, 4.6, axis.right - axis.edge, type::plain, words) * pen.leading(type::plain);
    return box;
}

double marks_of(const Check& check) {
    double sum = 0;
    for (const Question& each : check.questions)
        sum += each.marks;
    return sum > 0 ? sum : check.questions.empty() ? 0 : check.marks;
}

struct Kind {
    Word caption;
    double most; // 0: the teacher says
};

Box marks_row(LayoutContext& context, const Kind& kind) {
    const Axes& axis = context.axis;
    constexpr double width = 34, height = 10;
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    const std::string caption = context.say(kind.caption);
    pen.text(axis.edge, height / 2 + pen.half_cap(type::main), type::main, caption);
    pen.rect(axis.right - width, 0, width, height, stroke::rule);
    if (kind.most > 0) pen.right(axis.right - 1.5, height - 2.5, type::text, context.say(Word::out_of, number(kind.most)));
    pen.region(page::Role::field, axis.right - width, 0, width, height, fmt::format("marks {}", static_cast<int>(kind.caption)));
    box.height = height + 2;
    return box;
}

} // namespace

Block aim_block(LayoutContext& context) {
    Block block;
    block.title = block_title(context, context.say(Word::aim), "");
    for (const Word word : {Word::aim_text, Word::aim_how, Word::aim_safe})
        block.rows.push_back(paragraph(context, context.say(word)));
    block.keep = 3;
    return block;
}

Block questions_block(LayoutContext& context) {
    const Axes& axis = context.axis;
    Block block;
    const bool answered = context.sheet.card.has(CardPart::answers);
    block.title = block_title(context, context.say(Word::questions), "");
    for (const Question& each : context.plan.questions) {
        Box box;
        Pen pen = context.pen(box, each.at);
        box.height =
            question(context.say, pen, axis.edge, 0, each, each.marks, answered ? Told::answered : Told::asked, "answer " + each.label) +
            1.5;
        pen.line(axis.edge, box.height, axis.right, box.height, stroke::rule);
        block.rows.push_back(std::move(box));
    }
    return block;
}

Block marks_block(LayoutContext& context) {
    Block block;
    const Plan& plan = context.plan;
    double questions = 0, cards = 0;
    for (const Check& check : plan.checks)
        questions += marks_of(check);
    for (const Question& each : plan.questions)
        questions += each.marks;
    for (const Plant& each : plan.plants)
        cards += each.marks;
    block.title = block_title(context, context.say(Word::marks), "");
    for (const Kind& kind : {Kind{Word::marks_predictions, 0}, Kind{Word::marks_readings, 0}, Kind{Word::marks_reasons, 0},
                             Kind{Word::marks_questions, questions}, Kind{Word::marks_cards, cards}, Kind{Word::marks_all, 0}})
        block.rows.push_back(marks_row(context, kind));
    block.together = true;
    return block;
}

} // namespace loomsheet
