// What a check expects: states that are seen, and limits of a reading.
#include "model/builder.hpp"
#include "source/english.hpp"
#include <fmt/format.h>

namespace loomsheet {

States Builder::states(Reader& read) {
    States made;
    bool all = false;
    while (!read.done() && read.is(Atom::point)) {
        State one;
        one.of = point(read.take());
        one.at = one.of.at;
        one.verb = state_verb(read.any_word());
        if (one.verb == StateVerb::runs && read.is(Atom::pin)) {
            one.verb = StateVerb::runs_to;
            one.from = read.take_text();
            read.skip_words();
            one.to = read.take_text();
        }
        in_assembly(one);
        state_fits(one);
        made.list.push_back(std::move(one));
        const Span joint = read.done() ? Span{} : read.rest();
        if (read.word("or"))
            made.any = true;
        else if (read.word("and"))
            all = true;
        if (made.any && all) {
            findings_.add(finding::wrong_kind_of_thing, joint, "states are joined all by `and` or all by `or`, not by both",
                          "write two answers");
            all = false;
        }
    }
    return made;
}

// An assembly is in the state of what works in it; where nothing does, of what else has such a state.
void Builder::in_assembly(State& state) {
    if (state.of.part == none || part(state.of.part).kind != PartKind::assembly || !state.of.pins.empty()) return;
    std::vector<PartId> works, has;
    for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id) {
        if (part(id).assembly != state.of.part) continue;
        if (!lists(row_of(part(id).kind).states, state_word(state.verb))) continue;
        has.push_back(id);
        if (is_load(part(id).kind)) works.push_back(id);
    }
    const std::vector<PartId>& meant = works.empty() ? has : works;
    if (meant.size() == 1) state.of.part = meant.front();
    if (meant.size() < 2) return;
    std::vector<std::string> names;
    for (const PartId id : meant)
        names.push_back(part(id).id);
    findings_.add(finding::wrong_kind_of_thing, state.at,
                  fmt::format("{} holds {}: which of them is meant?", part(state.of.part).id, list_all(names, "and")),
                  fmt::format("write `{} {}`", part(meant.front()).id, state_word(state.verb)));
    state.of.part = none;
}

// A motor runs, a lamp is lit, a fuse is blown; a splice is nothing of the kind.
void Builder::state_fits(const State& state) {
    if (state.of.part == none) {
        if (state.of.wire != none || state.of.metal == Metal::body)
            findings_.add(finding::wrong_kind_of_thing, state.at, fmt::format("`{}` has no state to look at", said(state.at)),
                          "name a motor, a lamp, a relay, a fuse or another part");
        return;
    }
    const Part& owner = part(state.of.part);
    const std::string_view known = row_of(owner.kind).states;
    if (lists(known, state_word(state.verb))) return;
    findings_.add(finding::wrong_kind_of_thing, state.at,
                  fmt::format("`{}` does not fit {}, which is {}", state_word(state.verb), owner.id, a_kind(owner.kind)),
                  known.empty() ? std::string("name the part that shows it, such as a motor or a lamp")
                                : fmt::format("write {}", list_quoted(words_in(known))));
}

Limit Builder::limit(Reader& read) {
    Limit made;
    made.at = read.rest();
    const auto any = [&] { return read.quantity(); };
    if (read.is(Atom::range)) {
        Quantity low, high;
        read.range(low, high);
        if (low.si > high.si)
            findings_.add(finding::out_of_physical_reach, low.at, fmt::format("the range `{}` runs from high to low", said(low.at)),
                          "the smaller value stands first");
        made.low = low, made.high = high;
    } else if (read.word("below")) {
        made.kind = LimitKind::below, made.high = any();
    } else if (read.word("above")) {
        made.kind = LimitKind::above, made.low = any();
    } else if (read.word("open")) {
        made.kind = LimitKind::open;
    } else if (read.word("yes")) {
        made.kind = LimitKind::yes;
    } else if (read.word("no")) {
        made.kind = LimitKind::no;
    } else if (read.word("within")) {
        made.kind = LimitKind::within, made.high = any();
        read.word("of");
        made.reference = find_check(read.take(), "an earlier reading is that of");
    }
    return made;
}

// The unit of a limit against what is measured, and whether the meter can show it at all.
void Builder::limit_fits(const Limit& limit, MeasureKind measure) {
    const auto wanted = dimension_of(measure);
    for (const auto& value : {limit.low, limit.high}) {
        if (!value) continue;
        if (const Gives gives = row_of(measure).gives; gives == Gives::yes_or_no || gives == Gives::sight) {
            findings_.add(finding::unit_does_not_fit, value->at,
                          fmt::format("`{}` has no number to compare with `{}`", measure_word(measure), said(value->at)),
                          "expect yes, or expect no");
            return;
        }
        if (!wanted) continue;
        if (value->unit->dimension != *wanted) {
            findings_.add(finding::unit_does_not_fit, value->at,
                          fmt::format("`{}` is {}; this check measures {}", said(value->at), row_of(value->unit->dimension).word,
                                      row_of(*wanted).word),
                          fmt::format("for instance: {}", row_of(*wanted).example));
            return;
        }
        if (!reach(*value, row_of(shown_as(measure)).role)) return;
    }
}

} // namespace loomsheet
