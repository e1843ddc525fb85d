// Parts and places: what it is, where it is, what comes off first, which pins are wired.
#include "sheet/blocks/blocks.hpp"
#include "sheet/words/figure.hpp"
#include "sheet/words/used_parts.hpp"
#include "sheet/words/words.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

struct Column {
    double x, width;
};
struct Columns {
    Column name, what, place, panel, pins;
};
Column column(const Axes& axis, double from, double to) { return {axis.across(from), axis.across(to) - axis.across(from)}; }
Columns columns(const Axes& axis) {
    return {column(axis, 18, 31.5), column(axis, 32.5, 79.5), column(axis, 82, 129), column(axis, 131, 165), column(axis, 168, 198)};
}

std::string element_rating(const Wording& say, const Element& element) {
    if (!element.value) return {};
    const std::string at = element.holds_at ? say(Word::at_volts, rating(say, *element.holds_at)) : "";
    switch (element.kind) {
    case ElementKind::coil: return say(Word::coil_of, rating(say, *element.value));
    case ElementKind::load:
    case ElementKind::resistor:
    case ElementKind::between:
    case ElementKind::pot: return rating(say, *element.value) + at;
    case ElementKind::ntc: return say(Word::ntc_of, rating(say, *element.value)) + at;
    case ElementKind::source:
    case ElementKind::link:
    case ElementKind::contact:
    case ElementKind::diode:
    case ElementKind::hall:
    case ElementKind::module_output:
    case ElementKind::module_gives:
    case ElementKind::pull_up:
    case ElementKind::input: break;
    }
    return {};
}

std::vector<std::string> ratings(const Wording& say, const Circuit& circuit, const Part& part) {
    std::vector<std::string> list;
    const auto add = [&](std::string words) {
        if (!words.empty() && std::find(list.begin(), list.end(), words) == list.end()) list.push_back(std::move(words));
    };
    for (const Draw& given : part.gives)
        if (!given.when) add(rating(say, given.value));
    if (part.capacity) add(rating(say, *part.capacity));
    if (part.rating) add(rating(say, *part.rating));
    if (!part.fuse_type.empty()) add(say(Word::fuse_type, part.fuse_type));
    for (const Element& element : part.elements)
        add(element_rating(say, element));
    if (part.opens_at) add(say(Word::opens_at, rating(say, *part.opens_at)));
    if (!part.resets.empty()) add(say(part.resets == "hand" ? Word::resets_hand : Word::resets_itself));
    if (part.cavities > 0) add(say(Word::pin_count, part.cavities));
    if (part.plugs_on != none) add(say(Word::plugs_on, circuit.parts[part.plugs_on].id));
    if (part.twin != none) add(say(Word::mates, circuit.parts[part.twin].id));
    if (part.assembly != none) add(say(Word::inside, circuit.parts[part.assembly].id));
    return list;
}

std::string what_it_is(const Wording& say, const Circuit& circuit, const Part& part) {
    std::vector<std::string> list{part_words(say, part)};
    const bool says_kind = part.kind == PartKind::fuse || part.kind == PartKind::breaker;
    if (says_kind && !part.name.empty()) list.push_back(kind_of(say, part));
    for (std::string& rating : ratings(say, circuit, part))
        list.push_back(std::move(rating));
    return join(list);
}

std::string take_off(const Wording& say, const Circuit& circuit, PartId part) {
    const PanelId id = circuit.panel_of(part);
    if (id == none) return {};
    const Panel& panel = circuit.panels[id];
    const std::string name = panel.name.empty() ? panel.label : panel.name;
    return panel.time ? name + ", " + minutes(say, *panel.time) : name;
}

std::string wired_pins(const Circuit& circuit, const Part& part) {
    if (part.kind == PartKind::ground || part.kind == PartKind::splice) return {};
    std::vector<std::string> names;
    for (const PinId pin : part.pins) {
        const Pin& one = circuit.pins[pin];
        const bool cavity = part.kind == PartKind::connector;
        if (cavity && circuit.wires_at(pin).empty()) continue;
        const std::string name = one.name == "-" ? "−" : one.name;
        names.push_back(one.mark.empty() ? name : name + "=" + one.mark);
    }
    return join(names, "  ");
}

Box captions(LayoutContext& context) {
    Box box;
    Pen pen = context.pen(box, context.plan.at);
    const Columns at = columns(context.axis);
    int lines = 1;
    for (const auto& [place, word] : {std::pair{at.what, Word::part_column},
                                      {at.place, Word::place_column},
                                      {at.panel, Word::panel_column},
                                      {at.pins, Word::pins_column}})
        lines = std::max(lines, pen.lines(place.x, 3.6, place.width, type::caption, context.say(word)));
    box.height = 4.6 + (lines - 1) * pen.leading(type::caption);
    return box;
}

Box row(LayoutContext& context, PartId id) {
    const Axes& axis = context.axis;
    constexpr double first = 4.6;
    const auto [name_column, what_column, place_column, panel_column, pins_column] = columns(axis);
    const Circuit& circuit = context.plan.circuit;
    const Part& part = circuit.parts[id];
    Box box;
    Pen pen = context.pen(box, part.at);
    double last = first; // the lowest baseline of the row
    const auto write = [&](const Column& column, double baseline, Style style, const std::string& words) {
        const double end = baseline + (pen.lines(column.x, baseline, column.width, style, words) - 1) * pen.leading(style);
        last = std::max(last, end);
        return end;
    };
    write(name_column, first, type::main, part.id);
    // A part without a place has room for more words.
    const std::string place = circuit.place_of(id), panel = take_off(context.say, circuit, id);
    const Column& next = !place.empty() ? place_column : !panel.empty() ? panel_column : pins_column;
    const Column what{what_column.x, next.x - what_column.x - (place_column.x - what_column.x - what_column.width)};
    double what_end = write(what, first, type::how, what_it_is(context.say, circuit, part));
    for (const Words& note : part.notes)
        what_end = write(what, what_end + pen.leading(type::how), type::how, note.text);
    write(place_column, first, type::how, place);
    write(panel_column, first, type::how, panel);
    write(pins_column, first, type::main, wired_pins(circuit, part));
    box.height = last + 2;
    pen.line(axis.edge, box.height, axis.right, box.height, stroke::rule);
    pen.region(page::Role::cell, axis.edge, 0, axis.right - axis.edge, box.height, "part " + part.id);
    return box;
}

// Nothing to find at a joint in the loom, and the second half of a pair stands with the first.
bool is_listed(const Part& part) {
    if (part.kind == PartKind::splice) return part.bare || !part.place.empty();
    return part.twin == none || part.first_half;
}

} // namespace

Block parts_block(LayoutContext& context) {
    Block block;
    block.title = block_title(context, context.say(Word::parts), "");
    block.captions = captions(context);
    block.together = true;
    const std::vector<bool> used = used_parts(context.plan);
    for (std::size_t i = 0; i < context.plan.circuit.parts.size(); ++i)
        if (used[i] && is_listed(context.plan.circuit.parts[i])) block.rows.push_back(row(context, static_cast<PartId>(i)));
    return block;
}

} // namespace loomsheet
