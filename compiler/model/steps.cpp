// Plan head, verdicts, planted faults and questions; checks stand in checks.cpp.
#include "model/builder.hpp"
#include "syntax/complain.hpp"
#include <algorithm>
#include <cctype>
#include <fmt/format.h>

namespace loomsheet {

namespace {
// SAE J2012 / ISO 15031-6: letter, a digit 0 to 3, three hexadecimal digits.
bool is_trouble_code(std::string_view code) {
    return code.size() == 5 && std::string_view("PCBU").find(code[0]) != std::string_view::npos && code[1] >= '0' && code[1] <= '3' &&
           std::all_of(code.begin() + 2, code.end(), [](unsigned char c) { return std::isdigit(c) || (c >= 'A' && c <= 'F'); });
}
} // namespace

void Builder::fill_plan(Entry& entry) {
    auto read_head = head(entry);
    const Span at = read_head.take();
    if (!plan_.id.empty()) {
        findings_.add({finding::second_plan_head,
                       at,
                       fmt::format("a second plan head: `{}`", text(at)),
                       "one file holds one plan",
                       {{plan_.at, "the first one"}}});
        return;
    }
    plan_.id = text(at);
    plan_.at = at;
    plan_.title = read_head.text();
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        const auto index = entry.statement->first_phrase + i;
        if (entry.tree->phrases[index].is_item) continue;
        auto [row, read, place] = open(entry, index);
        switch (row->form) {
        case Form::vehicle: read.skip_words(), plan_.vehicle = read.text(); break;
        case Form::author: read.skip_words(), plan_.author = read.text(); break;
        case Form::complaint: complaint(read, plan_.complaint, plan_.complaint_states, true); break;
        case Form::with: plan_.complaint_with = setup(entry, index + 1); break;
        case Form::code: {
            read.skip_words();
            const Span code = read.take();
            if (is_trouble_code(text(code)))
                plan_.codes.emplace_back(text(code));
            else
                findings_.add(finding::no_trouble_code, code, fmt::format("`{}` is no trouble code", text(code)),
                              "a trouble code is P, C, B or U, a digit 0 to 3 and three more, such as P0480");
            break;
        }
        case Form::revision:
            read.skip_words();
            plan_.revision = read.take_text();
            if (!read.done()) plan_.date = read.take_text();
            break;
        case Form::system: plan_.system = value(read, "system voltage"); break;
        case Form::caution: plan_.cautions.push_back(words(read)); break;
        case Form::note: plan_.notes.push_back(words(read)); break;
        case Form::allow: plan_.allows.push_back(allow(read)); break;
        default: break;
        }
    }
}

void Builder::complaint(Reader& read, std::string& said, States& meant_states, bool may_measure) {
    read.skip_words();
    said = read.text();
    read.skip_words_of(Atom::colon);
    if (read.done()) return;
    if (!read.is(Atom::word)) {
        meant_states = states(read);
        return;
    }
    const Span at = read.rest();
    const auto measure = read.any_word();
    if (!may_measure) {
        findings_.add(finding::wrong_kind_of_thing, at, "a planted fault's complaint is a state, not a measurement",
                      "for instance: complaint \"Slow\": M3 slow");
        return;
    }
    plan_.complaint_measure = measure_kind(measure);
    read.skip_words();
    Row row;
    row.at = at;
    row.red = point(read.take());
    if (read.word("to")) row.black = point(read.take());
    plan_.complaint_points = row;
    plan_.complaint_limit = limit(read);
    limit_fits(*plan_.complaint_limit, plan_.complaint_measure);
}

void Builder::fill_verdict(Entry& entry) {
    if (entry.made == none) return;
    auto& verdict = plan_.verdicts[static_cast<std::size_t>(entry.made)];
    auto read_head = head(entry);
    read_head.take();
    if (read_head.is(Atom::text)) verdict.title = read_head.text();
    bool blamed = false;
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        auto [row, read, at] = open(entry, entry.statement->first_phrase + i);
        switch (row->form) {
        case Form::blames:
            blamed = true;
            read.word("blames");
            if (read.word("nothing")) verdict.blames_nothing = true;
            while (!read.done()) {
                if (read.is(Atom::text)) {
                    const Span quoted = read.rest();
                    verdict.blamed_words.push_back({read.text(), quoted});
                    continue;
                }
                const auto from = point(read.take());
                if (read.word("to"))
                    verdict.blamed_runs.emplace_back(from, point(read.take()));
                else
                    verdict.blames.push_back(from);
            }
            break;
        case Form::repair: verdict.repairs.push_back(words(read)); break;
        case Form::caution: verdict.cautions.push_back(words(read)); break;
        case Form::note: verdict.notes.push_back(words(read)); break;
        case Form::allow: verdict.allows.push_back(allow(read)); break;
        case Form::after:
            read.skip_words();
            while (!read.done())
                if (const int check = find_check(read.take(), "a repair is proved by"); check != none) verdict.after.push_back(check);
            break;
        case Form::then_plan: read.skip_words(), verdict.then_plan = read.take_text(); break;
        case Form::then: {
            read.skip_words();
            verdict.then.at = read.rest();
            verdict.then.index = find_check(read.take(), "a verdict goes on with");
            verdict.then.kind = verdict.then.index == none ? TargetKind::nowhere : TargetKind::check;
            break;
        }
        default: break;
        }
    }
    if (!entry.statement->broken && !blamed) lacks(entry, "what has failed", "blames M3, or: blames nothing");
}

void Builder::fill_plant(Entry& entry) {
    if (entry.made == none) return;
    Plant& made = plan_.plants[static_cast<std::size_t>(entry.made)];
    auto read_head = head(entry);
    read_head.take();
    if (read_head.is(Atom::text)) made.title = read_head.text();
    bool has_fault = false;
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        const auto index = entry.statement->first_phrase + i;
        if (entry.tree->phrases[index].is_item) continue;
        auto [row, read, place] = open(entry, index);
        switch (row->form) {
        case Form::fault: {
            has_fault = true;
            made.fault = fault(read);
            made.fault.at = place;
            break;
        }
        case Form::how: read.skip_words(), made.how = read.text(); break;
        case Form::undo: read.skip_words(), made.undo = read.text(); break;
        case Form::complaint: complaint(read, made.complaint, made.complaint_states, false); break;
        case Form::with: made.with = setup(entry, index + 1); break;
        case Form::time: made.time = value(read, "check time"); break;
        case Form::marks: read.skip_words(), made.marks = read.number(); break;
        case Form::caution: made.cautions.push_back(words(read)); break;
        case Form::note: made.notes.push_back(words(read)); break;
        default: break;
        }
    }
    if (!entry.statement->broken && !has_fault) lacks(entry, "its fault", "joint X30.1 2.2 ohm");
}

void Builder::fill_question(Entry& entry) {
    if (entry.made == none) return;
    Question& made = plan_.questions[static_cast<std::size_t>(entry.made)];
    auto read_head = head(entry);
    read_head.take();
    made.text = read_head.text();
    for (std::uint32_t i = 0; i < entry.statement->phrase_count; ++i) {
        auto [row, read, place] = open(entry, entry.statement->first_phrase + i);
        if (row->form == Form::marks)
            read.skip_words(), made.marks = read.number();
        else if (row->form == Form::space)
            made.space = value(read, "space");
        else if (row->form == Form::answer)
            answer(read, made);
    }
}

void Builder::answer(Reader& read, Question& question) {
    read.skip_words();
    if (read.is(Atom::text))
        question.answers.push_back(read.text());
    else
        question.expected = read.quantity();
}

} // namespace loomsheet
