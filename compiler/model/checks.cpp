#include "model/builder.hpp"
#include "syntax/complain.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <optional>

namespace loomsheet {

namespace {
std::optional<Dimension> dimension_of(MeasureKind kind) {
    switch (kind) {
    case MeasureKind::volts:
    case MeasureKind::volts_ac:
    case MeasureKind::drop: return Dimension::volt;
    case MeasureKind::ohms: return Dimension::ohm;
    case MeasureKind::amps:
    case MeasureKind::clamp: return Dimension::ampere;
    default: return std::nullopt;
    }
}

// What can be seen, heard or felt of a kind of part.
std::vector<std::string_view> states_of(PartKind kind) {
    switch (kind) {
    case PartKind::motor: return {"still", "runs", "slow", "works", "fails"};
    case PartKind::assembly: return {"still", "runs", "slow", "chatters", "works", "fails"};
    case PartKind::lamp: return {"dark", "dim", "lit", "works", "fails"};
    case PartKind::relay:
    case PartKind::solenoid: return {"still", "works", "chatters", "fails"};
    case PartKind::module: return {"works", "chatters", "fails"};
    case PartKind::fuse:
    case PartKind::breaker: return {"whole", "blown", "works", "fails"};
    case PartKind::splice:
    case PartKind::ground:
    case PartKind::connector: return {};
    default: return {"works", "fails"};
    }
}
} // namespace

void Builder::fill_check(Entry& entry) {
    if (entry.made == none) return;
    auto& check = plan_.checks[static_cast<std::size_t>(entry.made)];
    auto read_head = head(entry);
    read_head.take();
    if (read_head.is(Atom::text)) check.title = read_head.text();
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        const auto index = entry.statement->first_phrase + i;
        if (entry.tree->phrases[index].is_item) continue;
        auto opened = open(entry, index);
        if (opened.row->form == Form::with)
            check.with = setup(entry, index + 1);
        else
            check_phrase(check, opened.row->form, opened.read, entry.tree->phrases[index]);
    }
    if (check.measure == MeasureKind::nothing && !entry.statement->broken)
        lacks(entry, "what is measured", "volts X21.1 to X21.2, or: look \"The fan runs\": M3 runs");
    for (const Limit& limit : check.limits)
        limit_fits(limit, check.measure);
    for (const Outcome& outcome : check.outcomes)
        if (outcome.band) limit_fits(*outcome.band, check.measure);
}

void Builder::check_phrase(Check& check, Form form, Reader& read, const Phrase& phrase) {
    const Span at = read.tree().span(phrase);
    const auto measures = [&](MeasureKind kind) {
        if (check.measure != MeasureKind::nothing && check.measure != kind) {
            findings_.add({110,
                           at,
                           fmt::format("a check has one measurement; this is a second one, `{}` beside `{}`",
                                       measure_word(kind), measure_word(check.measure)),
                           "write two checks",
                           {{check.measure_at, "the first one"}}});
            return false;
        }
        if (check.measure == MeasureKind::nothing) check.measure_at = at;
        check.measure = kind;
        return true;
    };
    switch (form) {
    case Form::points: {
        const auto word = read.any_word();
        const bool ac = read.word("ac");
        const auto kind = word == "volts"        ? (ac ? MeasureKind::volts_ac : MeasureKind::volts)
                          : word == "drop"       ? MeasureKind::drop
                          : word == "ohms"       ? MeasureKind::ohms
                          : word == "continuity" ? MeasureKind::continuity
                                                 : MeasureKind::testlamp;
        if (!measures(kind)) return;
        Row row;
        row.at = at;
        if (read.is(Atom::text)) row.name = read.text();
        row.red = point(read.take());
        read.skip_words();
        row.black = point(read.take());
        if (std::any_of(check.rows.begin(), check.rows.end(), [&](const Row& r) { return r.name == row.name; }))
            findings_.add({202,
                           at,
                           row.name.empty() ? std::string("several rows need names to tell them apart")
                                            : fmt::format("the row \"{}\" stands twice", row.name),
                           "for instance: volts \"Front left\" X62.1 to X62.2",
                           {{check.rows.front().at, "the row above"}}});
        else
            check.rows.push_back(std::move(row));
        return;
    }
    case Form::through:
    case Form::clamp: {
        if (!measures(form == Form::clamp ? MeasureKind::clamp : MeasureKind::amps)) return;
        Row row;
        row.at = at;
        read.any_word();
        if (read.is(Atom::text)) row.name = read.text();
        read.skip_words();
        row.red = point(read.take());
        check.rows.push_back(std::move(row));
        return;
    }
    case Form::look:
        if (!measures(MeasureKind::look)) return;
        read.skip_words();
        check.look = read.text();
        read.skip_words_of(Atom::colon);
        if (!read.done()) check.look_states = states(read);
        return;
    case Form::read:
        if (!measures(MeasureKind::read)) return;
        read.skip_words(), check.look = read.text();
        return;
    case Form::expect: {
        read.skip_words_of(Atom::word, "expect");
        std::string row;
        if (read.is(Atom::text)) row = read.text();
        auto made = limit(read);
        made.at = at;
        made.row = row;
        made.not_computed = read.word("not");
        const auto same =
            std::find_if(check.limits.begin(), check.limits.end(), [&](const Limit& l) { return l.row == row; });
        if (same != check.limits.end())
            findings_.add({110,
                           at,
                           "a second limit for the same reading",
                           "keep one, or name the row it is for: expect \"Front left\" below 0.5 V",
                           {{same->at, "the first one"}}});
        else
            check.limits.push_back(std::move(made));
        return;
    }
    case Form::no_current:
    case Form::outcome:
    case Form::band:
    case Form::answer_outcome: outcome(check, form, read); return;
    case Form::time: check.time = read.quantity(), reach(*check.time, "check time"); return;
    case Form::marks: {
        read.skip_words();
        const double marks = read.number();
        (check.questions.empty() ? check.marks : check.questions.back().marks) = marks;
        return;
    }
    case Form::exercise: check.exercise = true; return;
    case Form::question: {
        Question made;
        made.at = at;
        read.skip_words(), made.text = read.text();
        check.questions.push_back(std::move(made));
        return;
    }
    case Form::answer:
        if (check.questions.empty())
            findings_.add(114, at, "this answer belongs to no question", "write a `question` above it");
        else
            answer(read, check.questions.back());
        return;
    case Form::steps: check.steps.push_back(words(read)); return;
    case Form::caution: check.cautions.push_back(words(read)); return;
    case Form::note: check.notes.push_back(words(read)); return;
    case Form::allow: check.allows.push_back(allow(read)); return;
    default: return;
    }
}

void Builder::outcome(Check& check, Form form, Reader& read) {
    Outcome made;
    made.at = read.rest();
    if (form == Form::no_current) {
        made.kind = OutcomeKind::no_current;
        read.any_word(), read.any_word();
    } else if (form == Form::band) {
        made.kind = OutcomeKind::band;
        made.band = limit(read);
    } else if (form == Form::answer_outcome) {
        made.kind = OutcomeKind::answer;
        made.answer = read.text();
        if (read.is(Atom::colon)) read.take(), made.states = states(read);
    } else {
        const auto word = read.any_word();
        made.kind = word == "pass"   ? OutcomeKind::pass
                    : word == "fail" ? OutcomeKind::fail
                    : word == "low"  ? OutcomeKind::low
                    : word == "high" ? OutcomeKind::high
                                     : OutcomeKind::open;
        if (read.is(Atom::text))
            made.row = read.text();
        else if (read.is(Atom::name)) {
            const Span name = read.take();
            made.row = text(name);
            find_part(name);
        }
    }
    read.skip_words_of(Atom::arrow);
    made.target = target(read, static_cast<int>(&check - plan_.checks.data()));
    check.outcomes.push_back(std::move(made));
}

Target Builder::target(Reader& read, int check) {
    Target made;
    made.at = read.rest();
    if (read.word("done")) {
        made.kind = TargetKind::done;
    } else if (read.word("next")) {
        made.kind = TargetKind::next;
        if (check + 1 < static_cast<int>(plan_.checks.size())) made.index = check + 1;
    } else if (read.word("suspects")) {
        made.kind = TargetKind::suspects;
        while (!read.done()) {
            if (read.word("to")) made.run_is_span = true;
            made.run.push_back(point(read.take()));
        }
    } else {
        const Span label = read.take();
        const std::string name(text(label));
        const auto found = steps_.find(name);
        if (found == steps_.end()) {
            if (is_doubtful(name)) return made;
            auto help = likely_meant(name, {&steps_});
            if (help.empty()) help = fmt::format("write the check or the verdict: check {} \"...\"", name);
            findings_.add(211, label, fmt::format("no check and no verdict is called `{}`", name), help);
        } else {
            made.kind = step_is_check_.at(name) ? TargetKind::check : TargetKind::verdict;
            made.index = found->second.id;
        }
    }
    return made;
}

int Builder::find_check(Span at, std::string_view use) {
    const std::string name(text(at));
    const auto found = steps_.find(name);
    if (found != steps_.end() && step_is_check_.at(name)) return found->second.id;
    if (found != steps_.end()) {
        findings_.add(203, at, fmt::format("`{}` is a verdict; {} a check", name, use), "write the label of a check");
        return none;
    }
    if (!is_doubtful(name))
        findings_.add(211, at, fmt::format("no check is called `{}`", name), likely_meant(name, {&steps_}));
    return none;
}

States Builder::states(Reader& read) {
    States made;
    bool all = false;
    while (!read.done() && read.is(Atom::point)) {
        State one;
        one.of = point(read.take());
        one.at = one.of.at;
        const auto word = read.any_word();
        constexpr std::array<std::string_view, 12> verbs{"still", "runs",  "slow",     "runs to", "dark",  "dim",
                                                         "lit",   "works", "chatters", "whole",   "blown", "fails"};
        one.verb = static_cast<StateVerb>(std::find(verbs.begin(), verbs.end(), word) - verbs.begin());
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
            findings_.add(203, joint, "states are joined all by `and` or all by `or`, not by both",
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
        const auto known = states_of(part(id).kind);
        if (std::find(known.begin(), known.end(), state_word(state.verb)) == known.end()) continue;
        has.push_back(id);
        if (is_load(part(id).kind)) works.push_back(id);
    }
    const std::vector<PartId>& meant = works.empty() ? has : works;
    if (meant.size() == 1) state.of.part = meant.front();
    if (meant.size() < 2) return;
    std::string list;
    for (std::size_t i = 0; i < meant.size(); ++i)
        list += fmt::format("{}{}", i == 0 ? "" : i + 1 == meant.size() ? " and " : ", ", part(meant[i]).id);
    findings_.add(203, state.at, fmt::format("{} holds {}: which of them is meant?", part(state.of.part).id, list),
                  fmt::format("write `{} {}`", part(meant.front()).id, state_word(state.verb)));
    state.of.part = none;
}

// A motor runs, a lamp is lit, a fuse is blown; a splice is nothing of the kind.
void Builder::state_fits(const State& state) {
    if (state.of.part == none) {
        if (state.of.wire != none || state.of.metal == Metal::body)
            findings_.add(203, state.at, fmt::format("`{}` has no state to look at", said(state.at)),
                          "name a motor, a lamp, a relay, a fuse or another part");
        return;
    }
    const Part& owner = part(state.of.part);
    const auto known = states_of(owner.kind);
    if (std::find(known.begin(), known.end(), state_word(state.verb)) != known.end()) return;
    std::string help;
    for (std::size_t i = 0; i < known.size(); ++i)
        help += fmt::format("{}`{}`", i == 0 ? "" : i + 1 == known.size() ? " or " : ", ", known[i]);
    findings_.add(203, state.at,
                  fmt::format("`{}` does not fit {}, which is {}", state_word(state.verb), owner.id,
                              with_article(kind_word(owner.kind))),
                  known.empty() ? std::string("name the part that shows it, such as a motor or a lamp")
                                : fmt::format("write {}", help));
}

Limit Builder::limit(Reader& read) {
    Limit made;
    made.at = read.rest();
    const auto any = [&] { return read.quantity(); };
    if (read.is(Atom::range)) {
        Quantity low, high;
        read.range(low, high);
        if (low.si > high.si)
            findings_.add(207, low.at, fmt::format("the range `{}` runs from high to low", said(low.at)),
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
        if (measure == MeasureKind::continuity || measure == MeasureKind::testlamp || measure == MeasureKind::look) {
            findings_.add(
                206, value->at,
                fmt::format("`{}` has no number to compare with `{}`", measure_word(measure), said(value->at)),
                "expect yes, or expect no");
            return;
        }
        if (!wanted) continue;
        if (value->unit->dimension != *wanted) {
            findings_.add(206, value->at,
                          fmt::format("`{}` is {}; this check measures {}", said(value->at),
                                      dimension_name(value->unit->dimension), dimension_name(*wanted)),
                          fmt::format("for instance: {}", dimension_example(*wanted)));
            return;
        }
        if (!reach(*value, *wanted == Dimension::volt  ? "reading in volts"
                           : *wanted == Dimension::ohm ? "reading in ohms"
                                                       : "reading in amps"))
            return;
    }
}

} // namespace loomsheet
