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

// Phrases that put something between pins, or give a value at a position to what stands above.
bool Builder::element_phrase(Part& owner, PartId id, Form form, Reader& read, const Phrase& phrase) {
    const Span at = read.tree().span(phrase);
    const auto value = [&](std::string_view role) {
        auto made = read.quantity();
        reach(made, role);
        return made;
    };
    Element made;
    made.at = at;
    const auto pins = [&](Element& element) {
        const Span written = read.take();
        const auto found = pins_of(id, text(written));
        element.a = found[0];
        element.b = found.size() > 1 ? found[1] : none;
        element.c = found.size() > 2 ? found[2] : none;
        if (element.a == element.b && element.a != none)
            findings_.add(203, written, fmt::format("`{}` names the same pin twice", text(written)));
    };
    const auto one_pin = [&](Element& element) { element.a = circuit_.find_pin(pin_home(id), read.take_text()); };
    const auto keep = [&](ElementKind kind) {
        made.kind = kind;
        owner.elements.push_back(std::move(made));
        return true;
    };
    switch (form) {
    case Form::coil:
        read.skip_words(), pins(made);
        made.value = value(owner.kind == PartKind::sensor ? "sensor resistance" : "coil resistance");
        return keep(ElementKind::coil);
    case Form::contact: read.skip_words(), pins(made); return keep(ElementKind::contact);
    case Form::suppressor: read.skip_words(), pins(made); return keep(ElementKind::diode);
    case Form::closed_when:
        pins(made);
        read.word("closed"), read.word("when");
        made.when = condition(read);
        owner.closed_when = made.when;
        return keep(ElementKind::contact);
    case Form::pair: pins(made); return keep(ElementKind::diode);
    case Form::pair_value: {
        pins(made);
        const auto given = read.quantity();
        const bool resistor = owner.kind == PartKind::resistor;
        const auto dimension = given.unit->dimension;
        if (resistor && dimension != Dimension::ohm) {
            findings_.add(206, given.at, fmt::format("a resistor has ohms, not `{}`", said(given.at)),
                          "for instance: 1/2 0.35 ohm");
            return true;
        }
        reach(given, resistor                         ? "resistance"
                     : dimension == Dimension::ampere ? "load current"
                     : dimension == Dimension::watt   ? "load power"
                                                      : "load resistance");
        made.value = given;
        if (read.word("at")) made.volts = value("load voltage");
        return keep(resistor ? ElementKind::resistor : ElementKind::load);
    }
    case Form::ntc:
        read.skip_words(), pins(made);
        if (read.is(Atom::quantity)) {
            made.value = value("sensor resistance");
            made.volts = value("temperature");
            made.more = value("beta");
        }
        owner.sensor_kind = "ntc";
        return keep(ElementKind::ntc);
    case Form::pot:
        read.skip_words(), pins(made);
        made.value = value("sensor resistance");
        owner.sensor_kind = "pot";
        return keep(ElementKind::pot);
    case Form::hall:
        read.skip_words();
        if (!read.done()) pins(made);
        owner.sensor_kind = "hall";
        return keep(ElementKind::hall);
    case Form::output:
        read.skip_words(), one_pin(made);
        if (read.is(Atom::text)) made.name = read.text();
        if (read.word("pulls")) made.pulls_down = read.any_word() == "down";
        if (read.is(Atom::quantity)) made.value = value("output current");
        made.flashes = read.word("flashes");
        if (read.word("for")) made.duration = value("duration");
        if (read.word("follows")) {
            const Span leader = read.take();
            made.follows = find_part(leader);
            if (made.follows != none && part(made.follows).kind != PartKind::switch_)
                findings_.add(203, leader,
                              fmt::format("`{}` is {}; an output follows a switch", text(leader),
                                          with_article(kind_word(part(made.follows).kind))));
        }
        return keep(ElementKind::module_output);
    case Form::gives:
        read.skip_words(), one_pin(made), made.value = value("sensor supply");
        return keep(ElementKind::module_gives);
    case Form::pull_up:
        read.skip_words(), one_pin(made);
        made.value = value("sensor supply");
        made.more = value("input resistance");
        return keep(ElementKind::pull_up);
    case Form::input:
        read.skip_words(), one_pin(made), made.value = value("input resistance");
        return keep(ElementKind::input);
    case Form::between:
        read.skip_words(), pins(made), made.value = value("resistance");
        return keep(ElementKind::between);
    case Form::at_position: {
        read.skip_words();
        TableValue position;
        position.at = at;
        position.position = text(read.take());
        while (!read.done()) {
            const Span written = read.take();
            const auto found = pins_of(id, text(written));
            position.closed.emplace_back(found[0], found[1]);
            const auto same = [&](const Element& e) {
                return e.kind == ElementKind::contact && e.a == found[0] && e.b == found[1];
            };
            if (std::none_of(owner.elements.begin(), owner.elements.end(), same)) {
                Element contact;
                contact.kind = ElementKind::contact;
                contact.a = found[0], contact.b = found[1], contact.at = written;
                owner.elements.push_back(std::move(contact));
            }
        }
        if (owner.find_position(position.position) != nullptr)
            findings_.add(202, at,
                          fmt::format("the position `{}` of {} is declared twice", position.position, owner.id),
                          "give each position a word of its own");
        else
            owner.positions.push_back(std::move(position));
        return true;
    }
    case Form::at_value:
    case Form::at_percent: {
        read.skip_words();
        const bool percent = form == Form::at_percent;
        const auto wanted = percent ? ElementKind::pot : ElementKind::ntc;
        const auto element = std::find_if(owner.elements.rbegin(), owner.elements.rend(),
                                          [wanted](const Element& e) { return e.kind == wanted; });
        if (element == owner.elements.rend()) {
            findings_.add(114, at,
                          percent ? "this position belongs to no track: no `pot` stands above it"
                                  : "this row belongs to no table: no `ntc` stands above it",
                          percent ? "write first: pot 2/4/3 1.2 kohm" : "write first: ntc 1/2");
            return true;
        }
        TableValue row;
        row.at = at;
        if (percent) {
            row.position = text(read.take());
            row.value = value("percentage");
        } else {
            row.at_value = value("temperature");
            row.value = value("sensor resistance");
        }
        element->table.push_back(std::move(row));
        return true;
    }
    default: return false;
    }
}

} // namespace loomsheet
