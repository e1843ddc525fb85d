// The head of the proof sheet: the answer in four large figures, whether the verdicts hold, the figures behind it.
#include "faults/coverage.hpp"
#include "sheet/blocks/blocks.hpp"
#include "sheet/blocks/fields.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/told.hpp"
#include "sheet/words/words.hpp"
#include <fmt/format.h>

namespace loomsheet {
namespace {

double page_width(const Axes& axis) { return axis.right - axis.edge; }
double words_x(const Axes& axis) { return axis.across(75); }

Box proof_title(LayoutContext& context) {
    const Axes& axis = context.axis;
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    double y = 7.6;
    y += (pen.lines(axis.edge, y, page_width(axis), type::sheet_title, context.plan.title) - 1) * pen.leading(type::sheet_title) + 6.8;
    y += (pen.lines(axis.edge, y, page_width(axis), type::text, context.plan.complaint) - 1) * pen.leading(type::text);
    box.height = y + 4;
    box.outline = context.plan.title;
    return box;
}

// Black is what is surely found; what is left white is lost.
Box share_bar(LayoutContext& context, double found) {
    const Axes& axis = context.axis;
    constexpr double height = 7;
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    pen.rect(axis.edge, 0, page_width(axis), height, stroke::box);
    if (found > 0) pen.rect(axis.edge, 0, page_width(axis) * found, height, 0, page::Ink::black);
    box.height = height + 2;
    return box;
}

Box four_figures(LayoutContext& context, const Figures& figures) {
    const Axes& axis = context.axis;
    struct Figure {
        double share;
        Word words;
    };
    const Figure list[] = {{figures.found, Word::proof_found},
                           {figures.wrong, Word::proof_wrong},
                           {figures.missed, Word::proof_missed},
                           {figures.open, Word::proof_open}};
    const double column = page_width(axis) / 4, caption_room = column - 4;
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    pen.text(axis.edge, 4.2, type::block, context.say(Word::proof_of_hundred));
    double end = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        const double x = axis.edge + static_cast<double>(i) * column;
        const std::string words = told_share(context.say, list[i].share);
        const Style large = words.size() > 3 ? type::check_title : type::number;
        pen.text(x, 15.5, pen.width(large, words) > caption_room ? type::block : large, words);
        const int lines = pen.lines(x, 21, caption_room, type::text, context.say(list[i].words));
        end = std::max(end, 21 + (lines - 1) * pen.leading(type::text));
    }
    box.height = end + 3;
    return box;
}

Box statement(LayoutContext& context, const std::string& words) {
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    box.height = 1.5 + pen.lines(context.axis.edge, 4.6, page_width(context.axis), type::block, words) * pen.leading(type::block);
    return box;
}

std::string verdicts_words(const LayoutContext& context) {
    const Wording& say = context.say;
    std::vector<std::string> names;
    const Doubtful doubt = doubtful_ends(*context.diagnosis);
    for (const int verdict : doubt.verdicts)
        names.push_back(context.order.letters[verdict] + " " + context.plan.verdicts[verdict].title);
    for (const int check : doubt.stops)
        names.push_back(
            say(Word::proof_two, fmt::format("{} {}", context.order.numbers[check], context.plan.checks[check].title), say(Word::stop)));
    return names.empty() ? say(Word::proof_all_hold) : say(Word::proof_in_doubt, join(names, "; "));
}

Box figure_row(LayoutContext& context, Word label, const std::string& words) {
    const Axes& axis = context.axis;
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    pen.lines(axis.edge, 4.4, words_x(axis) - axis.edge - 4.8, type::lead_in, context.say(label));
    const int lines = pen.lines(words_x(axis), 4.4, axis.right - words_x(axis), type::plain, words);
    box.height = 4.4 + (lines - 1) * pen.leading(type::plain) + 2;
    pen.line(axis.edge, box.height, axis.right, box.height, stroke::rule);
    return box;
}

} // namespace

Block proof_answer_block(LayoutContext& context) {
    Block block;
    block.rows.push_back(proof_title(context));
    if (context.diagnosis->matrix.faults.empty()) {
        block.rows.push_back(statement(context, context.say(Word::proof_nothing)));
        return block;
    }
    const Figures& figures = context.diagnosis->figures;
    block.rows.push_back(four_figures(context, figures));
    block.rows.push_back(share_bar(context, figures.found));
    block.rows.push_back(statement(context, verdicts_words(context)));
    block.keep = block.rows.size();
    return block;
}

Block proof_figures_block(LayoutContext& context) {
    const Wording& say = context.say;
    Block block;
    const Diagnosis& diagnosis = *context.diagnosis;
    if (diagnosis.matrix.faults.empty()) return block;
    const Figures& f = diagnosis.figures;
    const Isolation& told = f.isolation;
    block.title = block_title(context, say(Word::proof_figures), "");
    const auto add = [&](Word label, const std::string& words) { block.rows.push_back(figure_row(context, label, words)); };
    const auto one_place = [](double value) { return fmt::format("{:.1f}", value); };
    const auto whole = [](double value) { return fmt::format("{:.0f}", value); };
    add(Word::proof_tried, say(Word::proof_tried_text, diagnosis.matrix.faults.size(), told.units, diagnosis.matrix.harmless.size()));
    if (told.found > 0) {
        add(Word::proof_apart, say(Word::proof_apart_text, told_share(say, told.to_one), told_share(say, told.to_two),
                                   told_share(say, told.to_three), one_place(told.group)));
        add(Word::proof_first, say(Word::proof_first_text, told_share(say, told.first_right), one_place(told.tries)));
    }
    add(Word::proof_checks, say(Word::proof_checks_text, one_place(f.checks), f.most_checks));
    if (f.most_minutes > 0) add(Word::proof_time, say(Word::proof_time_text, whole(f.minutes), whole(f.most_minutes)));
    std::vector<std::string> way;
    for (const Taken& step : f.longest)
        way.push_back(hold_together(std::to_string(context.order.numbers[step.check]) + " " + context.plan.checks[step.check].label));
    if (!way.empty()) add(Word::proof_longest, join(way));
    add(Word::proof_sound, say(f.false_alarm ? Word::proof_blamed : Word::proof_not_blamed));
    return block;
}

Block approval_block(LayoutContext& context) {
    Block block;
    block.rows = field_rows(context, context.sheet.approval, "approved");
    return block;
}

} // namespace loomsheet
