#include "model/builder.hpp"
#include "source/english.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

namespace {
std::vector<std::string> each_with_article(std::string_view words) {
    std::vector<std::string> list;
    for (const auto word : words_in(words))
        list.push_back(with_article(word));
    return list;
}

bool has(const Part& part, Has what) {
    const auto element = [&](ElementKind kind) {
        return std::any_of(part.elements.begin(), part.elements.end(), [kind](const Element& e) { return e.kind == kind; });
    };
    switch (what) {
    case Has::nothing: return true;
    case Has::volts: return !part.gives.empty();
    case Has::rating: return part.rating.has_value();
    case Has::coil: return element(ElementKind::coil);
    case Has::contact: return element(ElementKind::contact);
    case Has::load: return element(ElementKind::load);
    case Has::resistor: return element(ElementKind::resistor);
    case Has::diode: return element(ElementKind::diode);
    case Has::any_element: return !part.elements.empty();
    case Has::supply: return !part.supply_pins.empty();
    case Has::ground: return !part.ground_pins.empty() || part.bolted_to != none;
    case Has::pins: return !part.pins.empty();
    case Has::cavities: return part.cavities > 0;
    case Has::counterpart: return part.plugs_on != none || part.twin != none;
    }
    return true;
}
} // namespace

void Builder::fill_part(Entry& entry) {
    PartId id = entry.made;
    auto read_head = head(entry);
    if (statements()[static_cast<std::size_t>(entry.statement->row)].head == Form::head_name) id = find_part(read_head.take());
    if (id == none) return;
    const auto before = findings_.list().size(); // where something is wrong, nothing is missing
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        const auto index = entry.statement->first_phrase + i;
        auto opened = open(entry, index);
        const Form form = opened.row->form;
        const auto& phrase = entry.tree->phrases[index];
        if (!suits(*opened.row, kind_word(part(id).kind))) {
            findings_.add(finding::phrase_of_another_kind, opened.at, fmt::format("{} has no `{}`", a_kind(part(id).kind), said(opened.at)),
                          fmt::format("this phrase belongs to {}", list_all(each_with_article(opened.row->suits), "or")));
            continue;
        }
        if (!part_phrase(part(id), id, form, opened.read) && !connector_phrase(part(id), form, opened.read))
            element_phrase(part(id), id, form, opened.read, phrase);
    }
    if (entry.made != none && !half_read_.contains(id) && findings_.list().size() == before) check_needs(part(id), entry);
}

// Phrases that say something of the part as a whole.
bool Builder::part_phrase(Part& owner, PartId id, Form form, Reader& read) {
    switch (form) {
    case Form::charge: owner.capacity = value(read, "capacity"); return true;
    case Form::inner: owner.inner = value(read, "inner resistance"); return true;
    case Form::amps: owner.rating = value(read, "fuse rating"); return true;
    case Form::type: fuse_type(owner, read); return true;
    case Form::opens_at: owner.opens_at = value(read, "opening temperature"); return true;
    case Form::resets: read.word("resets"), read.word("by"), owner.resets = read.any_word(); return true;
    case Form::pulls_in: owner.pulls_in = value(read, "relay voltage"); return true;
    case Form::drops_out: owner.drops_out = value(read, "relay voltage"); return true;
    case Form::stalls_at: owner.stalls_at = value(read, "stall current"); return true;
    case Form::needs: owner.needs = value(read, "needed voltage"); return true;
    case Form::sprung: owner.sprung = true; return true;
    case Form::bare: owner.bare = true; return true;
    case Form::volts_when:
    case Form::draws: {
        Draw made{value(read, form == Form::draws ? "draw" : "battery voltage"), {}};
        if (read.word("when")) made.when = condition(read);
        (form == Form::draws ? owner.draws : owner.gives).push_back(std::move(made));
        return true;
    }
    default: return plain_phrase(owner, form, read) || pin_phrase(owner, id, form, read);
    }
}

// Phrases that any part may have.
bool Builder::plain_phrase(Part& owner, Form form, Reader& read) {
    switch (form) {
    case Form::place: read.skip_words(), owner.place = read.text(); return true;
    case Form::behind: behind(owner, read); return true;
    case Form::on_metal: read.word("on"), owner.metal = read.any_word(); return true;
    case Form::likely: read.skip_words(), owner.likely = read.number(); return true;
    case Form::how: read.skip_words(), owner.how = read.text(); return true;
    case Form::note: owner.notes.push_back(words(read)); return true;
    case Form::caution: owner.cautions.push_back(words(read)); return true;
    case Form::allow: owner.allows.push_back(allow(read)); return true;
    default: return false;
    }
}

// Phrases that say of its pins what they are.
bool Builder::pin_phrase(Part& owner, PartId id, Form form, Reader& read) {
    switch (form) {
    case Form::in_assembly:
    case Form::pins: return true; // read with the names
    case Form::bolted: bolted(owner, id, read); return true;
    case Form::joins: joined(owner, read); return true;
    case Form::supply:
    case Form::ground:
        read.skip_words();
        while (!read.done())
            if (const PinId found = circuit_.find_pin(pin_home(id), read.take_text()); found != none)
                (form == Form::supply ? owner.supply_pins : owner.ground_pins).push_back(found);
        return true;
    default: return false;
    }
}

void Builder::behind(Part& owner, Reader& read) {
    read.skip_words();
    const Span label = read.take();
    panel_uses_.push_back(label);
    if (const auto found = panels_.find(std::string(text(label))); found != panels_.end())
        owner.panel = found->second.id;
    else if (!files_lost_ && !is_doubtful(text(label)))
        findings_.add(finding::unknown_panel, label, fmt::format("no access panel is called `{}`", text(label)),
                      fmt::format("declare it: access {} \"Lower shield\", 12 min", text(label)));
}

void Builder::bolted(Part& owner, PartId id, Reader& read) {
    owner.bolted_pin = circuit_.find_pin(pin_home(id), read.take_text());
    read.skip_words();
    const Span to = read.take();
    owner.bolted_to = find_part(to);
    if (owner.bolted_to == none || part(owner.bolted_to).kind == PartKind::ground) return;
    findings_.add(finding::wrong_kind_of_thing, to,
                  fmt::format("`{}` is {}, not a ground point", text(to), a_kind(part(owner.bolted_to).kind)),
                  "a bolted case sits on a `ground`");
    owner.bolted_to = none;
}

void Builder::fuse_type(Part& owner, Reader& read) {
    read.skip_words();
    const Span type = read.take();
    owner.fuse_type = text(type);
    if (owner.fuse_type != "C" && owner.fuse_type != "E" && owner.fuse_type != "F")
        findings_.add(finding::wrong_kind_of_thing, type, fmt::format("`{}` is no type of fuse", owner.fuse_type),
                      "ISO 8820-3 knows type C (medium), E (high current) and F (miniature)");
}

void Builder::joined(Part& owner, Reader& read) {
    read.skip_words();
    while (!read.done()) {
        const Span to = read.take();
        const PinId end = wire_end(to);
        if (end == owner.pins.front())
            findings_.add(finding::wrong_kind_of_thing, to, fmt::format("{} cannot join itself", owner.id));
        else if (end != none)
            owner.joined.push_back(end);
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
    const PartKindRow& row = row_of(owner.kind);
    for (const Need& need : {row.needs, row.also_needs})
        if (!has(owner, need.what)) lacks(entry, need.word, need.such);
}

} // namespace loomsheet
