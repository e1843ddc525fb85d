// The plans that ship, and the plans that try the language: what they find, what they cover, and that no comma counts.
#include "analysis/analysis.hpp"
#include "grammar/units.hpp"
#include "source/catalogue.hpp"
#include "source/render.hpp"
#include "syntax/parse.hpp"
#include <doctest/doctest.h>
#include <set>

using namespace loomsheet;

namespace {
std::vector<std::string> plans_in(const std::string& folder) {
    RealDisk disk;
    return disk.list(std::string(LOOMSHEET_ROOT) + "/" + folder, ".plan");
}

std::vector<std::string> all_plans() {
    auto all = plans_in("plans");
    for (auto& path : plans_in("tests/plans"))
        all.push_back(std::move(path));
    return all;
}

std::string read(const std::string& path) {
    RealDisk disk;
    std::string text;
    REQUIRE_MESSAGE(disk.read(path, text).empty(), path);
    return text;
}

// Files without a plan head hold statements for `use`.
bool has_head(const std::string& path) {
    Sources sources;
    Findings findings;
    const Tree tree = parse(sources, sources.add(path, read(path)), findings);
    for (const Statement& statement : tree.statements)
        if (statement.row >= 0 && statements()[statement.row].word == "plan") return true;
    return false;
}

std::string findings_of(const std::string& path, Severity least) {
    Sources sources;
    RealDisk disk;
    const auto result = analyse(sources, disk, {path});
    REQUIRE_MESSAGE(result.unreadable.empty(), result.unreadable);
    Findings kept;
    for (const Diagnostic& finding : result.findings.list())
        if (find_in_catalogue(finding.code)->severity >= least) kept.add(finding);
    return render_short(sources, kept, {});
}

void collect_words(const PhrasePattern& pattern, std::set<std::string>& words) {
    for (const Node& node : pattern) {
        if (node.kind == NodeKind::item && node.atom == Atom::word) words.emplace(node.word);
        for (const auto& branch : node.branches)
            collect_words(branch, words);
    }
}

// What occurs in all the plans: rows of the vocabulary, fixed words of its patterns, units.
struct Seen {
    std::set<int> statements, phrases;
    std::set<std::string> words;
};
Seen seen_in(const std::vector<std::string>& paths) {
    Seen seen;
    for (const auto& path : paths) {
        Sources sources;
        Findings findings;
        const auto file = sources.add(path, read(path));
        const Tree tree = parse(sources, file, findings);
        CHECK_MESSAGE(findings.empty(), render_text(sources, findings, {}));
        for (const Statement& statement : tree.statements)
            seen.statements.insert(statement.row);
        for (const Phrase& phrase : tree.phrases)
            seen.phrases.insert(phrase.row);
        for (const Token& token : tree.tokens)
            seen.words.emplace(sources.text({file, token.begin, token.end()}));
    }
    return seen;
}
} // namespace

TEST_CASE("the plans that ship have no finding of any kind") {
    const auto paths = plans_in("plans");
    CHECK(paths.size() >= 3);
    for (const auto& path : paths)
        CHECK_MESSAGE(findings_of(path, Severity::note) == "", path);
}

TEST_CASE("the plans that try the language have no errors") {
    const auto paths = plans_in("tests/plans");
    CHECK(paths.size() >= 7);
    for (const auto& path : paths)
        if (has_head(path)) CHECK_MESSAGE(findings_of(path, Severity::error) == "", path);
}

TEST_CASE("every statement, phrase, word and unit of the language occurs in a plan") {
    const Seen seen = seen_in(all_plans());
    for (std::size_t i = 0; i < statements().size(); ++i)
        CHECK_MESSAGE(seen.statements.count(static_cast<int>(i)) == 1, "no plan has the statement `", std::string(statements()[i].word),
                      "`");
    std::set<std::string> words;
    for (std::size_t i = 0; i < phrases().size(); ++i) {
        CHECK_MESSAGE(seen.phrases.count(static_cast<int>(i)) == 1, "no plan has the phrase `", std::string(phrases()[i].pattern), "`");
        collect_words(pattern_of(phrases()[i]), words);
    }
    for (const auto& word : words)
        CHECK_MESSAGE(seen.words.count(word) == 1, "no plan uses the word `", word, "`");
    for (const Unit& unit : units())
        CHECK_MESSAGE(seen.words.count(std::string(unit.written)) == 1, "no plan uses the unit `", std::string(unit.written), "`");
}

TEST_CASE("a plan without its commas is the same plan") {
    for (const auto& path : all_plans()) {
        Sources sources;
        Findings findings;
        std::string text = read(path);
        const auto file = sources.add(path, text);
        const Tree tree = parse(sources, file, findings);
        std::size_t commas = 0;
        for (const Token& token : tree.tokens)
            if (token.kind == TokenKind::comma) text[token.begin] = ' ', ++commas;
        CHECK_MESSAGE(commas > 0, path);
        const Tree bare = parse(sources, sources.add(path, text), findings);
        CHECK_MESSAGE(findings.empty(), render_text(sources, findings, {}));
        CHECK_MESSAGE(outline(sources, tree) == outline(sources, bare), path);
    }
}
