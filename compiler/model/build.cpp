#include "model/build.hpp"
#include "model/builder.hpp"
#include "model/reach.hpp"
#include "source/english.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {

Plan build(const Sources& sources, const std::vector<Tree>& trees, Findings& findings, const Tree* asked) {
    return Builder(sources, trees, asked, findings).run();
}

std::vector<Words> used_paths(const Sources& sources, const Tree& tree) {
    std::vector<Words> paths;
    for (const Statement& statement : tree.statements) {
        if (statement.row < 0 || statement.head_args == 0 || statements()[static_cast<std::size_t>(statement.row)].context != Context::use)
            continue;
        Reader read(sources, tree, statement.first_head_arg, statement.head_args);
        const Span at = read.rest();
        paths.push_back({read.text(), at});
    }
    return paths;
}

Plan Builder::run() {
    declare_all();
    const auto each = [this](auto&& wanted, auto fill) {
        for (Entry& entry : entries_)
            if (wanted(statements()[static_cast<std::size_t>(entry.statement->row)].context)) (this->*fill)(entry);
    };
    const auto is = [](Context context) { return [context](Context c) { return c == context; }; };
    each(is(Context::colour), &Builder::fill_colour);
    each(is(Context::access), &Builder::fill_panel);
    each(is(Context::part), &Builder::fill_part);
    for (auto& p : circuit_.parts) // the twin of an in-line half is where its half is
        if (p.twin != none && !p.first_half) {
            const Part& half = part(p.twin);
            p.name = half.name, p.place = half.place, p.panel = half.panel;
            for (const auto& [cavity, to] : half.map)
                p.map.emplace_back(to, cavity);
        }
    mate_pins();
    each(is(Context::wire), &Builder::fill_wire);
    each(is(Context::cable), &Builder::fill_cable);
    each(is(Context::meter), &Builder::fill_meter);
    circuit_.index();
    each(is(Context::setup), &Builder::fill_setup);
    each(is(Context::plan), &Builder::fill_plan);
    each(is(Context::check), &Builder::fill_check);
    each(is(Context::verdict), &Builder::fill_verdict);
    each(is(Context::plant), &Builder::fill_plant);
    each(is(Context::question), &Builder::fill_question);
    if (asked_) fill_asked(*asked_);
    compare_values();
    compare_marks();
    report_unused();
    return std::move(plan_);
}

void Builder::fill_setup(Entry& entry) {
    if (entry.made == none) return;
    auto& named = plan_.setups[static_cast<std::size_t>(entry.made)];
    Nesting nesting;
    nesting.open.push_back(entry.made);
    items(entry, entry.statement->first_phrase, named.setup, nesting);
}

// Two values of one part that cannot both be true.
void Builder::compare_values() {
    for (const Part& p : circuit_.parts) {
        if (p.pulls_in && p.drops_out && p.drops_out->si >= p.pulls_in->si)
            findings_.add(finding::out_of_physical_reach, p.drops_out->at,
                          fmt::format("{} drops out at {}, which is not under the {} at which it pulls in", p.id, p.drops_out->written,
                                      p.pulls_in->written),
                          "a relay drops out far under its pull-in volts");
        for (const Element& e : p.elements)
            if (e.kind == ElementKind::load && p.stalls_at && e.value && e.value->unit->dimension == Dimension::ampere &&
                p.stalls_at->si <= e.value->si)
                findings_.add(finding::out_of_physical_reach, p.stalls_at->at,
                              fmt::format("{} stalls at {}, which is not above its running current of {}", p.id, p.stalls_at->written,
                                          e.value->written),
                              "held still, a motor takes 3 to 10 times its running current (common practice, no source)");
        if (const double volts = system_volts(plan_); p.needs && p.needs->si > volts * 1.1)
            findings_.add(finding::out_of_physical_reach, p.needs->at,
                          fmt::format("{} needs {}, more than the {:g} V system gives", p.id, p.needs->written, volts));
    }
}

// Questions with marks and questions without: the sum on the lab sheet leaves some out. One question of a check has the marks of the
// check. Said once.
void Builder::compare_marks() {
    const Question* without = nullptr;
    bool any = false;
    const auto look_at = [&](const Question& question, double marks) {
        any |= marks > 0;
        if (marks <= 0 && !without) without = &question;
    };
    for (const Check& check : plan_.checks)
        for (const Question& question : check.questions)
            look_at(question, question.marks > 0 || check.questions.size() > 1 ? question.marks : check.marks);
    for (const Question& question : plan_.questions)
        look_at(question, question.marks);
    if (any && without)
        findings_.add(finding::question_without_marks, without->at,
                      "this question has no marks and others have: the sum on the lab sheet leaves it out", "write `marks 2` under it");
}

void Builder::report_unused() {
    if (plan_.broken) return;
    std::vector<bool> used(circuit_.panels.size());
    for (const Span at : panel_uses_)
        if (const auto found = panels_.find(std::string(text(at))); found != panels_.end())
            used[static_cast<std::size_t>(found->second.id)] = true;
    const auto own = trees_.back().file; // a used file serves other plans too
    for (std::size_t i = 0; i < used.size(); ++i)
        if (!used[i] && circuit_.panels[i].at.file == own)
            findings_.add(finding::never_used, circuit_.panels[i].at, fmt::format("nothing sits behind `{}`", circuit_.panels[i].label),
                          fmt::format("write `behind {}` at the parts that it hides, or take it out", circuit_.panels[i].label));
    for (const auto& named : plan_.setups)
        if (!named.used)
            findings_.add(finding::never_used, named.at, fmt::format("no check uses the set-up `{}`", named.label),
                          fmt::format("write `with {}` in a check, or take it out", named.label));
}

// --- shared
// ------------------------------------------------------------------------------------------------------------------
Builder::Opened Builder::open(const Entry& entry, std::uint32_t index) const {
    const Phrase& phrase = entry.tree->phrases[index];
    return {&phrases()[phrase.row], Reader(sources_, *entry.tree, phrase.first_arg, phrase.arg_count), entry.tree->span(phrase)};
}

Reader Builder::head(const Entry& entry) const {
    return {sources_, *entry.tree, entry.statement->first_head_arg, entry.statement->head_args};
}

std::string Builder::said(Span at) const {
    std::string all;
    for (const char c : text(at)) {
        if (c == '\n' || c == '\r') return all + (all.ends_with(' ') ? "…" : " …");
        const char shown = c == '\t' ? ' ' : c;
        if (shown != ' ' || !all.ends_with(' ')) all += shown;
    }
    return all;
}

Words Builder::words(Reader& read) {
    read.skip_words();
    const Span at = read.rest();
    return {read.text(), at};
}

Allow Builder::allow(Reader& read) {
    Allow made;
    read.skip_words();
    made.at = read.rest();
    const Span code = read.take();
    const auto written = text(code);
    if (written.size() == 5 && written.starts_with("LS")) made.code = static_cast<int>(to_number(written.substr(2)));
    made.why = read.text();
    const auto* row = find_in_catalogue(made.code);
    if (row == nullptr)
        findings_.add(finding::unknown_name, code, fmt::format("`{}` is no finding", written),
                      "write the code of a warning, such as LS311");
    else if (row->severity == Severity::error)
        findings_.add(finding::wrong_kind_of_thing, code, fmt::format("{} is an error, and an error cannot be allowed", written),
                      "mend what it finds");
    return made;
}

bool Builder::reach(const Quantity& value, std::string_view role) {
    const ReachRow* row = find_reach(role);
    if (value.si >= row->low && value.si <= row->high && value.low() >= std::min(row->low, 0.0)) return true;
    const auto better = other_prefix(value, *row);
    findings_.add(finding::out_of_physical_reach, value.at,
                  fmt::format("`{}` is not possible: {} is {}", said(value.at), with_article(role), row->limits),
                  better.empty() ? std::string{} : fmt::format("did you mean `{}`?", better));
    return false;
}

void Builder::lacks(const Entry& entry, std::string_view what, std::string_view such) {
    const auto& row = statements()[static_cast<std::size_t>(entry.statement->row)];
    const Span at = entry.tree->span(entry.statement->first, 1 + entry.statement->head_args);
    auto read = head(entry);
    const auto name = read.done() ? std::string(row.word) : std::string(read.take_text());
    findings_.add(finding::lacks_what_it_needs, at, fmt::format("{} lacks {}", name, what), fmt::format("add, for instance: {}", such));
}

} // namespace loomsheet
