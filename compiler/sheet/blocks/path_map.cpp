// The checks as a map: where one is, and where each outcome leads.
#include "drawing/map.hpp"
#include "sheet/blocks/blocks.hpp"
#include "sheet/blocks/circuit_drawing.hpp"
#include "sheet/words/limit.hpp"
#include "sheet/words/words.hpp"

namespace loomsheet {
namespace {

std::string label_of(const Wording& say, const Check& check, const OutcomeLine& line) {
    if (line.outcome == nullptr) return say(Word::way_fail);
    const Outcome& outcome = *line.outcome;
    if (!outcome.row.empty()) return outcome.row;
    switch (outcome.kind) {
    case OutcomeKind::pass: return say(Word::way_pass);
    case OutcomeKind::fail: return say(Word::way_fail);
    case OutcomeKind::low: return say(Word::way_low);
    case OutcomeKind::high: return say(Word::way_high);
    case OutcomeKind::open: return say(Word::way_open);
    case OutcomeKind::no_current: return say(Word::way_no_current);
    case OutcomeKind::answer: return outcome.answer;
    case OutcomeKind::band: return outcome.band ? limit_words(say, *outcome.band, check.measure) : line.words;
    }
    return line.words;
}

drawing::MapWay way_of(const LayoutContext& context, const Check& check, const OutcomeLine& line) {
    drawing::MapWay way;
    way.label = label_of(context.say, check, line);
    way.pass = line.outcome != nullptr && line.outcome->kind == OutcomeKind::pass;
    const Target target = line.outcome ? line.outcome->target : Target{};
    const bool to_check = target.kind == TargetKind::check || target.kind == TargetKind::next;
    if (to_check && target.index != none) {
        way.end = drawing::WayEnd::check;
        way.check = context.order.numbers[target.index] - 1;
    } else if (target.kind == TargetKind::verdict && target.index != none) {
        way.end = drawing::WayEnd::verdict;
        way.sign = context.order.letters[target.index];
        way.title = context.plan.verdicts[target.index].title;
    } else if (target.kind == TargetKind::done) {
        way.end = drawing::WayEnd::done;
        way.sign = context.say(Word::done);
    } else {
        way.sign = context.say(Word::stop);
    }
    return way;
}

} // namespace

Block map_block(LayoutContext& context) {
    std::vector<drawing::MapCheck> checks;
    for (const int index : context.order.checks) {
        const Check& check = context.plan.checks[index];
        drawing::MapCheck made;
        made.number = context.order.numbers[index];
        made.title = check.title.empty() ? check.label : check.title;
        for (const OutcomeLine& line : outcome_lines(context.say, check))
            made.ways.push_back(way_of(context, check, line));
        checks.push_back(std::move(made));
    }
    return picture_block(context, drawing::draw_map(checks, measure_with(context.faces), drawing_area(context)), context.say(Word::map));
}

} // namespace loomsheet
