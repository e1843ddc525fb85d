#include "model/builder.hpp"
#include "syntax/complain.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

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
    if (measure_phrase(check, form, read, at)) return;
    switch (form) {
    case Form::expect: expect(check, read, at); return;
    case Form::no_current:
    case Form::outcome:
    case Form::band:
    case Form::answer_outcome: outcome(check, form, read); return;
    case Form::time: check.time = value(read, "check time"); return;
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
            findings_.add(finding::lacks_what_it_needs, at, "this answer belongs to no question", "write a `question` above it");
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

// What is measured, looked at or read.
bool Builder::measure_phrase(Check& check, Form form, Reader& read, Span at) {
    switch (form) {
    case Form::points: points(check, read, at); return true;
    case Form::through:
    case Form::clamp: {
        if (!measures(check, form == Form::clamp ? MeasureKind::clamp : MeasureKind::amps, at)) return true;
        Row row;
        row.at = at;
        read.any_word();
        if (read.is(Atom::text)) row.name = read.text();
        read.skip_words();
        row.red = point(read.take());
        check.rows.push_back(std::move(row));
        return true;
    }
    case Form::look:
        if (!measures(check, MeasureKind::look, at)) return true;
        read.skip_words();
        check.look = read.text();
        read.skip_words_of(Atom::colon);
        if (!read.done()) check.look_states = states(read);
        return true;
    case Form::read:
        if (measures(check, MeasureKind::read, at)) read.skip_words(), check.look = read.text();
        return true;
    default: return false;
    }
}

bool Builder::measures(Check& check, MeasureKind kind, Span at) {
    if (check.measure != MeasureKind::nothing && check.measure != kind) {
        findings_.add({finding::phrase_given_twice,
                       at,
                       fmt::format("a check has one measurement; this is a second one, `{}` beside `{}`", measure_word(kind),
                                   measure_word(check.measure)),
                       "write two checks",
                       {{check.measure_at, "the first one"}}});
        return false;
    }
    if (check.measure == MeasureKind::nothing) check.measure_at = at;
    check.measure = kind;
    return true;
}

void Builder::points(Check& check, Reader& read, Span at) {
    const auto word = read.any_word();
    if (!measures(check, read.word("ac") ? MeasureKind::volts_ac : measure_kind(word), at)) return;
    Row row;
    row.at = at;
    if (read.is(Atom::text)) row.name = read.text();
    row.red = point(read.take());
    read.skip_words();
    row.black = point(read.take());
    if (std::any_of(check.rows.begin(), check.rows.end(), [&](const Row& r) { return r.name == row.name; }))
        findings_.add({finding::declared_twice,
                       at,
                       row.name.empty() ? std::string("several rows need names to tell them apart")
                                        : fmt::format("the row \"{}\" stands twice", row.name),
                       "for instance: volts \"Front left\" X62.1 to X62.2",
                       {{check.rows.front().at, "the row above"}}});
    else
        check.rows.push_back(std::move(row));
}

void Builder::expect(Check& check, Reader& read, Span at) {
    read.skip_words_of(Atom::word, "expect");
    std::string row;
    if (read.is(Atom::text)) row = read.text();
    auto made = limit(read);
    made.at = at;
    made.row = row;
    made.not_computed = read.word("not");
    const auto same = std::find_if(check.limits.begin(), check.limits.end(), [&](const Limit& l) { return l.row == row; });
    if (same != check.limits.end())
        findings_.add({finding::phrase_given_twice,
                       at,
                       "a second limit for the same reading",
                       "keep one, or name the row it is for: expect \"Front left\" below 0.5 V",
                       {{same->at, "the first one"}}});
    else
        check.limits.push_back(std::move(made));
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
            findings_.add(finding::unknown_label, label, fmt::format("no check and no verdict is called `{}`", name), help);
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
        findings_.add(finding::wrong_kind_of_thing, at, fmt::format("`{}` is a verdict; {} a check", name, use),
                      "write the label of a check");
        return none;
    }
    if (!is_doubtful(name))
        findings_.add(finding::unknown_label, at, fmt::format("no check is called `{}`", name), likely_meant(name, {&steps_}));
    return none;
}

} // namespace loomsheet
