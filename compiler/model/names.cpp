#include "model/builder.hpp"
#include "syntax/complain.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

namespace {
PartKind kind_of(std::string_view word) {
    for (int i = 0; i <= static_cast<int>(PartKind::plain); ++i)
        if (kind_word(static_cast<PartKind>(i)) == word) return static_cast<PartKind>(i);
    return PartKind::plain;
}
std::string_view name_of(std::string_view ref) { return ref.substr(0, ref.find('.')); }
std::string_view pins_after_dot(std::string_view ref) {
    const auto dot = ref.find('.');
    return dot == std::string_view::npos ? std::string_view{} : ref.substr(dot + 1);
}
template <class Do>
void each_pin(std::string_view pins, Do&& todo) {
    while (!pins.empty()) {
        const auto slash = std::min(pins.find('/'), pins.size());
        todo(pins.substr(0, slash));
        pins.remove_prefix(std::min(slash + 1, pins.size()));
    }
}
} // namespace

// --- declaring ---------------------------------------------------------------------------------------------------------------
void Builder::declare_all() {
    for (const Tree& tree : trees_) {
        const bool own = &tree == &trees_.back();
        for (const Statement& statement : tree.statements) {
            if (statement.row < 0) {
                plan_.broken = true;
                continue;
            }
            plan_.broken = plan_.broken || statement.broken;
            if (statement.head_args == 0 && statement.broken) continue; // its head was not understood
            entries_.push_back({&tree, &statement});
            const auto context = statements()[static_cast<std::size_t>(statement.row)].context;
            const bool circuit = context == Context::part || context == Context::wire || context == Context::cable ||
                                 context == Context::access || context == Context::colour || context == Context::use || context == Context::meter;
            if (!own && !circuit) {
                entries_.pop_back();
                findings_.add(203, tree.span(statement.first, 1), fmt::format("a used file holds circuit statements only, not `{}`", text(tree.span(statement.first, 1))),
                              "move it into the plan itself");
            }
        }
    }
    for (Entry& entry : entries_) declare(entry);
    for (const Entry& entry : entries_) declare_twins(entry);
    for (const Entry& entry : entries_) declare_pins(entry);
    for (std::size_t i = 0; i < circuit_.parts.size(); ++i) {
        const PartId under = circuit_.parts[i].plugs_on;
        circuit_.parts[i].plugs_on = none; // set for good when its statement is read
        if (under == none || !part(under).pins.empty()) continue;
        for (int n = 1; n <= circuit_.parts[i].cavities; ++n) add_pin(under, fmt::format("{}", n), part(under).at);
    }
}

bool Builder::declare_name(Names& names, const std::string& name, int id, Span at, std::string_view what) {
    const auto [found, fresh] = names.emplace(name, Declared{id, at});
    if (fresh) return true;
    const Span first = found->second.at;
    findings_.add({202, at, fmt::format("{} `{}` is declared twice{}", what, name,
                                        first.file != at.file ? fmt::format(", in {} and in {}", sources_[first.file].name(), sources_[at.file].name()) : ""),
                   "give one of them another name", {{first, "first declared here"}}});
    return false;
}

void Builder::declare(Entry& entry) {
    const auto& row = statements()[static_cast<std::size_t>(entry.statement->row)];
    auto read = head(entry);
    if (read.done()) return;
    const Span at = read.tree().span(read.arg().first, read.arg().count);
    const std::string name(text(at));
    const auto id = [](const auto& list) { return static_cast<int>(list.size()); };
    switch (row.context) {
    case Context::part: {
        if (row.head != Form::head_name_text) break; // `also` declares nothing
        if (!declare_name(designators_, name, id(circuit_.parts), at, "the name")) break;
        entry.made = id(circuit_.parts);
        Part made;
        made.id = name;
        made.kind = kind_of(row.word);
        made.at = at;
        read.take();
        if (read.is(Atom::text)) made.name = read.text();
        circuit_.parts.push_back(std::move(made));
        if (circuit_.parts.back().kind == PartKind::splice || circuit_.parts.back().kind == PartKind::ground) add_pin(entry.made, "", at);
        break;
    }
    case Context::wire:
    case Context::cable: {
        auto& names = row.context == Context::wire ? wires_ : cables_;
        const int made = row.context == Context::wire ? id(circuit_.wires) : id(circuit_.cables);
        if (const auto other = designators_.find(name); other != designators_.end()) {
            declare_name(designators_, name, made, at, "the name");
            break;
        }
        if (!declare_name(names, name, made, at, row.word)) break;
        entry.made = made;
        if (row.context == Context::wire) {
            circuit_.wires.emplace_back();
            circuit_.wires.back().id = name;
            circuit_.wires.back().at = at;
        } else {
            circuit_.cables.emplace_back();
            circuit_.cables.back().id = name;
            circuit_.cables.back().at = at;
        }
        break;
    }
    case Context::access:
        if (!declare_name(panels_, name, id(circuit_.panels), at, "the panel")) break;
        entry.made = id(circuit_.panels);
        circuit_.panels.emplace_back();
        circuit_.panels.back().label = name;
        circuit_.panels.back().at = at;
        break;
    case Context::setup:
        if (!declare_name(setups_, name, id(plan_.setups), at, "the set-up")) break;
        entry.made = id(plan_.setups);
        plan_.setups.push_back({name, {}, at, false});
        setup_entries_.push_back(&entry);
        break;
    case Context::check:
    case Context::verdict: {
        const bool is_check = row.context == Context::check;
        const int made = is_check ? id(plan_.checks) : id(plan_.verdicts);
        if (!declare_name(steps_, name, made, at, is_check ? "the check" : "the verdict")) break;
        step_is_check_[name] = is_check;
        entry.made = made;
        if (is_check)
            plan_.checks.emplace_back().at = at, plan_.checks.back().label = name;
        else
            plan_.verdicts.emplace_back().at = at, plan_.verdicts.back().label = name;
        break;
    }
    default: break;
    }
}

// `mates X31`: the other half of an in-line pair is made from the one declared.
void Builder::declare_twins(const Entry& entry) {
    if (entry.made == none || statements()[static_cast<std::size_t>(entry.statement->row)].word != "connector") return;
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        auto opened = open(entry, entry.statement->first_phrase + i);
        if (opened.row->form != Form::mates) continue;
        opened.read.skip_words();
        const Span at = opened.read.take();
        const std::string name(text(at));
        if (const auto other = designators_.find(name); other != designators_.end()) {
            findings_.add({202, at, fmt::format("`{}` is declared a second time by `mates`", name), fmt::format("declare an in-line pair once: leave out the statement of `{}`", name),
                           {{other->second.at, "also declared here"}}});
            continue;
        }
        const int made = static_cast<int>(circuit_.parts.size());
        designators_.emplace(name, Declared{made, at});
        Part twin = part(entry.made);
        twin.id = name;
        twin.at = at;
        twin.twin = entry.made;
        part(entry.made).twin = made;
        part(entry.made).first_half = true;
        circuit_.parts.push_back(std::move(twin));
    }
}

PinId Builder::add_pin(PartId home, std::string_view name, Span at, bool reachable) {
    for (const PinId known : part(home).pins)
        if (pin(known).name == name) {
            pin(known).declared = pin(known).declared || reachable;
            return known;
        }
    const auto made = static_cast<PinId>(circuit_.pins.size());
    circuit_.pins.push_back({home, std::string(name), {}, at, none, reachable});
    part(home).pins.push_back(made);
    return made;
}

PartId Builder::pin_home(PartId id) const {
    const auto& p = circuit_.parts[static_cast<std::size_t>(id)];
    return p.assembly != none ? p.assembly : id;
}

// Every pin that a part's own phrases name, before any wire or check does.
void Builder::declare_pins(const Entry& entry) {
    const auto& row = statements()[static_cast<std::size_t>(entry.statement->row)];
    if (row.context != Context::part) return;
    PartId id = entry.made;
    auto read_head = head(entry);
    if (row.head == Form::head_name) { // also
        const auto found = designators_.find(std::string(read_head.take_text()));
        if (found == designators_.end()) return;
        id = found->second.id;
    }
    if (id == none) return;
    const auto phrase_total = entry.statement->phrase_count;
    for (std::uint32_t i = 0; i < phrase_total; ++i) { // `in M1` first: it says where the pins are
        auto opened = open(entry, entry.statement->first_phrase + i);
        if (opened.row->form != Form::in_assembly) continue;
        opened.read.skip_words();
        const Span at = opened.read.take();
        if (const auto home = find_part(at); home != none) {
            if (part(home).kind == PartKind::assembly)
                part(id).assembly = home;
            else
                findings_.add(203, at, fmt::format("`{}` is a {}, not an assembly", text(at), kind_word(part(home).kind)), "declare it as `assembly`, with its `pins`");
        }
    }
    const PartId home = pin_home(id);
    const bool reachable = home == id;
    const auto kind = part(id).kind;
    if (kind == PartKind::battery)
        for (const auto* name : {"+", "-"}) add_pin(home, name, part(id).at, reachable);
    if (kind == PartKind::fuse || kind == PartKind::breaker)
        for (const auto* name : {"1", "2"}) add_pin(home, name, part(id).at, reachable);
    for (std::uint32_t i = 0; i < phrase_total; ++i) {
        auto opened = open(entry, entry.statement->first_phrase + i);
        const bool of_module = kind == PartKind::module || kind == PartKind::sensor || kind == PartKind::assembly;
        switch (opened.row->form) {
        case Form::on_part: { // so that a part that names no pins has those of its plug
            opened.read.skip_words();
            if (const auto found = designators_.find(std::string(opened.read.take_text())); found != designators_.end()) part(id).plugs_on = found->second.id;
            break;
        }
        case Form::cavities: {
            const int count = static_cast<int>(opened.read.number());
            if (count >= 1 && count <= 400) {
                part(id).cavities = count;
                for (const PartId half : {id, part(id).twin})
                    if (half != none)
                        for (int n = 1; n <= count; ++n) add_pin(half, fmt::format("{}", n), part(half).at);
                if (part(id).twin != none) part(part(id).twin).cavities = count;
            }
            break;
        }
        case Form::coil: case Form::contact: case Form::closed_when: case Form::at_position: case Form::pair_value: case Form::pair:
        case Form::ntc: case Form::pot: case Form::hall: case Form::supply: case Form::ground: case Form::output: case Form::gives:
        case Form::pull_up: case Form::input: case Form::between: case Form::pins: case Form::suppressor: case Form::bolted: {
            if ((opened.row->form == Form::supply || opened.row->form == Form::ground) && !of_module) break;
            auto read = opened.read;
            while (!read.done()) {
                const bool pins = read.is(Atom::pin) || read.is(Atom::pins2) || read.is(Atom::pins3);
                const Span at = read.take();
                if (pins) each_pin(text(at), [&](std::string_view name) { add_pin(home, name, at, reachable || opened.row->form == Form::pins); });
            }
            break;
        }
        default: break;
        }
    }
}

// --- finding -----------------------------------------------------------------------------------------------------------------
void Builder::unknown_name(std::string_view name, Span at) {
    if (plan_.broken && wires_.empty() && designators_.empty()) return;
    std::vector<std::string_view> known;
    for (const Names* names : {&designators_, &wires_})
        for (const auto& [word, declared] : *names) known.push_back(word);
    std::sort(known.begin(), known.end());
    auto help = meant(name, known);
    if (help.empty()) help = "declare it in the circuit, or write the name of a part that is declared";
    findings_.add(201, at, fmt::format("nothing is called `{}`", name), help);
}

PartId Builder::find_part(Span at) {
    const auto name = text(at);
    const auto found = designators_.find(std::string(name));
    if (found != designators_.end()) return found->second.id;
    if (wires_.contains(std::string(name)))
        findings_.add(203, at, fmt::format("`{}` is a wire; here comes a part", name));
    else
        unknown_name(name, at);
    return none;
}

PinId Builder::find_pin(PartId id, std::string_view name, Span at) {
    const Part& owner = part(id);
    if (owner.assembly != none) {
        const Part& home = part(owner.assembly);
        const PinId inner = circuit_.find_pin(owner.assembly, name);
        const bool reachable = inner != none && pin(inner).declared;
        findings_.add(205, at, fmt::format("{} lies inside {}{}", owner.id, home.id, reachable ? "" : ", and its pins cannot be reached"),
                      reachable ? fmt::format("write `{}.{}`", home.id, name) : fmt::format("name a pin of {}", home.id));
        return none;
    }
    if (const PinId found = circuit_.find_pin(id, name); found != none) return found;
    std::vector<std::string_view> known;
    for (const PinId p : owner.pins) known.push_back(pin(p).name);
    if (owner.kind == PartKind::connector) {
        if (owner.cavities > 0)
            findings_.add(204, at, fmt::format("{} has {} pins, there is no {}.{}", owner.id, owner.cavities, owner.id, name), fmt::format("its pins are {}.1 to {}.{}", owner.id, owner.id, owner.cavities));
        return none;
    }
    if (owner.kind == PartKind::splice || owner.kind == PartKind::ground) {
        findings_.add(204, at, fmt::format("{} has no pins", owner.id), fmt::format("write `{}` alone", owner.id));
        return none;
    }
    if (known.empty()) {
        if (!plan_.broken) findings_.add(204, at, fmt::format("{} has no pin `{}`: none is declared", owner.id, name), "say in its statement which pins it has");
        return none;
    }
    std::string list;
    for (std::size_t i = 0; i < known.size() && i < 12; ++i) list += (i ? ", " : "") + std::string(known[i]);
    if (known.size() > 12) list += " and more";
    findings_.add({204, at, fmt::format("{} has no pin `{}`", owner.id, name), fmt::format("its pins are {}", list), {{owner.at, "declared here"}}});
    return none;
}

// A point as written: `X21.1`, `part M3.1`, `joint X30.1`, `K5.30/87`, `W4`, `XE1`, `ground`.
PointRef Builder::point(Span at) {
    PointRef made;
    made.at = at;
    auto written = text(at);
    if (written == "ground") {
        made.metal = Metal::body;
        return made;
    }
    Span named = at;
    for (const std::string_view word : {"part", "joint"})
        if (written.starts_with(word) && written.size() > word.size() && (written[word.size()] == ' ' || written[word.size()] == '\t')) {
            made.metal = word == "part" ? Metal::part : Metal::joint;
            const auto skip = written.find_first_not_of(" \t", word.size());
            written.remove_prefix(skip);
            named.begin += static_cast<std::uint32_t>(skip);
        }
    const std::string name(name_of(written));
    const auto pins = pins_after_dot(written);
    if (pins.empty()) {
        if (written.ends_with('.')) {
            findings_.add(204, named, fmt::format("after `{}` the pin is missing", written), fmt::format("for instance: {}1", written));
            return made;
        }
        if (const auto wire = wires_.find(name); wire != wires_.end()) {
            made.wire = wire->second.id;
            made.metal = Metal::whole;
            return made;
        }
        made.part = find_part(named);
        if (made.part == none) return made;
        made.metal = Metal::whole;
        if (part(made.part).kind == PartKind::splice || part(made.part).kind == PartKind::ground) made.pin = part(made.part).pins.front();
        return made;
    }
    const Span name_at{named.file, named.begin, named.begin + static_cast<std::uint32_t>(name.size())};
    const PartId owner = find_part(name_at);
    if (owner == none) return made;
    // One element of a part, inside an assembly or not: K5.30/87
    if (pins.find('/') != std::string_view::npos) {
        bool all = true;
        each_pin(pins, [&](std::string_view pin_name) {
            const PartId home = pin_home(owner);
            const PinId found = home != owner ? circuit_.find_pin(home, pin_name) : find_pin(owner, pin_name, named);
            if (found == none && home != owner) findings_.add(204, named, fmt::format("{} has no pin `{}`", part(owner).id, pin_name));
            all = all && found != none;
            made.pins.push_back(found);
        });
        if (!all) return PointRef{Metal::part, none, none, none, {}, at};
        made.metal = Metal::part;
        made.part = owner;
        return made;
    }
    made.pin = find_pin(owner, pins, named);
    if (made.pin == none) return made;
    made.part = owner;
    if (!pin(made.pin).declared) {
        findings_.add(205, named, fmt::format("{} is inside {} and cannot be reached", circuit_.pin_name(made.pin), part(owner).id), fmt::format("{} lists the pins that can: put it into `pins` if a probe gets there", part(owner).id));
        made.part = made.pin = none;
    }
    return made;
}

// The end of a wire: a cavity, a socket's terminal, a post, a splice or a ground point.
PinId Builder::wire_end(Span at) {
    const PointRef to = point(at);
    if (to.wire != none || to.metal == Metal::body || to.metal == Metal::joint || to.metal == Metal::part || !to.pins.empty()) {
        findings_.add(203, at, fmt::format("a wire ends at a pin, a splice or a ground point, not at `{}`", text(at)), "for instance: W1 G1.+ -> F1.1");
        return none;
    }
    if (to.pin == none && to.part != none) {
        std::string pins;
        for (const PinId p : part(to.part).pins)
            if (pins.size() < 40) pins += (pins.empty() ? "" : ", ") + circuit_.pin_name(p);
        findings_.add(204, at, fmt::format("at which pin of {} does the wire end?", text(at)), pins.empty() ? "" : fmt::format("its pins are {}", pins));
        return none;
    }
    return to.pin;
}

// What meets what when all is plugged in.
void Builder::mate_pins() {
    for (std::size_t i = 0; i < circuit_.parts.size(); ++i) {
        Part& plug = circuit_.parts[i];
        if (plug.kind != PartKind::connector) continue;
        const PartId other = plug.twin != none ? plug.twin : plug.plugs_on;
        if (other == none) continue;
        for (const PinId cavity : std::vector<PinId>(plug.pins)) {
            if (pin(cavity).mate != none) continue;
            auto name = pin(cavity).name;
            for (const auto& [from, to] : plug.map)
                if (from == name) name = to;
            const PinId met = circuit_.find_pin(other, name);
            if (met == none || pin(met).mate != none) continue;
            pin(cavity).mate = met;
            pin(met).mate = cavity;
        }
    }
}

} // namespace loomsheet
