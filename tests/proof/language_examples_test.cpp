// The reference page and the README: their examples compile, their tables are those of the program.
#include "analysis/analysis.hpp"
#include "circuit/usual_values.hpp"
#include "faults/candidates.hpp"
#include "grammar/colours.hpp"
#include "grammar/units.hpp"
#include "grammar/vocabulary.hpp"
#include "proof/page_blocks.hpp"
#include "source/catalogue.hpp"
#include "source/render.hpp"
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <set>
#include <sstream>

using namespace loomsheet;

namespace {
const std::string page_path = "grammar/LANGUAGE.md";

Findings compiled(Sources& sources, const std::string& name, const std::string& text) {
    MemoryDisk disk;
    disk.files[name] = text;
    disk.files["common/house.plan"] = "ground XE90 \"Left wing\"\n"; // what the page's `use` takes in
    return analyse(sources, disk, {name}).findings;
}

// Without the statement at its beginning.
std::string without_head(const std::string& plan) {
    const std::string text = plan.substr(plan.find("plan "));
    std::size_t at = 0;
    do
        at = text.find('\n', at) + 1;
    while (text[at] == ' ' || text[at] == '\n');
    return text.substr(at);
}

std::set<std::string> kinds_of(std::string_view suits) {
    std::set<std::string> kinds;
    std::istringstream words{std::string(suits)};
    for (std::string word; words >> word;)
        kinds.insert(word);
    return kinds;
}

constexpr std::size_t many_kinds = 6; // what suits more kinds of part stands in the table for every part

std::string phrase_line(const PhraseRow& row, bool with_kinds) {
    std::string line = fmt::format("| `{}` | {}{} |", row.example, row.meaning, row.repeats ? "; may repeat" : "");
    if (with_kinds) line += row.suits.empty() ? " every part |" : fmt::format(" {} |", row.suits);
    return line + "\n";
}

std::string phrase_table(Context context, const std::string& kinds = "") {
    const bool every = context == Context::part && kinds.empty();
    std::string table = every ? "| phrase | what it says | for |\n|---|---|---|\n" : "| phrase | what it says |\n|---|---|\n";
    const auto wanted = kinds_of(kinds);
    for (const PhraseRow& row : phrases()) {
        if ((row.where & in(context)) == 0) continue;
        const auto suits = kinds_of(row.suits);
        const bool for_every = suits.empty() || suits.size() > many_kinds;
        bool listed = context != Context::part || (every && for_every);
        if (!every && !for_every)
            for (const auto& kind : suits)
                listed = listed || wanted.count(kind) == 1;
        if (listed) table += phrase_line(row, every);
    }
    return table;
}

std::string severity_word(Severity severity) {
    return severity == Severity::error ? "error" : severity == Severity::warning ? "warning" : "note";
}

void collect_words(const PhrasePattern& pattern, std::set<std::string>& words) {
    for (const Node& node : pattern) {
        if (node.kind == NodeKind::item && node.atom == Atom::word) words.emplace(node.word);
        for (const auto& branch : node.branches)
            collect_words(branch, words);
    }
}

std::string_view thing_words(Things what) {
    const std::pair<Things, std::string_view> rows[] = {
        {thing::wire, "a wire with its crimps"},
        {thing::joint, "a joint"},
        {thing::ground, "a ground point"},
        {thing::fuse, "a fuse or breaker"},
        {thing::battery, "a battery"},
        {thing::module, "a control unit"},
        {thing::driver, "each of its outputs"},
        {thing::input, "each input, pull-up or supply that it gives"},
        {thing::motor, "a motor, besides its winding"},
        {thing::contact, "each contact of a switch or relay"},
        {thing::diode, "a diode or a Hall sensor"},
        {thing::winding, "each coil, filament, winding, resistor or track"},
    };
    const auto* found = std::find_if(std::begin(rows), std::end(rows), [what](const auto& row) { return row.first == what; });
    REQUIRE(found != std::end(rows));
    return found->second;
}

std::string ohms_name(const TriedFault& row) { return row.words.empty() ? "ohms added" : std::string(row.words); }

// Every word that stands in `ticks` or in a fenced block.
std::set<std::string> words_in_code(const std::string& page) {
    std::set<std::string> words;
    std::string word;
    bool code = false;
    for (std::size_t i = 0; i < page.size(); ++i) {
        if (page[i] == '`') {
            code = !code;
            if (page.compare(i, 3, "```") == 0) i += 2;
        }
        const bool letter = std::isalnum(static_cast<unsigned char>(page[i])) != 0 || page[i] == '-';
        if (letter && code) word += page[i];
        if (!letter && !word.empty()) words.insert(word), word.clear();
    }
    return words;
}
} // namespace

TEST_CASE("whole plans in the pages have no finding") {
    for (const std::string path : {"grammar/LANGUAGE.md", "README.md"}) {
        int whole = 0;
        for (const auto& block : pages::blocks(pages::read(path))) {
            if (block.kind != "plan") continue;
            Sources sources;
            const auto findings = compiled(sources, path, block.text);
            CHECK_MESSAGE(findings.empty(), path, " line ", block.line, "\n", render_text(sources, findings, {}));
            ++whole;
        }
        CHECK_MESSAGE(whole >= 1, path);
    }
}

TEST_CASE("the parts in the reference page, added to its first plan, are understood and their names known") {
    std::string plan, head;
    std::vector<std::pair<std::string, int>> parts;
    for (const auto& block : pages::blocks(pages::read(page_path))) {
        if (block.kind == "plan" && plan.empty()) plan = block.text;
        if (block.kind != "plan part") continue;
        if (block.text.rfind("plan ", 0) == 0)
            head = block.text;
        else
            parts.emplace_back(block.text, block.line);
    }
    REQUIRE_FALSE(plan.empty());
    REQUIRE_FALSE(head.empty());
    CHECK(parts.size() >= 15);
    std::string text = head + without_head(plan);
    for (const auto& [part, line] : parts)
        text += fmt::format("# line {} of the page\n{}", line, part);
    Sources sources;
    Findings errors;
    // A part of a plan need not be wired to its end or lie on a path: what counts is form (LS1xx) and names (LS2xx).
    const Findings all = compiled(sources, "parts.plan", text);
    for (const Diagnostic& finding : all.list())
        if (finding.code < 300 && find_in_catalogue(finding.code)->severity == Severity::error) errors.add(finding);
    CHECK_MESSAGE(errors.empty(), render_text(sources, errors, {}));
}

TEST_CASE("the findings shown in the README are those of the plan above them") {
    int shown = 0;
    for (const auto& block : pages::blocks(pages::read("README.md"))) {
        if (block.kind != "plan wrong") continue;
        Sources sources;
        const auto findings = compiled(sources, "horn.plan", block.text);
        CHECK(findings.has_errors());
        pages::hold_block_after("README.md", block.text, render_text(sources, findings, {}) + summary(findings) + "\n");
        ++shown;
    }
    CHECK(shown == 1);
}

TEST_CASE("the tables of the reference page are those of the program") {
    std::string table = "| statement | what it is | for instance |\n|---|---|---|\n";
    for (const StatementRow& row : statements())
        table += fmt::format("| `{}` | {}{} | `{}` |\n", row.word, row.meaning,
                             row.needs.empty() ? "" : fmt::format(". Needs {}", row.needs), row.example);
    pages::hold_table(page_path, "statements", table);

    pages::hold_table(page_path, "plan", phrase_table(Context::plan));
    pages::hold_table(page_path, "every part", phrase_table(Context::part));
    for (const std::string kinds : {"battery", "fuse breaker", "relay", "switch", "motor lamp heater solenoid horn resistor diode",
                                    "sensor", "module", "assembly", "splice ground", "connector"})
        pages::hold_table(page_path, kinds, phrase_table(Context::part, kinds));
    pages::hold_table(page_path, "wire", phrase_table(Context::wire));
    pages::hold_table(page_path, "cable", phrase_table(Context::cable));
    pages::hold_table(page_path, "access", phrase_table(Context::access));
    pages::hold_table(page_path, "meter", phrase_table(Context::meter));
    pages::hold_table(page_path, "setup", phrase_table(Context::item));
    pages::hold_table(page_path, "check", phrase_table(Context::check));
    pages::hold_table(page_path, "verdict", phrase_table(Context::verdict));
    pages::hold_table(page_path, "plant", phrase_table(Context::plant));
    pages::hold_table(page_path, "question", phrase_table(Context::question));

    table = "| for | units | for instance |\n|---|---|---|\n";
    for (unsigned d = 0; d < dimensions().size(); ++d) {
        std::string row;
        for (const Unit& unit : units())
            if (unit.dimension == static_cast<Dimension>(d) && row.find(fmt::format("`{}`", unit.written)) == std::string::npos)
                row += fmt::format(" `{}`", unit.written);
        table += fmt::format("| {} |{} | `{}` |\n", row_of(static_cast<Dimension>(d)).word, row, row_of(static_cast<Dimension>(d)).example);
    }
    pages::hold_table(page_path, "units", table);

    std::set<std::string> words;
    for (const PhraseRow& row : phrases())
        collect_words(pattern_of(row), words);
    table.clear();
    for (const auto& word : words)
        if (is_taken_label(word)) table += fmt::format("{}`{}`", table.empty() ? "" : " ", word);
    pages::hold_table(page_path, "taken labels", table + "\n");

    table = "| code | colour |\n|---|---|\n";
    for (const ColourRow& row : colours())
        table += fmt::format("| `{}` | {} |\n", row.code, row.word);
    pages::hold_table(page_path, "colours", table);

    table = "| value | unit | low | usual | high | from |\n|---|---|---|---|---|---|\n";
    for (const UsualRow& row : usual_values())
        table += fmt::format("| {} | {} | {:.4g} | {:.4g} | {:.4g} | {} |\n", row.what, row.unit, row.low, row.value, row.high, row.source);
    pages::hold_table(page_path, "usual values", table);

    table = "| what | faults |\n|---|---|\n";
    for (std::size_t i = 0; i < tried_faults().size(); ++i) {
        const TriedFault& row = tried_faults()[i];
        const bool goes_on = i > 0 && tried_faults()[i - 1].of == row.of;
        if (goes_on)
            table.resize(table.size() - 3);
        else
            table += fmt::format("| {} | ", thing_words(row.of));
        table += fmt::format("{}{} {:.3g} |\n", goes_on ? ", " : "", ohms_name(row), row.share);
    }
    pages::hold_table(page_path, "tried faults", table);

    table.clear();
    for (std::size_t i = 0; i + 1 < ohm_bands().size(); ++i)
        table += fmt::format("{}{}", i ? ", " : "", ohms_words(ohm_bands()[i], ohm_bands()[i + 1]));
    pages::hold_table(page_path, "ohm bands", table + "\n");

    table = "| what | how often |\n|---|---|\n";
    for (const UsualShare& row : usual_shares())
        table += fmt::format("| {} | {:.3g} |\n", row.what, row.times);
    pages::hold_table(page_path, "usual shares", table);

    table = "| code | weight | what it is |\n|---|---|---|\n";
    for (const CatalogueRow& row : catalogue())
        table += fmt::format("| {} | {} | {} |\n", code_name(row.code), severity_word(row.severity), row.title);
    pages::hold_table(page_path, "findings", table);
}

TEST_CASE("the reference page names every phrase and every word of the language") {
    const std::string page = pages::read(page_path);
    const auto known = words_in_code(page);
    std::set<std::string> words;
    for (const PhraseRow& row : phrases()) {
        CHECK_MESSAGE(page.find(fmt::format("| `{}` | {}", row.example, row.meaning)) != std::string::npos, std::string(row.example));
        collect_words(pattern_of(row), words);
    }
    for (const StatementRow& row : statements())
        words.emplace(row.word);
    for (const auto& word : words)
        CHECK_MESSAGE(known.count(word) == 1, "the page does not show `", word, "`");
}
