// The cards of the instructor: of each planted fault a front, which the class may see, and a back: how it is put in,
// what every check then reads, the way of a right diagnosis, what is right and what is half right.
#include "circuit/fault.hpp"
#include "sheet/blocks/reading_line.hpp"
#include "sheet/card/class_way.hpp"
#include "sheet/card/question.hpp"
#include "sheet/class/class_blocks.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/state.hpp"
#include "sheet/words/told.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

struct Planted {
    LayoutContext& context;
    const Plant& plant;
    const PlantedCar& car;
    const Plan& plan() const { return context.plan; }
    // The ending of a right diagnosis; where there is none, the first.
    std::size_t right() const {
        const auto found = std::find(car.judged.begin(), car.judged.end(), Judgement::found);
        return found == car.judged.end() ? 0 : static_cast<std::size_t>(found - car.judged.begin());
    }
};

// Title, and at the right the time and the marks.
Box title(const Planted& of, const std::string& under, bool outlined) {
    const Axes& axis = of.context.axis;
    Box box;
    Pen pen = of.context.pen(box, of.plant.at);
    std::vector<std::string> side;
    if (of.plant.time) side.push_back(minutes(of.context.say, *of.plant.time));
    if (of.plant.marks > 0) side.push_back(marks_words(of.context.say, of.plant.marks));
    const std::string beside = listed(of.context.say, side);
    const double room = axis.right - axis.edge - pen.width(type::block, beside) - 4;
    double y = 9;
    pen.right(axis.right, y, type::block, beside);
    y += (pen.lines(axis.edge, y, room, type::sheet_title, of.plant.title) - 1) * pen.leading(type::sheet_title);
    pen.text(axis.edge, y + 6, type::text, under);
    pen.line(axis.edge, y + 9, axis.right, y + 9, stroke::heavy);
    box.height = y + 12;
    box.new_page = true;
    if (outlined) box.outline = of.plant.title;
    return box;
}

// A label at the left, its words beside it.
Box row(const Planted& of, Word label, const std::string& words, Style style = type::words) {
    const Axes& axis = of.context.axis;
    constexpr double words_at = 42;
    Box box;
    Pen pen = of.context.pen(box, of.plant.at);
    const double x = axis.narrow ? axis.edge : axis.edge + words_at, first = axis.narrow ? 4.6 + pen.leading(type::how_bold) : 4.6;
    const int left = pen.lines(axis.edge, 4.6, axis.narrow ? axis.right - axis.edge : words_at - 2, type::how_bold, of.context.say(label));
    const int lines = pen.lines(x, first, axis.right - x, style, words);
    box.height = std::max(4.6 + (left - 1) * pen.leading(type::how_bold), first + (lines - 1) * pen.leading(style)) + 2;
    pen.line(axis.edge, box.height, axis.right, box.height, stroke::rule);
    pen.region(page::Role::cell, axis.edge, 0, axis.right - axis.edge, box.height,
               fmt::format("{} {}", of.plant.label, static_cast<int>(label)));
    return box;
}

Box lines_to_write(const Planted& of, Word caption, int count) {
    Box box;
    Pen pen = of.context.pen(box, of.plant.at);
    pen.text(of.context.axis.edge, 5.6, type::how_bold, of.context.say(caption));
    box.height = writing_lines(pen, of.context.axis.edge, 4.5, count, fmt::format("{} {}", of.plant.label, static_cast<int>(caption))) + 3;
    return box;
}

std::vector<Box> front(const Planted& of) {
    std::vector<Box> rows{title(of, of.context.say(Word::card_front), true)};
    const std::string& says = of.plant.complaint.empty() ? of.plan().complaint : of.plant.complaint;
    rows.push_back(row(of, Word::card_customer, says, type::main));
    const Setup& with = of.plant.with.items.empty() ? of.plan().complaint_with : of.plant.with;
    if (!with.items.empty()) rows.push_back(row(of, Word::card_with, setup_words(of.context.say, of.plan().circuit, with)));
    rows.push_back(lines_to_write(of, Word::card_diagnosis, 3));
    rows.push_back(lines_to_write(of, Word::card_evidence, 5));
    rows.push_back(lines_to_write(of, Word::card_repair, 3));
    return rows;
}

// "B The relay is bad"
std::string verdict_words(const LayoutContext& context, int verdict) {
    return fmt::format("{} {}", context.order.letters[verdict], context.plan.verdicts[verdict].title);
}

std::string ending_words(const LayoutContext& context, const Ending& ending) {
    if (ending.verdict != none) return verdict_words(context, ending.verdict);
    return ending.kind == EndKind::done ? context.say(Word::done) : context.say(Word::stop);
}

std::string right_words(const Planted& of) {
    std::vector<std::string> list;
    for (std::size_t i = 0; i < of.car.endings.size(); ++i)
        if (of.car.judged[i] == Judgement::found) list.push_back(ending_words(of.context, of.car.endings[i]));
    return list.empty() ? of.context.say(Word::card_none_right) : listed(of.context.say, list);
}

// Verdicts of those who went the whole way and read the last check wrongly.
std::string half_right_words(const Planted& of) {
    const Ending& right = of.car.endings[of.right()];
    if (right.way.empty()) return {};
    const Check& last = of.plan().checks[right.way.back().check];
    std::vector<std::string> list;
    for (const Outcome& outcome : last.outcomes) {
        if (outcome.target.kind != TargetKind::verdict || outcome.target.index == none) continue;
        const bool is_right = std::any_of(of.car.endings.begin(), of.car.endings.end(),
                                          [&](const Ending& each) { return each.verdict == outcome.target.index; });
        const std::string words = verdict_words(of.context, outcome.target.index);
        if (!is_right && std::find(list.begin(), list.end(), words) == list.end()) list.push_back(words);
    }
    return listed(of.context.say, list);
}

std::string way_words(const Planted& of) {
    const Ending& right = of.car.endings[of.right()];
    std::vector<std::string> signs;
    for (const Taken& step : right.way)
        signs.push_back(std::to_string(of.context.order.numbers[step.check]));
    signs.push_back(right.verdict != none ? of.context.order.letters[right.verdict] : ending_words(of.context, right));
    return join(signs, of.context.say(Word::then));
}

// The checks that prove the repair, and what they must read then.
std::string whole_again_words(const Planted& of) {
    const Wording& say = of.context.say;
    const Ending& right = of.car.endings[of.right()];
    std::vector<std::string> list;
    if (right.verdict != none && of.context.prediction)
        for (const int check : of.plan().verdicts[right.verdict].after) {
            const CheckPrediction& made = (*of.context.prediction)[static_cast<std::size_t>(check)];
            std::vector<std::string> reads;
            if (made.rows.empty()) reads.push_back(told_seen(say, of.plan().checks[check], made));
            for (const RowPrediction& each : made.rows)
                reads.push_back(told_reading(say, of.plan().circuit, each, of.plan().checks[check].measure));
            list.push_back(say(Word::card_check_reads, of.context.order.numbers[check], join(reads)));
        }
    return list.empty() ? say(Word::card_walk_again) : listed(say, list);
}

std::vector<Box> readings(const Planted& of) {
    const Wording& say = of.context.say;
    std::vector<Box> rows;
    const Ending& right = of.car.endings[of.right()];
    rows.push_back(reading_line(of.context, of.plant.at, {"", say(Word::card_check), say(Word::card_reads), say(Word::card_leads)}));
    for (const int index : of.context.order.checks) {
        const Check& check = of.plan().checks[index];
        const CheckPrediction& made = of.car.readings[static_cast<std::size_t>(index)];
        const bool on_way = std::any_of(right.way.begin(), right.way.end(), [&](const Taken& step) { return step.check == index; });
        const bool as_sound = of.context.diagnosis && of.car.outcomes[static_cast<std::size_t>(index)] ==
                                                          of.context.diagnosis->matrix.sound[static_cast<std::size_t>(index)];
        if (as_sound && !on_way) continue;
        const std::string number = std::to_string(of.context.order.numbers[index]);
        const std::string way = ways_words(of.context, index, of.car.outcomes[static_cast<std::size_t>(index)]);
        if (made.rows.empty())
            rows.push_back(reading_line(of.context, check.at, {number, check.title, told_seen(say, check, made), way, on_way}));
        for (std::size_t r = 0; r < made.rows.size(); ++r) {
            const std::string points = points_told(say, of.plan(), check, check.rows[r]);
            rows.push_back(reading_line(of.context, check.at,
                                        {r == 0 ? number : "", points, told_reading(say, of.plan().circuit, made.rows[r], check.measure),
                                         r == 0 ? way : "", on_way && r == 0}));
        }
    }
    if (of.context.diagnosis) rows.push_back(reading_line(of.context, of.plant.at, {"", say(Word::card_as_sound), "", ""}));
    return rows;
}

std::vector<Box> back(const Planted& of) {
    const Wording& say = of.context.say;
    const Circuit& circuit = of.plan().circuit;
    std::vector<Box> rows{title(of, say(Word::card_back), false)};
    std::string fault = ohms_printed(fault_words(circuit, of.plant.fault));
    if (const PartId part = of.plant.fault.at_point.part; part != none) fault += say(Word::dot) + part_and_place(say, circuit, part);
    rows.push_back(row(of, Word::card_fault, fault, type::main));
    if (!of.plant.how.empty()) rows.push_back(row(of, Word::card_how, of.plant.how));
    if (!of.plant.undo.empty()) rows.push_back(row(of, Word::card_undo, of.plant.undo));
    for (const Words& caution : of.plant.cautions)
        rows.push_back(row(of, Word::card_caution, caution.text, type::main));
    for (const Words& note : of.plant.notes)
        rows.push_back(row(of, Word::note, note.text));
    for (const PartId part : of.car.blown)
        rows.push_back(row(of, Word::card_blown, part_and_place(say, circuit, part)));
    if (!of.car.endings.empty()) {
        rows.push_back(row(of, Word::card_way, way_words(of), type::main));
        rows.push_back(row(of, Word::card_right, right_words(of), type::main));
        if (const std::string half = half_right_words(of); !half.empty()) rows.push_back(row(of, Word::card_half_right, half));
        rows.push_back(row(of, Word::card_whole_again, whole_again_words(of)));
        for (Box& each : readings(of))
            rows.push_back(std::move(each));
    }
    return rows;
}

} // namespace

Block cards_block(LayoutContext& context) {
    Block block;
    block.new_page = true;
    block.keep = 1;
    if (!context.planted) return block;
    for (std::size_t i = 0; i < context.planted->size(); ++i) {
        const Planted of{context, context.plan.plants[i], (*context.planted)[i]};
        if (!of.car.changes) continue;
        for (auto* side : {&front, &back})
            for (Box& box : (*side)(of))
                block.rows.push_back(std::move(box));
    }
    return block;
}

} // namespace loomsheet
