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
Column column(double from, double to) { return {axis::across(from), axis::across(to) - axis::across(from)}; }
Columns columns() {
    return {column(18, 31.5), column(32.5, 79.5), column(82, 129), column(131, 165), column(168, 198)};
}

std::string element_rating(const Element& element) {
    if (!element.value) return {};
    const std::string at = element.holds_at ? say(Word::at_volts, rating(*element.holds_at)) : "";
    switch (element.kind) {
    case ElementKind::coil: return say(Word::coil_of, rating(*element.value));
    case ElementKind::load:
    case ElementKind::resistor:
    case ElementKind::between:
    case ElementKind::pot: return rating(*element.value) + at;
    case ElementKind::ntc: return say(Word::ntc_of, rating(*element.value)) + at;
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

std::vector<std::string> ratings(const Circuit& circuit, const Part& part) {
    std::vector<std::string> list;
    const auto add = [&](std::string words) {
        if (!words.empty() && std::find(list.begin(), list.end(), words) == list.end())
            list.push_back(std::move(words));
    };
    for (const Draw& given : part.gives)
        if (!given.when) add(rating(given.value));
    if (part.capacity) add(rating(*part.capacity));
    if (part.rating) add(rating(*part.rating));
    if (!part.fuse_type.empty()) add(say(Word::fuse_type, part.fuse_type));
    for (const Element& element : part.elements)
        add(element_rating(element));
    if (part.opens_at) add(say(Word::opens_at, rating(*part.opens_at)));
    if (!part.resets.empty()) add(say(part.resets == "hand" ? Word::resets_hand : Word::resets_itself));
    if (part.cavities > 0) add(say(Word::pin_count, part.cavities));
    if (part.plugs_on != none) add(say(Word::plugs_on, circuit.parts[part.plugs_on].id));
    if (part.twin != none) add(say(Word::mates, circuit.parts[part.twin].id));
    if (part.assembly != none) add(say(Word::inside, circuit.parts[part.assembly].id));
    return list;
}

std::string what_it_is(const Circuit& circuit, const Part& part) {
    std::vector<std::string> list{part_words(part)};
    const bool says_kind = part.kind == PartKind::fuse || part.kind == PartKind::breaker;
    if (says_kind && !part.name.empty()) list.push_back(kind_of(part));
    for (std::string& rating : ratings(circuit, part))
        list.push_back(std::move(rating));
    return join(list);
}

std::string take_off(const Circuit& circuit, PartId part) {
    const PanelId id = circuit.panel_of(part);
    if (id == none) return {};
    const Panel& panel = circuit.panels[id];
    const std::string name = panel.name.empty() ? panel.label : panel.name;
    return panel.time ? name + ", " + minutes(*panel.time) : name;
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

Piece captions(Draft& draft) {
    Piece piece;
    Pen pen = draft.pen(piece, draft.plan.at);
    const Columns at = columns();
    int lines = 1;
    for (const auto& [place, word] : {std::pair{at.what, Word::part_column},
                                      {at.place, Word::place_column},
                                      {at.panel, Word::panel_column},
                                      {at.pins, Word::pins_column}})
        lines = std::max(lines, pen.lines(place.x, 3.6, place.width, type::caption, say(word)));
    piece.height = 4.6 + (lines - 1) * leading(type::caption);
    return piece;
}

Piece row(Draft& draft, PartId id) {
    constexpr double first = 4.6;
    const auto [name_column, what_column, place_column, panel_column, pins_column] = columns();
    const Circuit& circuit = draft.plan.circuit;
    const Part& part = circuit.parts[id];
    Piece piece;
    Pen pen = draft.pen(piece, part.at);
    double last = first; // the lowest baseline of the row
    const auto write = [&](const Column& column, double baseline, Style style, const std::string& words) {
        const double end = baseline + (pen.lines(column.x, baseline, column.width, style, words) - 1) * leading(style);
        last = std::max(last, end);
        return end;
    };
    write(name_column, first, type::main, part.id);
    // A part without a place, which is at hand, has room for more words.
    const std::string place = circuit.place_of(id), panel = take_off(circuit, id);
    const Column& next = !place.empty() ? place_column : !panel.empty() ? panel_column : pins_column;
    const Column what{what_column.x, next.x - what_column.x - (place_column.x - what_column.x - what_column.width)};
    double what_end = write(what, first, type::how, what_it_is(circuit, part));
    for (const Words& note : part.notes)
        what_end = write(what, what_end + leading(type::how), type::how, note.text);
    write(place_column, first, type::how, place);
    write(panel_column, first, type::how, panel);
    write(pins_column, first, type::main, wired_pins(circuit, part));
    piece.height = last + 2;
    pen.line(axis::edge, piece.height, axis::right, piece.height, stroke::rule);
    pen.region(page::Role::cell, axis::edge, 0, axis::right - axis::edge, piece.height, "part " + part.id);
    return piece;
}

// Nothing to find at a joint in the loom, and the second half of a pair stands with the first.
bool is_listed(const Part& part) {
    if (part.kind == PartKind::splice) return part.bare || !part.place.empty();
    return part.twin == none || part.first_half;
}

} // namespace

Block parts_block(Draft& draft) {
    Block block;
    block.title = block_title(draft, say(Word::parts), "");
    block.captions = captions(draft);
    block.together = true;
    const std::vector<bool> used = used_parts(draft.plan);
    for (std::size_t i = 0; i < draft.plan.circuit.parts.size(); ++i)
        if (used[i] && is_listed(draft.plan.circuit.parts[i])) block.rows.push_back(row(draft, static_cast<PartId>(i)));
    return block;
}

} // namespace loomsheet
