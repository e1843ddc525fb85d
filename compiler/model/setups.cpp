#include "model/builder.hpp"
#include "syntax/complain.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

namespace {
constexpr std::size_t deepest_setup = 32;

// Whether an item names what it is about: names in a statement or a file that was not read are not told twice.
bool is_whole(const SetupItem& item) {
    switch (row_of(item.kind).names) {
    case Names::nothing: return true;
    case Names::part: return item.part != none;
    case Names::pin: return item.pin != none;
    case Names::parts: return !item.parts.empty();
    }
    return true;
}
} // namespace

// The items that follow phrase `first_item` - 1 of the entry, labels replaced by what they stand for.
Setup Builder::setup(const Entry& entry, std::uint32_t first_item) {
    Setup made;
    Nesting nesting;
    items(entry, first_item, made, nesting);
    return made;
}

void Builder::items(const Entry& entry, std::uint32_t index, Setup& made, Nesting& nesting) {
    const auto end = entry.statement->first_phrase + entry.statement->phrase_count;
    for (; index < end && entry.tree->phrases[index].is_item; ++index) {
        auto opened = open(entry, index);
        if (made.items.empty()) made.at = opened.at;
        made.at.end = opened.at.end;
        if (opened.row->form != Form::item_label) {
            const auto count = findings_.list().size();
            auto one = item(opened.row->form, opened.read);
            one.at = opened.at;
            if (findings_.list().size() == count && is_whole(one)) made.items.push_back(std::move(one));
            continue;
        }
        const Span label = opened.read.take();
        const std::string name(text(label));
        if (!opened.read.done())
            findings_.add(finding::wrong_kind_of_thing, opened.read.rest(),
                          fmt::format("`{}` is a label, and a time belongs to one thing that is done", name),
                          fmt::format("write it in the set-up `{}` itself, such as `asleep for 20 min`", name));
        const auto found = setups_.find(name);
        if (found == setups_.end()) {
            if (is_doubtful(name) || entry.statement->broken) continue; // it may belong to what was not understood
            auto help = likely_meant(name, {&setups_});
            const auto step = step_is_check_.find(name);
            if (step != step_is_check_.end())
                help =
                    fmt::format("`{}` is a {}; a set-up is declared: setup {}: key on", name, step->second ? "check" : "verdict", "ready");
            if (help.empty()) help = fmt::format("declare it: setup {}: key on", name);
            findings_.add(finding::label_is_no_setup, label, fmt::format("no set-up is called `{}`", name), help);
            continue;
        }
        plan_.setups[static_cast<std::size_t>(found->second.id)].used = true;
        expand(found->second.id, made, nesting, label);
    }
}

// What a label stands for is taken in once, however often it is named on the way.
void Builder::expand(int named, Setup& made, Nesting& nesting, Span at) {
    const bool circle = std::find(nesting.open.begin(), nesting.open.end(), named) != nesting.open.end();
    if (circle || nesting.open.size() == deepest_setup) {
        const bool told = troubled_setups_.contains(named);
        troubled_setups_.insert(nesting.open.begin(), nesting.open.end());
        troubled_setups_.insert(named);
        const auto& label = plan_.setups[static_cast<std::size_t>(named)].label;
        if (!told)
            findings_.add(finding::label_is_no_setup, at,
                          circle ? fmt::format("the set-up `{}` uses itself", label)
                                 : fmt::format("`{}` is the label of a label, more than {} deep", label, deepest_setup),
                          "write out what it stands for");
        return;
    }
    if (nesting.taken.contains(named)) return;
    nesting.open.push_back(named);
    const auto own = made.at;
    const Entry& entry = *setup_entries_[static_cast<std::size_t>(named)];
    items(entry, entry.statement->first_phrase, made, nesting);
    made.at = own;
    nesting.open.pop_back();
    nesting.taken.insert(named);
}

// Whether a part has such a position.
void Builder::stands_at(const Part& owner, std::string_view position, Span at) {
    std::vector<std::string_view> known;
    for (const auto& p : owner.positions)
        known.push_back(p.position);
    for (const auto& element : owner.elements)
        for (const auto& p : element.table)
            if (!p.position.empty()) known.push_back(p.position);
    if (known.empty()) {
        findings_.add(finding::wrong_kind_of_thing, at, fmt::format("{} is {} without positions", owner.id, a_kind(owner.kind)),
                      "positions are written `at up 30/A` in a switch, `at pressed 76 %` in a sensor");
    } else if (std::find(known.begin(), known.end(), position) == known.end()) {
        findings_.add(finding::unknown_position, at, fmt::format("{} has no position `{}`", owner.id, position),
                      fmt::format("its positions are {}", fmt::join(known, ", ")));
    }
}

SetupItem Builder::item(Form form, Reader& read) {
    SetupItem made;
    if (form == Form::item_text)
        made.kind = ItemKind::words, made.word = read.text();
    else {
        car_item(made, form, read);
        part_item(made, form, read);
        lead_item(made, form, read);
    }
    if (read.word("for")) made.time = value(read, "duration");
    return made;
}

// Of the car as a whole.
void Builder::car_item(SetupItem& made, Form form, Reader& read) {
    switch (form) {
    case Form::item_key: made.kind = ItemKind::key, read.word("key"), made.word = read.any_word(); break;
    case Form::item_asleep: made.kind = ItemKind::asleep, read.word("asleep"); break;
    case Form::item_engine: made.kind = ItemKind::engine_running, read.word("engine"), read.word("running"); break;
    case Form::item_speed: made.kind = ItemKind::engine_speed, read.word("at"), made.value = value(read, "engine speed"); break;
    default: break;
    }
}

// Of a part that the plan names.
void Builder::part_item(SetupItem& made, Form form, Reader& read) {
    const auto named_part = [&] { made.part = find_part(read.take()); };
    switch (form) {
    case Form::item_unplugged: made.kind = ItemKind::unplugged, named_part(), read.word("unplugged"); break;
    case Form::item_pulled: made.kind = ItemKind::pulled, named_part(), read.word("pulled"); break;
    case Form::item_disconnected: {
        made.kind = ItemKind::disconnected;
        const auto at = point(read.take());
        made.part = at.part, made.pin = at.pin;
        read.word("disconnected");
        break;
    }
    case Form::item_pressed: made.kind = ItemKind::pressed, pressed(made, read); break;
    case Form::item_on: made.kind = ItemKind::output_on, called(made, read); break;
    case Form::item_found: made.kind = ItemKind::as_found, sensor_of(made, read), read.word("as"), read.word("found"); break;
    case Form::item_value: made.kind = ItemKind::at_value, brought_to(made, read); break;
    case Form::item_position: {
        made.kind = ItemKind::position;
        named_part(), read.word("at");
        const Span at = read.take();
        made.word = text(at);
        has_position(made, made.word, at);
        break;
    }
    case Form::item_moved: {
        made.kind = ItemKind::moved;
        named_part(), read.word("from");
        const Span from = read.take();
        read.word("to");
        const Span to = read.take();
        made.word = text(from), made.word2 = text(to);
        has_position(made, made.word, from), has_position(made, made.word2, to);
        break;
    }
    case Form::item_one_of:
        made.kind = ItemKind::one_of_pulled;
        read.skip_words();
        while (read.is(Atom::name))
            if (const PartId one = find_part(read.take()); one != none) made.parts.push_back(one);
        read.word("pulled");
        break;
    default: break;
    }
}

// What the workshop clips on.
void Builder::lead_item(SetupItem& made, Form form, Reader& read) {
    const auto ends = [&] {
        made.a = point(read.take());
        read.word("to");
        made.b = point(read.take());
    };
    if (form == Form::item_bridge) {
        made.kind = ItemKind::bridge;
        read.word("bridge"), ends();
        if (read.word("fused")) made.value = value(read, "bridge fuse");
    } else if (form == Form::item_load) {
        made.kind = ItemKind::load;
        read.word("load");
        made.value = read.quantity();
        reach(*made.value, made.value->unit->dimension == Dimension::watt ? "test load power" : "test load current");
        made.across_points = !read.word("across");
        if (!made.across_points) ends();
    }
}

void Builder::sensor_of(SetupItem& made, Reader& read) {
    const Span at = read.take();
    made.part = find_part(at);
    if (made.part != none && part(made.part).kind != PartKind::sensor)
        findings_.add(finding::wrong_kind_of_thing, at,
                      fmt::format("{} is {}; only a sensor is brought to a value", part(made.part).id, a_kind(part(made.part).kind)));
}

void Builder::has_position(const SetupItem& item, std::string_view position, Span at) {
    if (item.part != none && !half_read_.contains(item.part)) stands_at(part(item.part), position, at);
}

void Builder::pressed(SetupItem& made, Reader& read) {
    const Span at = read.take();
    made.part = find_part(at), read.word("pressed");
    if (made.part == none) return;
    const Part& owner = part(made.part);
    if (owner.kind == PartKind::sensor && owner.sensor_kind == "pot")
        has_position(made, "pressed", at);
    else if (owner.kind != PartKind::switch_)
        findings_.add(finding::wrong_kind_of_thing, at, fmt::format("{} is {}; only a switch is pressed", owner.id, a_kind(owner.kind)));
}

void Builder::called(SetupItem& made, Reader& read) {
    const Span at = read.take();
    const auto to = point(at);
    made.part = to.part, made.pin = to.pin;
    read.word("on");
    if (to.part == none || half_read_.contains(to.part)) return;
    const auto& elements = part(to.part).elements;
    if (std::none_of(elements.begin(), elements.end(),
                     [&](const Element& e) { return e.kind == ElementKind::module_output && e.a == to.pin; }))
        findings_.add(finding::wrong_kind_of_thing, at, fmt::format("{} is no output that can be called", text(at)),
                      fmt::format("declare it in {}: output {} pulls down 1 A", part(to.part).id, pin(to.pin).name));
}

void Builder::brought_to(SetupItem& made, Reader& read) {
    sensor_of(made, read), read.word("at");
    made.value = read.quantity();
    const Dimension dimension = made.value->unit->dimension;
    if (made.part != none && part(made.part).sensor_kind == "ntc" && dimension != Dimension::temperature)
        findings_.add(
            finding::unit_does_not_fit, made.value->at,
            fmt::format("`{}` is {}; {} is brought to a temperature", said(made.value->at), row_of(dimension).word, part(made.part).id),
            "for instance: B2 at 80 degC");
    else if (dimension == Dimension::temperature)
        reach(*made.value, "temperature");
}

} // namespace loomsheet
