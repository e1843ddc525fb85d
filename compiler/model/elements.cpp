#include "model/builder.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

std::vector<std::string_view> pin_names(std::string_view written) {
    std::vector<std::string_view> names;
    for (;;) {
        const auto slash = written.find('/');
        names.push_back(written.substr(0, slash));
        if (slash == std::string_view::npos) return names;
        written.remove_prefix(slash + 1);
    }
}

// The pins of `30/87/87a`, in that order; they were declared with the names.
std::vector<PinId> Builder::pins_of(PartId id, std::string_view written) {
    std::vector<PinId> made;
    for (const auto name : pin_names(written))
        made.push_back(circuit_.find_pin(pin_home(id), name));
    return made;
}

Quantity Builder::value(Reader& read, std::string_view role) {
    auto made = read.quantity();
    reach(made, role);
    return made;
}

void Builder::between_pins(Element& element, PartId id, Reader& read) {
    const Span written = read.take();
    const auto found = pins_of(id, text(written));
    element.a = found[0];
    element.b = found.size() > 1 ? found[1] : none;
    element.c = found.size() > 2 ? found[2] : none;
    if (element.a == element.b && element.a != none)
        findings_.add(finding::wrong_kind_of_thing, written, fmt::format("`{}` names the same pin twice", text(written)));
}

// Phrases that put something between pins, or give a value at a position to what stands above.
bool Builder::element_phrase(Part& owner, PartId id, Form form, Reader& read, const Phrase& phrase) {
    Element made;
    made.at = read.tree().span(phrase);
    std::optional<ElementKind> kind = between_phrase(made, owner, id, form, read);
    if (!kind) kind = unit_phrase(made, id, form, read);
    if (!kind) return position_phrase(owner, id, form, read, made.at);
    made.kind = *kind;
    const bool is_whole = form != Form::pair_value || made.value; // else its unit was of another kind
    if (is_whole) owner.elements.push_back(std::move(made));
    return true;
}

// What lies between two pins or three.
std::optional<ElementKind> Builder::between_phrase(Element& made, Part& owner, PartId id, Form form, Reader& read) {
    const auto pins = [&] { between_pins(made, id, read); };
    switch (form) {
    case Form::coil:
        read.skip_words(), pins();
        made.value = value(read, owner.kind == PartKind::sensor ? "sensor resistance" : "coil resistance");
        return ElementKind::coil;
    case Form::contact: read.skip_words(), pins(); return ElementKind::contact;
    case Form::suppressor: read.skip_words(), pins(); return ElementKind::diode;
    case Form::closed_when:
        pins();
        read.word("closed"), read.word("when");
        made.when = condition(read);
        owner.closed_when = made.when;
        return ElementKind::contact;
    case Form::pair: pins(); return ElementKind::diode;
    case Form::pair_value: pins(); return load_or_resistor(made, owner, read);
    case Form::ntc:
        read.skip_words(), pins();
        if (read.is(Atom::quantity)) {
            made.value = value(read, "sensor resistance");
            made.holds_at = value(read, "temperature");
            made.more = value(read, "beta");
        }
        owner.sensor_kind = "ntc";
        return ElementKind::ntc;
    case Form::pot:
        read.skip_words(), pins();
        made.value = value(read, "sensor resistance");
        owner.sensor_kind = "pot";
        return ElementKind::pot;
    case Form::hall:
        read.skip_words();
        if (!read.done()) pins();
        owner.sensor_kind = "hall";
        return ElementKind::hall;
    case Form::between: read.skip_words(), pins(), made.value = value(read, "resistance"); return ElementKind::between;
    default: return std::nullopt;
    }
}

// `1/2 22 A`: without a value where its unit does not fit.
ElementKind Builder::load_or_resistor(Element& made, const Part& owner, Reader& read) {
    const auto given = read.quantity();
    const auto dimension = given.unit->dimension;
    const bool resistor = owner.kind == PartKind::resistor;
    if (resistor && dimension != Dimension::ohm) {
        findings_.add(finding::unit_does_not_fit, given.at, fmt::format("a resistor has ohms, not `{}`", said(given.at)),
                      "for instance: 1/2 0.35 ohm");
        return ElementKind::resistor;
    }
    reach(given, resistor                         ? "resistance"
                 : dimension == Dimension::ampere ? "load current"
                 : dimension == Dimension::watt   ? "load power"
                                                  : "load resistance");
    made.value = given;
    if (read.word("at")) made.holds_at = value(read, "load voltage");
    return resistor ? ElementKind::resistor : ElementKind::load;
}

// What a control unit has at one of its pins.
std::optional<ElementKind> Builder::unit_phrase(Element& made, PartId id, Form form, Reader& read) {
    const auto pin = [&] { read.skip_words(), made.a = circuit_.find_pin(pin_home(id), read.take_text()); };
    switch (form) {
    case Form::output: pin(), output(made, read); return ElementKind::module_output;
    case Form::gives: pin(), made.value = value(read, "sensor supply"); return ElementKind::module_gives;
    case Form::pull_up:
        pin(), made.value = value(read, "sensor supply");
        made.more = value(read, "input resistance");
        return ElementKind::pull_up;
    case Form::input: pin(), made.value = value(read, "input resistance"); return ElementKind::input;
    default: return std::nullopt;
    }
}

void Builder::output(Element& made, Reader& read) {
    if (read.is(Atom::text)) made.name = read.text();
    if (read.word("pulls")) made.pulls_down = read.any_word() == "down";
    if (read.is(Atom::quantity)) made.value = value(read, "output current");
    made.flashes = read.word("flashes");
    if (read.word("for")) made.duration = value(read, "duration");
    if (!read.word("follows")) return;
    const Span leader = read.take();
    made.follows = find_part(leader);
    if (made.follows != none && part(made.follows).kind != PartKind::switch_)
        findings_.add(finding::wrong_kind_of_thing, leader,
                      fmt::format("`{}` is {}; an output follows a switch", text(leader), a_kind(part(made.follows).kind)));
}

// A value at a position or at a temperature: of the part, or of what stands above.
bool Builder::position_phrase(Part& owner, PartId id, Form form, Reader& read, Span at) {
    if (form == Form::at_position) {
        switch_position(owner, id, read, at);
        return true;
    }
    if (form != Form::at_value && form != Form::at_percent) return false;
    read.skip_words();
    const bool percent = form == Form::at_percent;
    const auto wanted = percent ? ElementKind::pot : ElementKind::ntc;
    const auto element =
        std::find_if(owner.elements.rbegin(), owner.elements.rend(), [wanted](const Element& e) { return e.kind == wanted; });
    if (element == owner.elements.rend()) {
        findings_.add(finding::lacks_what_it_needs, at,
                      percent ? "this position belongs to no track: no `pot` stands above it"
                              : "this row belongs to no table: no `ntc` stands above it",
                      percent ? "write first: pot 2/4/3 1.2 kohm" : "write first: ntc 1/2");
        return true;
    }
    TableValue row;
    row.at = at;
    if (percent) {
        row.position = text(read.take());
        row.value = value(read, "percentage");
    } else {
        row.at_value = value(read, "temperature");
        row.value = value(read, "sensor resistance");
    }
    element->table.push_back(std::move(row));
    return true;
}

void Builder::switch_position(Part& owner, PartId id, Reader& read, Span at) {
    read.skip_words();
    TableValue position;
    position.at = at;
    position.position = text(read.take());
    while (!read.done()) {
        const Span written = read.take();
        const auto found = pins_of(id, text(written));
        position.closed.emplace_back(found[0], found[1]);
        const auto same = [&](const Element& e) { return e.kind == ElementKind::contact && e.a == found[0] && e.b == found[1]; };
        if (std::any_of(owner.elements.begin(), owner.elements.end(), same)) continue;
        Element contact;
        contact.kind = ElementKind::contact;
        contact.a = found[0], contact.b = found[1], contact.at = written;
        owner.elements.push_back(std::move(contact));
    }
    if (owner.find_position(position.position) != nullptr)
        findings_.add(finding::declared_twice, at, fmt::format("the position `{}` of {} is declared twice", position.position, owner.id),
                      "give each position a word of its own");
    else
        owner.positions.push_back(std::move(position));
}

} // namespace loomsheet
