#include "syntax/complain.hpp"
#include "grammar/units.hpp"
#include "source/english.hpp"
#include <algorithm>
#include <cctype>
#include <fmt/format.h>

namespace loomsheet {

namespace {
std::vector<std::string_view> unit_words() {
    std::vector<std::string_view> words;
    for (const Unit& unit : units())
        words.push_back(unit.written);
    return words;
}

// "a voltage" for one dimension, "a current, a power or a resistance" for several, "a value" for all.
std::string dimension_words(std::uint32_t bits) {
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i < dimensions().size(); ++i)
        if (bits & (1U << i)) names.push_back(dimensions()[i].word);
    return names.size() > 8 || names.empty() ? "a value" : list_all(names, "or");
}

std::uint32_t dimensions_of(const Node& node) {
    if (node.kind == NodeKind::item)
        return node.atom == Atom::quantity || node.atom == Atom::range || node.atom == Atom::tolerance ? node.dimensions : 0;
    std::uint32_t all = 0;
    for (const auto& branch : node.branches)
        if (!branch.empty()) all |= dimensions_of(branch.front());
    return all;
}

// "`a`, `b` or `c`" for what might have stood there, each once.
std::string any_of(const std::vector<const Node*>& nodes) {
    std::vector<std::string> all;
    for (const Node* node : nodes)
        if (auto one = describe(*node); std::find(all.begin(), all.end(), one) == all.end()) all.push_back(std::move(one));
    if (all.size() > 12) all.resize(12);
    return list_all(all, "or");
}

// The fixed words among them, to tell a slip of the pen.
std::vector<std::string_view> fixed_words(const std::vector<const Node*>& nodes) {
    std::vector<std::string_view> words;
    for (const Node* node : nodes)
        if (node->atom == Atom::word) words.push_back(node->word);
    return words;
}

std::string quoted(std::string_view word) { return fmt::format("{} `{}`", article(word), word); }

// What the quantities are with which a phrase of this statement may begin.
std::uint32_t first_dimensions(const StatementRow& statement, Context context) {
    std::uint32_t all = 0;
    for (const auto& row : vocabulary_of(context).phrases)
        if ((row.where & in(context)) && (statement.head == Form::head_name || suits(row, statement.word)))
            all |= dimensions_of(pattern_of(row).front());
    return all;
}
bool starts_with_value(const PhraseRow& row) {
    const auto& first = pattern_of(row).front();
    return first.atom == Atom::quantity || first.atom == Atom::number || first.atom == Atom::pin || first.atom == Atom::range;
}
} // namespace

std::string meant(std::string_view typed, std::span<const std::string_view> candidates) {
    const auto near = similar(typed, candidates);
    if (near.empty()) return {};
    return fmt::format("did you mean {}?", list_quoted(near));
}

void Complaints::no_statement(std::uint32_t token) {
    const auto typed = matcher_.text_of(token);
    std::vector<std::string_view> words;
    for (const auto& row : vocabulary_.statements)
        words.push_back(row.word);
    auto help = meant(typed, words);
    std::string lower(typed);
    std::transform(lower.begin(), lower.end(), lower.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (help.empty() && is_statement(lower)) help = fmt::format("write `{}`, all small", lower);
    for (unsigned i = 0; help.empty() && i < context_count; ++i)
        if (const auto context = static_cast<Context>(i);
            &vocabulary_of(context) == &vocabulary_ && Openings::of(context).by_word(typed) != nullptr)
            help = fmt::format("`{}` is a phrase: put blanks before it, so that it belongs to the statement above", typed);
    if (help.empty()) help = fmt::format("a line at the margin begins with a statement such as {}", vocabulary_.usual);
    findings_.add(finding::not_a_statement, at(token), fmt::format("`{}` begins no statement", typed), help);
}

void Complaints::head(const StatementRow& row, std::uint32_t statement) {
    const auto failed = matcher_.failed_at();
    auto help = fmt::format("for instance: {}", row.example);
    const auto wanted = any_of(matcher_.failed());
    if (failed >= matcher_.end) {
        findings_.add(finding::statement_without_name, at(statement), fmt::format("`{}` is not finished: here comes {}", row.word, wanted),
                      help);
        return;
    }
    std::string other(matcher_.text_of(failed));
    const auto first = static_cast<unsigned char>(other[0]);
    const auto atom = matcher_.failed().front()->atom;
    if (atom == Atom::name && matcher_.token(failed).kind == TokenKind::word && std::islower(first))
        other[0] = static_cast<char>(std::toupper(first)), help = fmt::format("names begin with a capital: write `{}`", other);
    if (atom == Atom::label && matcher_.token(failed).kind == TokenKind::name)
        other[0] = static_cast<char>(std::tolower(first)), help = fmt::format("labels begin with a small letter: write `{}`", other);
    findings_.add(finding::statement_without_name, at(failed),
                  fmt::format("after `{}` comes {}, not `{}`", matcher_.text_of(failed - 1), wanted, matcher_.text_of(failed)), help);
}

void Complaints::indented(std::uint32_t token) {
    findings_.add(finding::not_its_phrase, at(token),
                  fmt::format("{} statement begins at the margin, and this one is indented", quoted(matcher_.text_of(token))),
                  "take the blanks before it out");
}

bool Complaints::is_word(std::uint32_t token) const {
    return token < matcher_.end && !matcher_.token(token).first_on_line &&
           (matcher_.token(token).kind == TokenKind::word || matcher_.token(token).kind == TokenKind::name);
}

// `11.5 to 12.8 V` or `11.5 - 12.8 V` where a range is meant.
bool Complaints::range(std::uint32_t token) {
    const auto is_number = [&](std::uint32_t i) { return i < matcher_.end && matcher_.token(i).kind == TokenKind::number; };
    const auto sign =
        token + 1 < matcher_.end && (matcher_.text_of(token + 1) == "to" || matcher_.token(token + 1).kind == TokenKind::sign);
    const bool one = is_number(token + 1) && matcher_.text_of(token + 1)[0] == '-'; // 11.5 -12.8
    const auto high = one ? token + 1 : token + 2;
    if (!is_number(token) || !(one || (sign && is_number(high)))) return false;
    const auto unit = is_word(high + 1) ? fmt::format(" {}", matcher_.text_of(high + 1)) : std::string{};
    findings_.add(finding::phrase_not_finished, {file_, matcher_.token(token).begin, matcher_.token(high).end()},
                  "a range is written with two dots",
                  fmt::format("write `{} .. {}{}`", matcher_.text_of(token), matcher_.text_of(high).substr(one ? 1 : 0), unit));
    return true;
}

// A number where a value is due: says what is wrong with its unit. False when there is nothing to say about that.
bool Complaints::number(std::uint32_t token, std::uint32_t dimensions, const std::string& wanted, std::string_view example) {
    const auto kind = matcher_.token(token).kind;
    const auto written = matcher_.text_of(token);
    if (kind == TokenKind::pin) { // 40A, 6mm2
        const auto digits = written.find_first_not_of("0123456789");
        if (const Unit* unit = find_unit(written.substr(digits)); unit != nullptr) {
            findings_.add(finding::number_without_unit, at(token), fmt::format("`{}` has no blank before its unit", written),
                          fmt::format("write `{} {}`", written.substr(0, digits), unit->written));
            return true;
        }
        return false;
    }
    if (kind != TokenKind::number) return false;
    if (range(token)) return true;
    const auto next = token + 1;
    const bool has_next = is_word(next);
    const auto unit = has_next ? matcher_.text_of(next) : std::string_view{};
    const auto such = example.empty() ? std::string{} : fmt::format("for instance: {}", example);
    if (const Unit* known = has_next ? find_unit(unit) : nullptr; known != nullptr) {
        if (dimensions & (1U << static_cast<unsigned>(known->dimension))) return false;
        findings_.add(
            finding::unit_does_not_fit, {file_, matcher_.token(token).begin, matcher_.token(next).end()},
            fmt::format("`{} {}` is {}; {} is {}", written, unit, row_of(known->dimension).word, wanted, dimension_words(dimensions)),
            such);
        return true;
    }
    const bool keyword = has_next && matcher_.keywords->by_word(unit) != nullptr;
    const Unit* in_words = has_next ? unit_meant(unit) : nullptr;
    const auto near = has_next ? meant(unit, unit_words()) : std::string{};
    if (has_next && !keyword && (in_words != nullptr || !near.empty() || unit.size() <= 4)) {
        findings_.add(finding::unknown_unit, at(next), fmt::format("`{}` is no unit", unit),
                      in_words != nullptr ? fmt::format("write `{} {}`", written, in_words->written)
                      : near.empty()      ? such
                                          : near);
        return true;
    }
    findings_.add(finding::number_without_unit, at(token),
                  dimension_words(dimensions) == "a value"
                      ? fmt::format("`{}` has no unit", written)
                      : fmt::format("`{}` has no unit; {} is {}", written, wanted, dimension_words(dimensions)),
                  such);
    return true;
}

// What was typed of the phrase, without its beginning when it is long.
std::string Complaints::typed_so_far(std::uint32_t begin, std::uint32_t failed) const {
    auto first = failed - 1;
    while (first > begin && matcher_.token(failed - 1).end() - matcher_.token(first - 1).begin <= 24)
        --first;
    std::string all;
    for (auto i = first; i < failed; ++i) {
        const bool apart = i != first && matcher_.token(i).begin > matcher_.token(i - 1).end();
        all += apart ? " " : "";
        all += matcher_.text_of(i);
    }
    return all;
}

void Complaints::phrase(const StatementRow& statement, Context context, std::uint32_t begin, const PhraseRow* row) {
    const bool item = context == Context::item;
    const auto& openings = Openings::of(context);
    const auto typed = matcher_.text_of(begin);
    const auto kind = matcher_.token(begin).kind;
    if (row != nullptr && (matcher_.failed_at() > begin + 1 || !starts_with_value(*row) || matcher_.token(begin).kind == TokenKind::pins)) {
        const auto failed = matcher_.failed_at();
        const auto& nodes = matcher_.failed();
        std::uint32_t dimensions = 0;
        for (const Node* node : nodes)
            dimensions |= dimensions_of(*node);
        const auto written = typed_so_far(begin, failed);
        if (failed < matcher_.end && dimensions != 0 &&
            number(failed, dimensions, fmt::format("what comes after `{}`", written), row->example))
            return;
        const bool line_over =
            failed >= matcher_.end || matcher_.token(failed).first_on_line || matcher_.token(failed).kind == TokenKind::comma;
        if (line_over) {
            findings_.add(finding::phrase_not_finished, after(failed - 1), fmt::format("after `{}` comes {}", written, any_of(nodes)),
                          fmt::format("for instance: {}", row->example));
            return;
        }
        auto help = meant(matcher_.text_of(failed), fixed_words(nodes));
        if (help.empty()) help = fmt::format("for instance: {}", row->example);
        findings_.add(finding::phrase_not_finished, at(failed),
                      fmt::format("after `{}` comes {}, not `{}`", written, any_of(nodes), matcher_.text_of(failed)), help);
        return;
    }
    if (number(begin, first_dimensions(statement, context), fmt::format("what `{}` takes", statement.word), statement.example)) return;
    const auto where = item ? std::string("a set-up") : quoted(statement.word);
    if (kind == TokenKind::word || kind == TokenKind::name) {
        const auto words = openings.words();
        auto help = meant(typed, words);
        if (help.empty() && is_statement(typed))
            help = fmt::format("a `{}` statement begins at the margin, without blanks before it", typed);
        if (help.empty()) help = fmt::format("for instance: {}", item ? "key on, X21 unplugged" : statement.example);
        findings_.add(finding::not_its_phrase, at(begin), fmt::format("{} has no phrase that begins with `{}`", where, typed), help);
        return;
    }
    if (kind == TokenKind::text) {
        findings_.add(finding::not_its_phrase, at(begin), "these words in quotes stand alone: nothing says what they are",
                      "put a word before them, such as `at`, `note` or `caution`");
        return;
    }
    findings_.add(finding::not_its_phrase, at(begin), fmt::format("`{}` does not belong here in {}", typed, where),
                  fmt::format("for instance: {}", item ? "key on, X21 unplugged" : statement.example));
}

void Complaints::repeated(const PhraseRow& row, Span first, Span second) {
    findings_.add({finding::phrase_given_twice,
                   second,
                   fmt::format("this stands twice in one statement: {}", row.meaning),
                   "keep one of the two",
                   {{first, "first written here"}}});
}

void Complaints::taken_label(std::uint32_t token) {
    findings_.add(finding::reserved_word, at(token),
                  fmt::format("`{}` is a word of the language and cannot be a label", matcher_.text_of(token)),
                  fmt::format("write `{0}-1` or another word", matcher_.text_of(token)));
}

} // namespace loomsheet
