#include "model/builder.hpp"
#include "syntax/complain.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace loomsheet {

namespace {
bool lists(std::string_view words, std::string_view word) {
    while (!words.empty()) {
        const auto end = std::min(words.find(' '), words.size());
        if (words.substr(0, end) == word) return true;
        words.remove_prefix(std::min(end + 1, words.size()));
    }
    return false;
}

// "a motor, a lamp or a heater" of "motor lamp heater"
std::string any_of(std::string_view kinds) {
    std::string made;
    while (!kinds.empty()) {
        const auto end = std::min(kinds.find(' '), kinds.size());
        const bool last = end == kinds.size();
        made += fmt::format("{}{}", made.empty() ? "" : last ? " or " : ", ", with_article(kinds.substr(0, end)));
        kinds.remove_prefix(std::min(end + 1, kinds.size()));
    }
    return made;
}
} // namespace

// Not a phrase that only other kinds of part have.
bool Builder::suits(const Part& owner, const PhraseRow& row) {
    return row.suits.empty() || lists(row.suits, kind_word(owner.kind));
}

void Builder::fill_part(Entry& entry) {
    PartId id = entry.made;
    auto read_head = head(entry);
    if (statements()[static_cast<std::size_t>(entry.statement->row)].head == Form::head_name)
        id = find_part(read_head.take());
    if (id == none) return;
    const auto before = findings_.list().size(); // where something is wrong, nothing is missing
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        const auto index = entry.statement->first_phrase + i;
        auto opened = open(entry, index);
        const Form form = opened.row->form;
        const auto& phrase = entry.tree->phrases[index];
        if (!suits(part(id), *opened.row)) {
            findings_.add(112, opened.at,
                          fmt::format("{} has no `{}`", with_article(kind_word(part(id).kind)), said(opened.at)),
                          fmt::format("this phrase belongs to {}", any_of(opened.row->suits)));
            continue;
        }
        if (!part_phrase(part(id), id, form, opened.read) && !connector_phrase(part(id), form, opened.read))
            element_phrase(part(id), id, form, opened.read, phrase);
    }
    if (entry.made != none && !half_read_.contains(id) && findings_.list().size() == before)
        check_needs(part(id), entry);
}

// Phrases that say something of the part as a whole.
bool Builder::part_phrase(Part& owner, PartId id, Form form, Reader& read) {
    const auto value = [&](std::string_view role) {
        auto made = read.quantity();
        reach(made, role);
        return made;
    };
    switch (form) {
    case Form::place: read.skip_words(), owner.place = read.text(); return true;
    case Form::behind: {
        read.skip_words();
        const Span label = read.take();
        panel_uses_.push_back(label);
        if (const auto found = panels_.find(std::string(text(label))); found != panels_.end())
            owner.panel = found->second.id;
        else if (!files_lost_ && !is_doubtful(text(label)))
            findings_.add(508, label, fmt::format("no access panel is called `{}`", text(label)),
                          fmt::format("declare it: access {} \"Lower shield\", 12 min", text(label)));
        return true;
    }
    case Form::on_metal: read.word("on"), owner.metal = read.any_word(); return true;
    case Form::bolted: {
        const auto name = read.take_text();
        owner.bolted_pin = circuit_.find_pin(pin_home(id), name);
        read.skip_words();
        const Span to = read.take();
        owner.bolted_to = find_part(to);
        if (owner.bolted_to != none && part(owner.bolted_to).kind != PartKind::ground) {
            findings_.add(203, to,
                          fmt::format("`{}` is {}, not a ground point", text(to),
                                      with_article(kind_word(part(owner.bolted_to).kind))),
                          "a bolted case sits on a `ground`");
            owner.bolted_to = none;
        }
        return true;
    }
    case Form::in_assembly: return true; // read with the names
    case Form::likely:
        read.skip_words();
        owner.likely = read.number();
        return true;
    case Form::how: read.skip_words(), owner.how = read.text(); return true;
    case Form::note: owner.notes.push_back(words(read)); return true;
    case Form::caution: owner.cautions.push_back(words(read)); return true;
    case Form::allow: owner.allows.push_back(allow(read)); return true;
    case Form::charge: owner.capacity = value("capacity"); return true;
    case Form::inner: owner.inner = value("inner resistance"); return true;
    case Form::amps: owner.rating = value("fuse rating"); return true;
    case Form::type: {
        read.skip_words();
        const Span type = read.take();
        owner.fuse_type = text(type);
        if (owner.fuse_type != "C" && owner.fuse_type != "E" && owner.fuse_type != "F")
            findings_.add(203, type, fmt::format("`{}` is no type of fuse", owner.fuse_type),
                          "ISO 8820-3 knows type C (medium), E (high current) and F (miniature)");
        return true;
    }
    case Form::opens_at: owner.opens_at = value("opening temperature"); return true;
    case Form::resets: read.word("resets"), read.word("by"), owner.resets = read.any_word(); return true;
    case Form::pulls_in: owner.pulls_in = value("relay voltage"); return true;
    case Form::drops_out: owner.drops_out = value("relay voltage"); return true;
    case Form::stalls_at: owner.stalls_at = value("stall current"); return true;
    case Form::needs: owner.needs = value("needed voltage"); return true;
    case Form::sprung: owner.sprung = true; return true;
    case Form::bare: owner.bare = true; return true;
    case Form::volts_when:
    case Form::draws: {
        Draw made{value(form == Form::draws ? "draw" : "battery voltage"), {}};
        if (read.word("when")) made.when = condition(read);
        (form == Form::draws ? owner.draws : owner.gives).push_back(std::move(made));
        return true;
    }
    case Form::supply:
    case Form::ground:
        read.skip_words();
        while (!read.done())
            if (const PinId found = circuit_.find_pin(pin_home(id), read.take_text()); found != none)
                (form == Form::supply ? owner.supply_pins : owner.ground_pins).push_back(found);
        return true;
    case Form::pins: return true; // read with the names
    case Form::joins:
        read.skip_words();
        while (!read.done()) {
            const Span to = read.take();
            const PinId end = wire_end(to);
            if (end == none) continue;
            if (end == owner.pins.front()) {
                findings_.add(203, to, fmt::format("{} cannot join itself", owner.id));
                continue;
            }
            owner.joined.push_back(end);
        }
        return true;
    default: return false;
    }
}

bool Builder::connector_phrase(Part& owner, Form form, Reader& read) {
    const auto twin = [&]() -> Part* { return owner.twin != none ? &part(owner.twin) : nullptr; };
    switch (form) {
    case Form::cavities: {
        const Span at = read.take();
        const double count = to_number(text(at));
        if (count < 1 || count > 400 || count != static_cast<int>(count))
            findings_.add(207, at, fmt::format("a connector with {} pins is not possible", text(at)), "1 to 400 pins");
        return true;
    }
    case Form::on_part: {
        read.skip_words();
        const Span at = read.take();
        if (owner.twin != none) {
            findings_.add(203, at,
                          fmt::format("{} has another half, {}, and cannot sit on `{}` too", owner.id,
                                      part(owner.twin).id, text(at)),
                          "keep `on` or `mates`");
        } else if (const PartId to = find_part(at); to != none) {
            const auto kind = part(to).kind;
            if (kind == PartKind::connector || kind == PartKind::splice || kind == PartKind::ground ||
                kind == PartKind::fuse)
                findings_.add(203, at,
                              fmt::format("`{}` is {}; a plug sits on a part", text(at), with_article(kind_word(kind))),
                              "an in-line pair is written `mates`");
            else
                owner.plugs_on = to;
        }
        return true;
    }
    case Form::mates: return true; // read with the names
    case Form::half:
        if (twin() == nullptr) {
            findings_.add(203, read.rest(), fmt::format("{} is no in-line pair, so it has no halves", owner.id),
                          "an in-line pair is written `mates`");
            return true;
        }
        read.skip_words();
        owner.half = read.text();
        twin()->half = read.text();
        return true;
    case Form::lock:
        read.skip_words();
        owner.lock = read.text();
        if (auto* other = twin()) other->lock = owner.lock;
        return true;
    case Form::face: {
        read.skip_words();
        const Span rows = read.take();
        owner.face_rows = static_cast<int>(std::clamp(to_number(text(rows)), 0.0, 1000.0));
        read.skip_words();
        const Span columns = read.take();
        owner.face_columns = static_cast<int>(std::clamp(to_number(text(columns)), 0.0, 1000.0));
        if (owner.cavities > 0 && owner.face_rows * owner.face_columns < owner.cavities)
            findings_.add(213, {rows.file, rows.begin, columns.end},
                          fmt::format("{} has {} pins, but {} rows of {} make {}", owner.id, owner.cavities,
                                      owner.face_rows, owner.face_columns, owner.face_rows * owner.face_columns),
                          "rows times columns are at least the pins");
        if (auto* other = twin()) other->face_rows = owner.face_rows, other->face_columns = owner.face_columns;
        return true;
    }
    case Form::named:
    case Form::map:
        read.skip_words();
        while (!read.done()) {
            const auto first = read.arg().first; // cavity = pin
            const Span cavity_at = read.tree().span(first, 1), to_at = read.tree().span(first + 2, 1);
            read.take();
            const std::string cavity(text(cavity_at)), to(text(to_at));
            const auto id = static_cast<PartId>(&owner - circuit_.parts.data());
            const PinId found = find_pin(id, cavity, cavity_at);
            if (found == none) continue;
            if (form == Form::map) {
                owner.map.emplace_back(cavity, to);
                mapped_.emplace_back(id, to_at);
                continue;
            }
            pin(found).mark = to;
            if (auto* other = twin())
                for (const PinId p : other->pins)
                    if (pin(p).name == cavity) pin(p).mark = to;
        }
        return true;
    default: return false;
    }
}

Condition Builder::condition(Reader& read) {
    Condition made;
    made.at = read.rest();
    while (!read.done()) {
        const auto word = read.any_word();
        if (word == "key") continue;
        if (word == "engine") {
            made.engine_running = true;
        } else if (word == "asleep") {
            made.asleep = true;
        } else if (word == "off" || word == "acc" || word == "on" || word == "crank") {
            made.key.emplace_back(word);
        }
    }
    return made;
}

// What a part cannot be without.
void Builder::check_needs(const Part& owner, const Entry& entry) {
    const auto has = [&](ElementKind kind) {
        return std::any_of(owner.elements.begin(), owner.elements.end(),
                           [kind](const Element& e) { return e.kind == kind; });
    };
    switch (owner.kind) {
    case PartKind::battery:
        if (owner.gives.empty()) lacks(entry, "its volts", "12.6 V");
        break;
    case PartKind::fuse:
    case PartKind::breaker:
        if (!owner.rating) lacks(entry, "its rating", "40 A");
        break;
    case PartKind::relay:
        if (!has(ElementKind::coil)) lacks(entry, "its coil", "coil 86/85 85 ohm");
        if (!has(ElementKind::contact)) lacks(entry, "its contact", "contact 30/87");
        break;
    case PartKind::switch_:
        if (!has(ElementKind::contact)) lacks(entry, "its contacts", "at rest, at pressed 1/2");
        break;
    case PartKind::motor:
    case PartKind::solenoid:
    case PartKind::horn:
        if (!has(ElementKind::load)) lacks(entry, "its pins and current", "1/2 22 A");
        break;
    case PartKind::lamp:
    case PartKind::heater:
        if (!has(ElementKind::load)) lacks(entry, "its pins and power", "1/2 55 W at 12 V");
        break;
    case PartKind::resistor:
        if (!has(ElementKind::resistor)) lacks(entry, "its pins and ohms", "1/2 0.35 ohm");
        break;
    case PartKind::diode:
        if (!has(ElementKind::diode)) lacks(entry, "its pins", "1/2");
        break;
    case PartKind::sensor:
        if (owner.elements.empty())
            lacks(entry, "what it is", "ntc 1/2, or coil 1/2 1.2 kohm, or pot 1/2/3 1.2 kohm, or hall");
        break;
    case PartKind::module:
        if (owner.supply_pins.empty()) lacks(entry, "its supply", "supply 30");
        if (owner.ground_pins.empty() && owner.bolted_to == none) lacks(entry, "its ground", "ground 31");
        break;
    case PartKind::assembly:
        if (owner.pins.empty()) lacks(entry, "its pins", "pins 30 50 31");
        break;
    case PartKind::connector:
        if (owner.cavities == 0) lacks(entry, "how many pins it has", "2 pins");
        if (owner.plugs_on == none && owner.twin == none)
            lacks(entry, "what it plugs into", "on M3, or for an in-line pair: mates X31");
        break;
    default: break;
    }
}

} // namespace loomsheet
