// The proof sheet part by part: what is not surely found and why, and what a verdict does not tell apart.
#include "faults/coverage.hpp"
#include "sheet/blocks/blocks.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/run.hpp"
#include "sheet/words/told.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

constexpr double bar_width = 26;
double bar_x(const Axes& axis) { return axis.across(86); }
double share_x(const Axes& axis) { return bar_x(axis) + bar_width + 3; }
double fate_x(const Axes& axis) { return std::max(share_x(axis) + 19, axis.across(134)); }

std::string fate_words(const LayoutContext& context, const Covered& each) {
    std::vector<std::string> list;
    std::string letters;
    for (const int verdict : each.verdicts)
        letters += (letters.empty() ? "" : ", ") + context.order.letters[verdict];
    if (!letters.empty()) list.push_back(context.say(Word::proof_may_end, letters));
    if (each.sound) list.push_back(context.say(Word::proof_may_sound));
    if (each.open) list.push_back(context.say(Word::proof_may_stop));
    return join(list);
}

Box covered_row(LayoutContext& context, const Covered& each) {
    const Axes& axis = context.axis;
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    const double first = 4.6, share = each.found / each.all;
    int lines = pen.lines(axis.edge, first, bar_x(axis) - axis.edge - 2, type::how,
                          placed_words(context.say, context.plan.circuit, {{each.suspect, 0}}).front());
    pen.rect(bar_x(axis), 1.6, bar_width, 3.6, stroke::rule);
    if (share > 0) pen.rect(bar_x(axis), 1.6, bar_width * share, 3.6, 0, page::Ink::black);
    pen.text(share_x(axis), first, type::how, context.say(Word::proof_of_hundred_short, told_share(context.say, share)));
    lines = std::max(lines, pen.lines(fate_x(axis), first, axis.right - fate_x(axis), type::how, fate_words(context, each)));
    box.height = first + (lines - 1) * pen.leading(type::how) + 2;
    pen.line(axis.edge, box.height, axis.right, box.height, stroke::rule);
    pen.region(page::Role::cell, axis.edge, 0, axis.right - axis.edge, box.height,
               "covered " + suspect_point(context.plan.circuit, each.suspect));
    return box;
}

Box group_row(LayoutContext& context, const Left& group) {
    const Axes& axis = context.axis;
    const double title_x = axis.edge + 20.5, names_x = axis.across(98);
    Box box;
    Pen pen = context.pen(box, context.plan.verdicts[group.verdict].at);
    pennant(pen, axis.edge, 0.8, mark_size, context.order.letters[group.verdict]);
    const double first = 4.6;
    int lines = pen.lines(title_x, first, names_x - title_x - 3, type::how, context.plan.verdicts[group.verdict].title);
    std::vector<RankedSuspect> suspects;
    for (const Suspect& each : group.suspects)
        suspects.push_back({each, 0});
    lines = std::max(lines, pen.lines(names_x, first, axis.right - names_x, type::how,
                                      join(suspect_words(context.say, context.plan.circuit, suspects))));
    box.height = std::max(mark_size + 1.6, first + (lines - 1) * pen.leading(type::how) + 2);
    pen.line(axis.edge, box.height, axis.right, box.height, stroke::rule);
    pen.region(page::Role::cell, axis.edge, 0, axis.right - axis.edge, box.height, "group " + context.plan.verdicts[group.verdict].label);
    return box;
}

} // namespace

Box more_row(LayoutContext& context, std::size_t left) {
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    pen.text(context.axis.edge, 4.4, type::how, context.say(Word::proof_more, left));
    box.height = 6;
    return box;
}

Block proof_coverage_block(LayoutContext& context) {
    Block block;
    const std::vector<Covered> list = covered(*context.diagnosis);
    if (list.empty()) return block;
    const auto sure = std::count_if(list.begin(), list.end(), [](const Covered& each) { return each.lost() < no_share; });
    block.title = block_title(context, context.say(Word::proof_coverage), context.say(Word::proof_coverage_note, sure, list.size()));
    const std::size_t unsure = list.size() - static_cast<std::size_t>(sure); // they come first
    for (std::size_t i = 0; i < std::min(unsure, most_proof_rows); ++i)
        block.rows.push_back(covered_row(context, list[i]));
    if (unsure > most_proof_rows) block.rows.push_back(more_row(context, unsure - most_proof_rows));
    if (!block.rows.empty()) return block;
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    pen.text(context.axis.edge, 4.6, type::text, context.say(Word::proof_all_covered, list.size()));
    box.height = 7;
    block.rows.push_back(std::move(box));
    return block;
}

Block proof_groups_block(LayoutContext& context) {
    constexpr std::size_t few = 3;
    Block block;
    for (const Left& group : groups(*context.diagnosis))
        if (group.suspects.size() > few) block.rows.push_back(group_row(context, group));
    block.title = block_title(context, context.say(Word::proof_groups), context.say(Word::proof_groups_note));
    return block;
}

} // namespace loomsheet
