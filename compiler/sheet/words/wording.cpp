#include "sheet/words/wording.hpp"
#include "grammar/colours.hpp"
#include "model/reader.hpp"
#include "sheet/words/shipped.hpp"
#include "syntax/complain.hpp"
#include "syntax/parse.hpp"
#include <algorithm>
#include <cassert>

namespace loomsheet {
namespace {

Form form_of(const Statement& statement) { return sheet_vocabulary().statements[static_cast<std::size_t>(statement.row)].head; }

// Of a word that a language may leave out: a colour has one in its own row.
std::string_view own_text(std::size_t word) {
    const std::size_t colour = word - static_cast<std::size_t>(Word::colour_black);
    return colour < colours().size() ? colours()[colour].word : std::string_view();
}

std::string count_of(int places) { return places == 0 ? "no place" : places == 1 ? "one place" : fmt::format("{} places", places); }

} // namespace

const Wording& english() {
    static const Wording words = [] {
        Sources sources;
        MemoryDisk disk;
        Findings findings;
        WordingReader reader(sources, disk, findings);
        reader.language({"english", false, {}});
        assert(findings.empty()); // a test holds it
        return reader.wording();
    }();
    return words;
}

std::optional<Word> find_word(std::string_view name) {
    const auto rows = word_rows();
    const auto found = std::find_if(rows.begin(), rows.end(), [&](const WordRow& row) { return row.name == name; });
    if (found == rows.end()) return std::nullopt;
    return static_cast<Word>(found - rows.begin());
}

std::string meant_word(std::string_view typed) {
    std::vector<std::string_view> names;
    for (const WordRow& row : word_rows())
        names.push_back(row.name);
    return meant(typed, names);
}

std::string wrong_places(std::string_view text, int places) {
    int counted = 0;
    std::vector<bool> numbered(static_cast<std::size_t>(places), false);
    bool any_numbered = false;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] == '}') return "a `}` stands alone";
        if (text[at] != '{') continue;
        const std::size_t end = text.find('}', at);
        const std::string_view inside = end == std::string_view::npos ? "?" : text.substr(at + 1, end - at - 1);
        if (inside.empty()) {
            ++counted;
        } else if (inside.size() == 1 && inside[0] >= '0' && inside[0] < '0' + places) {
            any_numbered = numbered[static_cast<std::size_t>(inside[0] - '0')] = true;
        } else {
            return fmt::format("`{{{}}}` is no place of this word, which has {}", inside == "?" ? "" : inside, count_of(places));
        }
        at = end;
    }
    if (any_numbered && counted > 0) return "either all places are numbered or none";
    if (any_numbered) counted = static_cast<int>(std::count(numbered.begin(), numbered.end(), true));
    return counted == places ? "" : fmt::format("this word has {}, this text has {}", count_of(places), count_of(counted));
}

WordingReader::WordingReader(Sources& sources, Disk& disk, Findings& findings)
    : sources_(sources), disk_(disk), findings_(findings), said_(word_rows().size()) {}

void WordingReader::language(const LanguageName& asked) {
    std::fill(said_.begin(), said_.end(), std::nullopt);
    if (asked.is_file) {
        std::string text;
        if (const DiskError error = disk_.read(asked.name, text); !error.empty())
            return findings_.add(finding::used_file_unreadable, asked.at, error, "the path is seen from the file that names it");
        return file(sources_.add(asked.name, std::move(text)));
    }
    const std::string name = asked.name + ".words";
    if (const std::string_view text = shipped_file(name); !text.empty()) return file(sources_.add(name, std::string(text)));
    const std::vector<std::string> names = shipped_names(".words");
    findings_.add(finding::unknown_to_templates, asked.at, fmt::format("no language `{}` ships", asked.name),
                  fmt::format("there are {}", fmt::join(names, ", ")));
}

void WordingReader::file(std::uint32_t number) {
    const std::size_t before = findings_.list().size();
    const Tree tree = parse(sources_, number, findings_, sheet_vocabulary());
    bool has_base = false;
    for (const Statement& statement : tree.statements) {
        if (statement.row < 0 || statement.broken) continue;
        const Form form = form_of(statement);
        if (form == Form::language && !has_base && &statement == &tree.statements.front()) {
            has_base = true;
            base(tree, statement);
        } else if (form == Form::word) {
            word(tree, statement);
        } else {
            findings_.add(finding::not_for_this_file, tree.span(statement.first, 1),
                          fmt::format("`{}` has no place here in a file of words", sources_.text(tree.span(statement.first, 1))),
                          "such a file has `word` statements, and may begin with one `language`, from which it takes the rest");
        }
    }
    if (findings_.list().size() == before) missing(number);
}

void WordingReader::base(const Tree& tree, const Statement& statement) {
    Reader args(sources_, tree, statement.first_head_arg, statement.head_args);
    const Span at = tree.span(tree.args[statement.first_head_arg].first, 1);
    if (!args.is(Atom::key))
        return findings_.add(finding::not_for_this_file, at,
                             "a file of words takes the rest from a language that ships, not from another file",
                             "for instance: language english");
    language({std::string(args.take_text()), false, at});
    for (std::optional<Said>& said : said_)
        if (said) said->at = {}; // may be said anew
}

void WordingReader::word(const Tree& tree, const Statement& statement) {
    Reader args(sources_, tree, statement.first_head_arg, statement.head_args);
    const Span name_at = args.take();
    const std::string_view name = sources_.text(name_at);
    const Span at = tree.span(tree.args[statement.first_head_arg + 1].first, tree.args[statement.first_head_arg + 1].count);
    const std::optional<Word> found = find_word(name);
    if (!found) return findings_.add(finding::unknown_to_templates, name_at, fmt::format("there is no word `{}`", name), meant_word(name));
    const auto number = static_cast<std::size_t>(*found);
    std::string text = args.text();
    if (const std::string wrong = wrong_places(text, word_rows()[number].places); !wrong.empty()) {
        findings_.add(finding::word_with_wrong_places, at, fmt::format("`{}`: {}", name, wrong),
                      said_[number] ? fmt::format("until now it is: \"{}\"", said_[number]->text)
                                    : fmt::format("write its places as {{}}, in order"));
        return;
    }
    std::optional<Said>& said = said_[number];
    if (said && said->at.end > 0 && said->at.file == name_at.file)
        findings_.add({finding::twice_in_template,
                       name_at,
                       fmt::format("`{}` has its words twice", name),
                       "keep one of the two",
                       {{said->at, "first said here"}}});
    said = Said{std::move(text), name_at};
}

void WordingReader::missing(std::uint32_t number) {
    constexpr std::size_t most = 4;
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i < said_.size(); ++i)
        if (!said_[i] && own_text(i).empty()) names.push_back(word_rows()[i].name);
    if (names.empty()) return;
    const std::size_t left = names.size() - std::min(names.size(), most);
    names.resize(names.size() - left);
    findings_.add(finding::word_without_text, {number, 0, 0},
                  fmt::format("no words for `{}`{}", fmt::join(names, "`, `"), left > 0 ? fmt::format(" and {} more", left) : ""),
                  "write them, or begin with `language english`, from which the rest is taken");
}

Wording WordingReader::wording() const {
    Wording made;
    for (std::size_t i = 0; i < said_.size(); ++i)
        made.texts.push_back(said_[i] ? said_[i]->text : std::string(own_text(i)));
    return made;
}

} // namespace loomsheet
