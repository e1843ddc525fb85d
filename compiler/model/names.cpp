#include "model/builder.hpp"
#include "syntax/complain.hpp"
#include <algorithm>
#include <cctype>
#include <fmt/format.h>

namespace loomsheet {

namespace {
std::string small(std::string_view word) {
    std::string made(word);
    std::transform(made.begin(), made.end(), made.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return made;
}
// Phrases that say which pins a part has.
bool names_pins(Form form) {
    switch (form) {
    case Form::coil:
    case Form::contact:
    case Form::closed_when:
    case Form::at_position:
    case Form::pair_value:
    case Form::pair:
    case Form::ntc:
    case Form::pot:
    case Form::hall:
    case Form::supply:
    case Form::ground:
    case Form::output:
    case Form::gives:
    case Form::pull_up:
    case Form::input:
    case Form::between:
    case Form::pins:
    case Form::suppressor:
    case Form::bolted: return true;
    default: return false;
    }
}
} // namespace

void Builder::declare_all() {
    files_lost_ = std::any_of(findings_.list().begin(), findings_.list().end(),
                              [](const Diagnostic& found) { return finding::family(found.code) == finding::files; });
    for (const Tree& tree : trees_) {
        const bool own = &tree == &trees_.back();
        const auto lost = tree.statements.empty() ? tree.tokens.size() : tree.statements.front().first; // indented, and nothing above
        if (lost > 0) plan_.broken = files_lost_ = true;
        for (const Statement& statement : tree.statements) {
            plan_.broken = plan_.broken || statement.broken;
            if (statement.broken) doubt_names(tree, statement);
            if (statement.broken && statement.head_args == 0) continue; // its head was not understood
            entries_.push_back({&tree, &statement});
            const auto context = statements()[static_cast<std::size_t>(statement.row)].context;
            const bool circuit = context == Context::part || context == Context::wire || context == Context::cable ||
                                 context == Context::access || context == Context::colour || context == Context::use ||
                                 context == Context::meter;
            if (!own && !circuit) {
                entries_.pop_back();
                findings_.add(finding::wrong_kind_of_thing, tree.span(statement.first, 1),
                              fmt::format("a used file holds circuit statements only, not `{}`", text(tree.span(statement.first, 1))),
                              "move it into the plan itself");
            }
        }
    }
    const auto count = [this](Context context) {
        return static_cast<std::size_t>(std::count_if(entries_.begin(), entries_.end(), [context](const Entry& entry) {
            return statements()[static_cast<std::size_t>(entry.statement->row)].context == context;
        }));
    };
    circuit_.parts.reserve(count(Context::part));
    circuit_.wires.reserve(count(Context::wire));
    for (Entry& entry : entries_)
        declare(entry);
    for (const Entry& entry : entries_)
        declare_twins(entry);
    for (const Entry& entry : entries_)
        if (entry.statement->broken) doubt(entry);
    for (const Entry& entry : entries_)
        declare_pins(entry);
    for (std::size_t i = 0; i < circuit_.parts.size(); ++i) {
        const PartId under = circuit_.parts[i].plugs_on;
        circuit_.parts[i].plugs_on = none; // set for good when its statement is read
        if (under == none || !part(under).pins.empty()) continue;
        for (int n = 1; n <= circuit_.parts[i].cavities; ++n)
            add_pin(under, fmt::format("{}", n), part(under).at);
    }
}

// Parts, wires and cables share their names.
const Builder::Declared* Builder::find_designator(const std::string& name) const {
    for (const Names* names : {&designators_, &wires_, &cables_})
        if (const auto found = names->find(name); found != names->end()) return &found->second;
    return nullptr;
}

bool Builder::declare_name(Names& names, const std::string& name, int id, Span at, std::string_view what) {
    const bool designator = &names == &designators_ || &names == &wires_ || &names == &cables_;
    const auto known = names.find(name);
    const Declared* other = designator ? find_designator(name) : known != names.end() ? &known->second : nullptr;
    if (other == nullptr) {
        names.emplace(name, Declared{id, at});
        return true;
    }
    const Span first = other->at;
    findings_.add(
        {finding::declared_twice,
         at,
         fmt::format("{} `{}` is declared twice{}", what, name,
                     first.file != at.file ? fmt::format(", in {} and in {}", sources_[first.file].name(), sources_[at.file].name()) : ""),
         "give one of them another name",
         {{first, "first declared here"}}});
    return false;
}

// Names that a head that was not understood may have declared: those behind its word, in the statement and in lines of
// it that begin like a statement of their own.
void Builder::doubt_names(const Tree& tree, const Statement& statement) {
    for (auto i = statement.first; i < statement.first + statement.count; ++i) {
        const bool head =
            i == statement.first ? statement.head_args == 0 : tree.tokens[i].first_on_line && find_statement(text(tree.span(i, 1))) >= 0;
        if (!head) continue;
        const auto kind = i + 1 < statement.first + statement.count ? tree.tokens[i + 1].kind : TokenKind::stray;
        if (kind == TokenKind::name || kind == TokenKind::word)
            doubtful_.insert(small(text(tree.span(i + 1, 1))));
        else
            nameless_ = true;
    }
}

bool Builder::is_doubtful(std::string_view name) const { return nameless_ || doubtful_.contains(small(name)); }

// What this statement may have said is not to be missed elsewhere.
void Builder::doubt(const Entry& entry) {
    const auto& row = statements()[static_cast<std::size_t>(entry.statement->row)];
    if (row.context != Context::part) return;
    const auto name = std::string(head(entry).take_text());
    const auto found = designators_.find(name);
    if (found == designators_.end()) return;
    const Part& owner = part(found->second.id);
    half_read_.insert(found->second.id);
    if (owner.twin != none) half_read_.insert(owner.twin);
    if (owner.kind == PartKind::connector && owner.twin == none) lost_halves_.push_back(name.substr(0, name.find_first_of("0123456789")));
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
        Part& made = circuit_.parts.emplace_back();
        made.id = name;
        made.kind = part_kind(row.word);
        made.at = at;
        read.take();
        if (read.is(Atom::text)) made.name = read.text();
        if (row_of(made.kind).is_point) add_pin(entry.made, "", at);
        break;
    }
    case Context::wire:
    case Context::cable: {
        auto& names = row.context == Context::wire ? wires_ : cables_;
        const int made = row.context == Context::wire ? id(circuit_.wires) : id(circuit_.cables);
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
    case Context::verdict: declare_step(entry, row.context, name, at); break;
    case Context::plant:
        if (!declare_name(plants_, name, id(plan_.plants), at, "the planted fault")) break;
        entry.made = id(plan_.plants);
        plan_.plants.emplace_back().at = at, plan_.plants.back().label = name;
        break;
    case Context::question:
        if (!declare_name(questions_, name, id(plan_.questions), at, "the question")) break;
        entry.made = id(plan_.questions);
        plan_.questions.emplace_back().at = at, plan_.questions.back().label = name;
        break;
    default: break;
    }
}

// Checks and verdicts share their labels.
void Builder::declare_step(Entry& entry, Context context, const std::string& name, Span at) {
    const bool is_check = context == Context::check;
    const int made = static_cast<int>(is_check ? plan_.checks.size() : plan_.verdicts.size());
    if (!declare_name(steps_, name, made, at, is_check ? "the check" : "the verdict")) return;
    step_is_check_[name] = is_check;
    entry.made = made;
    if (is_check)
        plan_.checks.emplace_back().at = at, plan_.checks.back().label = name;
    else
        plan_.verdicts.emplace_back().at = at, plan_.verdicts.back().label = name;
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
        if (const Declared* other = find_designator(name); other != nullptr) {
            findings_.add({finding::declared_twice,
                           at,
                           fmt::format("`{}` is declared a second time by `mates`", name),
                           fmt::format("declare an in-line pair once: leave out the statement of `{}`", name),
                           {{other->at, "also declared here"}}});
            half_read_.insert(entry.made);
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

// The part that a statement declares, or that `also` names.
PartId Builder::declared_part(const Entry& entry) const {
    const auto& row = statements()[static_cast<std::size_t>(entry.statement->row)];
    if (row.context != Context::part) return none;
    if (row.head != Form::head_name) return entry.made;
    const auto found = designators_.find(std::string(head(entry).take_text()));
    return found == designators_.end() ? none : found->second.id;
}

// `in M1`, which says where the pins are.
void Builder::find_assembly(const Entry& entry, PartId id) {
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        auto opened = open(entry, entry.statement->first_phrase + i);
        if (opened.row->form != Form::in_assembly || !suits(*opened.row, kind_word(part(id).kind))) continue;
        opened.read.skip_words();
        const Span at = opened.read.take();
        const PartId home = find_part(at);
        if (home == none) continue;
        if (part(home).kind == PartKind::assembly)
            part(id).assembly = home;
        else
            findings_.add(finding::wrong_kind_of_thing, at, fmt::format("`{}` is {}, not an assembly", text(at), a_kind(part(home).kind)),
                          "declare it as `assembly`, with its `pins`");
    }
}

void Builder::declare_cavities(PartId id, double written) {
    if (!(written >= 1 && written <= 400)) return;
    const int count = static_cast<int>(written);
    for (const PartId half : {id, part(id).twin}) {
        if (half == none) continue;
        part(half).cavities = count;
        for (int n = 1; n <= count; ++n)
            add_pin(half, fmt::format("{}", n), part(half).at);
    }
}

// Every pin that a part's own phrases name, before any wire or check does.
void Builder::declare_pins(const Entry& entry) {
    const PartId id = declared_part(entry);
    if (id == none) return;
    find_assembly(entry, id);
    const PartId home = pin_home(id);
    const bool reachable = home == id;
    const PartKind kind = part(id).kind;
    const bool is_fed = kind == PartKind::module || kind == PartKind::sensor || kind == PartKind::assembly;
    for (const auto name : words_in(row_of(kind).pins))
        add_pin(home, name, part(id).at, reachable);
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        auto [row, read, phrase_at] = open(entry, entry.statement->first_phrase + i);
        if (row->form == Form::on_part) { // so that a part that names no pins has those of its plug
            read.skip_words();
            if (const auto found = designators_.find(std::string(read.take_text())); found != designators_.end())
                part(id).plugs_on = found->second.id;
        }
        if (row->form == Form::cavities) declare_cavities(id, read.number());
        const bool feeds = row->form == Form::supply || row->form == Form::ground;
        if (!names_pins(row->form) || (feeds && !is_fed)) continue;
        while (!read.done()) {
            const bool pins = read.is(Atom::pin) || read.is(Atom::pins2) || read.is(Atom::pins3);
            const Span at = read.take();
            if (!pins) continue;
            for (const auto name : pin_names(text(at)))
                add_pin(home, name, at, reachable || row->form == Form::pins);
        }
    }
}

} // namespace loomsheet
