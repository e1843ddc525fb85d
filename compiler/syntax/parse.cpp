#include "syntax/parse.hpp"
#include "syntax/complain.hpp"
#include "syntax/match.hpp"
#include "syntax/scan.hpp"
#include "syntax/strays.hpp"
#include <algorithm>
#include <bitset>
#include <fmt/format.h>

namespace loomsheet {

namespace {
constexpr std::size_t longest_line = 20'000; // bytes; no sheet of paper has a use for more

// --- bytes
// ------------------------------------------------------------------------------------------------------------------
// Where the first control character stands that is no tab; the size of the line where there is none.
std::size_t first_control(std::string_view line) {
    const auto is_control = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; };
    unsigned char any = 0; // without a branch, so that the compiler takes many bytes at once
    for (const char c : line)
        any |= static_cast<unsigned char>(is_control(c));
    if (any == 0) return line.size();
    return static_cast<std::size_t>(std::find_if(line.begin(), line.end(), [&](char c) { return c != '\t' && is_control(c); }) -
                                    line.begin());
}

bool good_bytes(const SourceFile& source, std::uint32_t file, Findings& findings) {
    const auto text = source.text();
    if (text.size() >= 0xFFFFFFF0U) {
        findings.add(finding::line_too_long, {file, 0, 0}, "the file is larger than 4 GB");
        return false;
    }
    if (const auto bad = first_bad_utf8(text); bad != std::string_view::npos) {
        const auto at = static_cast<std::uint32_t>(bad);
        findings.add(finding::not_utf8, {file, at, at + 1},
                     fmt::format("byte {:02X} here is not UTF-8 text", static_cast<unsigned char>(text[bad])),
                     "save the file as UTF-8 in your editor");
        return false;
    }
    for (std::size_t begin = 0; begin < text.size();) {
        const auto end = std::min(text.find('\n', begin), text.size());
        auto line = text.substr(begin, end - begin);
        if (line.ends_with('\r') && end < text.size()) line.remove_suffix(1);
        if (line.size() > longest_line) {
            const auto at = static_cast<std::uint32_t>(begin);
            findings.add(finding::line_too_long, {file, at, at + 1},
                         fmt::format("this line has {} characters; {} are the most", line.size(), longest_line),
                         "break the line; an indented line goes on with the statement above");
            return false;
        }
        if (const auto bad = first_control(line); bad < line.size()) {
            const auto at = static_cast<std::uint32_t>(begin + bad);
            findings.add(finding::control_character, {file, at, at + 1},
                         fmt::format("a control character (byte {:02X}) stands here", static_cast<unsigned char>(line[bad])),
                         "take it out; the file may be cut off or not a text");
            return false;
        }
        begin = end + 1;
    }
    return true;
}

// --- statements
// -------------------------------------------------------------------------------------------------------------
Tree empty_tree(std::uint32_t file) {
    Tree tree;
    tree.file = file;
    return tree;
}

class Parser {
public:
    Parser(const SourceFile& source, std::uint32_t file, Findings& findings, const Vocabulary& vocabulary)
        : source_(source), findings_(findings), vocabulary_(vocabulary), matcher_(source.text(), tree_),
          complaints_(matcher_, vocabulary, file, findings) {
        tree_.file = file;
    }

    Tree parse() {
        scan(source_.text(), tree_);
        report_strays(source_.text(), tree_, findings_);
        tree_.phrases.reserve(tree_.tokens.size() / 2);
        tree_.args.reserve(tree_.tokens.size());
        const auto count = static_cast<std::uint32_t>(tree_.tokens.size());
        std::uint32_t at = 0;
        while (at < count && !tree_.tokens[at].at_margin)
            ++at;
        if (at > 0 && count > 0)
            findings_.add(finding::indented_without_statement, span(0), "this line is indented, but no statement stands above it",
                          "begin at the margin");
        while (at < count) {
            auto end = at + 1;
            while (end < count && !tree_.tokens[end].at_margin)
                ++end;
            statement(at, end);
            at = end;
        }
        return std::move(tree_);
    }

    // One phrase of `plant`, its fault, without the statement.
    Tree parse_fault() {
        scan(source_.text(), tree_);
        report_strays(source_.text(), tree_, findings_);
        const auto count = static_cast<std::uint32_t>(tree_.tokens.size());
        std::uint32_t line = 0; // tokens on the first line
        while (line < count && (line == 0 || !tree_.tokens[line].first_on_line))
            ++line;
        matcher_.end = line;
        std::uint32_t at = 0;
        bool broken = has_stray(0, line);
        if (line > 0 && !broken)
            phrase(vocabulary_.statements[static_cast<std::size_t>(vocabulary_.find_statement("plant"))], Context::plant, at, broken);
        const bool is_fault = !broken && tree_.phrases.size() == 1 && vocabulary_.phrases[tree_.phrases.front().row].form == Form::fault;
        if (!broken && (!is_fault || at < count))
            findings_.add(finding::not_its_phrase, count == 0 ? Span{tree_.file, 0, 0} : span(is_fault ? at : 0),
                          is_fault ? "the fault ends before this" : "this is no fault",
                          "one fault, on one line, such as `joint X30.1 2.2 ohm`");
        if (!is_fault || at < count) tree_.phrases.clear();
        return std::move(tree_);
    }

private:
    const SourceFile& source_;
    Findings& findings_;
    const Vocabulary& vocabulary_;
    Tree tree_;
    Matcher matcher_;
    Complaints complaints_;
    std::bitset<256> seen_;
    std::array<std::uint32_t, 256> seen_at_{};

    Span span(std::uint32_t token) const { return tree_.span(token, 1); }

    bool has_stray(std::uint32_t from, std::uint32_t to) const {
        for (auto i = from; i < to && i < matcher_.end; ++i)
            if (tree_.tokens[i].kind == TokenKind::stray) return true;
        return false;
    }

    void statement(std::uint32_t begin, std::uint32_t end) {
        Statement made;
        made.first = begin;
        made.count = end - begin;
        made.first_phrase = static_cast<std::uint32_t>(tree_.phrases.size());
        matcher_.end = end;
        const auto word = matcher_.text_of(begin);
        const int row = tree_.tokens[begin].kind == TokenKind::word ? vocabulary_.find_statement(word) : -1;
        if (row < 0) {
            made.broken = true;
            if (tree_.tokens[begin].kind != TokenKind::stray) complaints_.no_statement(begin);
            tree_.statements.push_back(made);
            return;
        }
        made.row = static_cast<std::int16_t>(row);
        const auto& kind = vocabulary_.statements[static_cast<std::size_t>(row)];
        made.first_head_arg = static_cast<std::uint32_t>(tree_.args.size());
        auto at = begin + 1;
        matcher_.begin(begin);
        matcher_.keywords = &Openings::of(kind.context);
        matcher_.labels_only = false;
        if (!matcher_.match(head_of(kind), at)) {
            made.broken = true;
            if (!has_stray(begin, matcher_.failed_at() + 1)) complaints_.head(kind, begin);
            tree_.statements.push_back(made);
            return;
        }
        name_after_comma(kind, made, at);
        const bool setup = matcher_.items_follow;
        made.head_args = static_cast<std::uint32_t>(tree_.args.size()) - made.first_head_arg;
        if (made.head_args > 0) {
            const Arg& label = tree_.args[made.first_head_arg];
            if (label.atom == Atom::label && vocabulary_.is_taken_label(matcher_.text_of(label.first)))
                complaints_.taken_label(label.first);
        }
        seen_.reset();
        if (setup) items(kind, at, made.broken);
        while (at < end) {
            if (tree_.tokens[at].kind == TokenKind::comma)
                ++at;
            else
                phrase(kind, kind.context, at, made.broken);
        }
        made.phrase_count = static_cast<std::uint32_t>(tree_.phrases.size()) - made.first_phrase;
        tree_.statements.push_back(made);
    }

    // `fuse F14, "Fan"` is what it is without its comma.
    void name_after_comma(const StatementRow& kind, const Statement& made, std::uint32_t& at) {
        const auto named = tree_.args.size() != made.first_head_arg + 1;
        if (named || at + 1 >= matcher_.end || tree_.tokens[at].kind != TokenKind::comma || head_of(kind).back().kind != NodeKind::optional)
            return;
        auto behind = at + 1;
        if (matcher_.match(head_of(kind).back().branches.front(), behind)) at = behind;
    }

    // Reads the phrase at `at`: the row that takes most tokens. `at` then stands behind it, or where reading can go on.
    void phrase(const StatementRow& kind, Context context, std::uint32_t& at, bool& broken) {
        const auto& openings = Openings::of(context);
        const auto& token = tree_.tokens[at];
        matcher_.begin(at);
        matcher_.keywords = &openings;
        matcher_.labels_only = context == Context::item;
        if (context != Context::item && is_statement_with_name(at)) {
            broken = true;
            complaints_.indented(at);
            skip_line(at);
            return;
        }
        Best best;
        furthest_ = nullptr;
        const auto* worded =
            token.kind == TokenKind::word || token.kind == TokenKind::name ? openings.by_word(matcher_.text_of(at)) : nullptr;
        if (worded != nullptr) try_rows(*worded, at, best);
        const PhraseRow* unfinished = worded != nullptr ? furthest_ : nullptr;
        if (best.row < 0) try_rows(openings.by_kind(token.kind), at, best);
        if (best.row >= 0 && leaves_a_rest(openings, best.end)) {
            tree_.args.resize(best.first_arg);
            best = {}, unfinished = furthest_;
        }
        if (best.row < 0) {
            if (unfinished == nullptr && matcher_.failed_at() > at) unfinished = furthest_;
            broken = true;
            if (!has_stray(at, std::max(at, matcher_.failed_at()) + 1)) complaints_.phrase(kind, context, at, unfinished);
            at = std::max(at + 1, unfinished != nullptr ? matcher_.failed_at() : at + 1);
            while (at < matcher_.end && !tree_.tokens[at].first_on_line && tree_.tokens[at].kind != TokenKind::comma)
                ++at;
            return;
        }
        const auto row = static_cast<std::size_t>(best.row);
        const auto begin = at;
        Phrase made;
        made.row = static_cast<std::uint16_t>(best.row);
        made.is_item = context == Context::item;
        made.first_arg = best.first_arg;
        made.arg_count = static_cast<std::uint32_t>(tree_.args.size()) - best.first_arg;
        tree_.phrases.push_back(made);
        at = best.end;
        if (!made.is_item) {
            if (!vocabulary_.phrases[row].repeats && seen_[row])
                complaints_.repeated(vocabulary_.phrases[row], tree_.span(seen_at_[row], 1), tree_.span(made));
            seen_.set(row);
            seen_at_[row] = begin;
            if (best.items) items(kind, at, broken);
        }
    }

    // A whole statement that was indented by mistake: its word, a name, words in quotes.
    bool is_statement_with_name(std::uint32_t at) const {
        return tree_.tokens[at].first_on_line && at + 2 < matcher_.end && tree_.tokens[at + 1].kind == TokenKind::name &&
               tree_.tokens[at + 2].kind == TokenKind::text && tree_.tokens[at].kind == TokenKind::word &&
               vocabulary_.find_statement(matcher_.text_of(at)) >= 0;
    }
    void skip_line(std::uint32_t& at) const {
        do
            ++at;
        while (at < matcher_.end && !tree_.tokens[at].first_on_line);
    }

    // The phrase might have gone on, got stuck, and what stands behind its end begins nothing.
    bool leaves_a_rest(const Openings& openings, std::uint32_t at) const {
        if (at >= matcher_.end || matcher_.failed_at() <= at || tree_.tokens[at].first_on_line) return false;
        const auto kind = tree_.tokens[at].kind;
        if (kind == TokenKind::comma) return false;
        const bool worded = kind == TokenKind::word || kind == TokenKind::name;
        if (worded && openings.by_word(matcher_.text_of(at)) != nullptr) return false;
        return kind == TokenKind::word || openings.by_kind(kind).empty();
    }

    struct Best {
        int row = -1;
        std::uint32_t end = 0, first_arg = 0;
        bool items = false;
    };
    const PhraseRow* furthest_ = nullptr; // the row whose failure is remembered by the matcher

    void try_rows(const std::vector<std::uint16_t>& rows, std::uint32_t at, Best& best) {
        for (const auto row : rows) {
            auto end = at;
            const auto first_arg = static_cast<std::uint32_t>(tree_.args.size());
            const auto failed = matcher_.failed_at();
            const auto& candidate = vocabulary_.phrases[row];
            const bool matched = matcher_.match(pattern_of(candidate), end);
            if (matcher_.failed_at() > failed || (!matched && furthest_ == nullptr)) furthest_ = &candidate;
            if (!matched) continue;
            if (best.row < 0 || end > best.end) {
                if (best.row >= 0) tree_.args.erase(tree_.args.begin() + best.first_arg, tree_.args.begin() + first_arg);
                const auto kept = best.row < 0 ? first_arg : best.first_arg;
                best = {row, end, kept, matcher_.items_follow};
            } else {
                tree_.args.resize(first_arg);
            }
        }
    }

    // A set-up: items to the end of the line, and on over a line that ends in a comma or goes on with what can only be
    // an item.
    void items(const StatementRow& kind, std::uint32_t& at, bool& broken) {
        const auto& words = Openings::of(Context::item);
        const auto& outer = Openings::of(kind.context);
        const auto before = tree_.tokens[at - 1].kind;
        bool first = true, comma = before == TokenKind::comma || before == TokenKind::colon;
        for (;; first = false) {
            while (at < matcher_.end && tree_.tokens[at].kind == TokenKind::comma)
                ++at, comma = true;
            if (at >= matcher_.end) break;
            const Token& token = tree_.tokens[at];
            if (token.first_on_line && !comma) {
                const auto word = matcher_.text_of(at);
                const bool begins_item = token.kind == TokenKind::name || token.kind == TokenKind::ref ||
                                         (token.kind == TokenKind::word && words.by_word(word) != nullptr);
                if (!begins_item || outer.by_word(word) != nullptr) break;
            }
            comma = false;
            phrase(kind, Context::item, at, broken);
        }
        if (first) {
            broken = true;
            findings_.add(finding::phrase_not_finished, {tree_.file, tree_.tokens[at - 1].end(), tree_.tokens[at - 1].end()},
                          fmt::format("after `{}` comes a set-up such as `key on, X21 unplugged`", matcher_.text_of(at - 1)));
        }
    }
};
} // namespace

Tree parse(const Sources& sources, std::uint32_t file, Findings& findings, const Vocabulary& vocabulary) {
    if (!good_bytes(sources[file], file, findings)) return empty_tree(file);
    return Parser(sources[file], file, findings, vocabulary).parse();
}

Tree parse_fault(const Sources& sources, std::uint32_t file, Findings& findings) {
    if (!good_bytes(sources[file], file, findings)) return empty_tree(file);
    return Parser(sources[file], file, findings, plan_vocabulary()).parse_fault();
}

std::string outline(const Sources& sources, const Tree& tree) {
    const auto words = [&](std::uint32_t first, std::uint32_t count) {
        std::string all;
        for (auto i = first; i < first + count; ++i) {
            all += ' ';
            all += sources.text(tree.span(i, 1));
        }
        return all;
    };
    std::string made;
    for (const Statement& statement : tree.statements) {
        made += statement.row < 0 ? "?" : std::string(statements()[static_cast<std::size_t>(statement.row)].word);
        for (auto i = statement.first_head_arg; i < statement.first_head_arg + statement.head_args; ++i)
            made += " |" + words(tree.args[i].first, tree.args[i].count);
        made += '\n';
        for (auto i = statement.first_phrase; i < statement.first_phrase + statement.phrase_count; ++i) {
            const Phrase& phrase = tree.phrases[i];
            made += phrase.is_item ? "    " : "  ";
            made += phrases()[phrase.row].pattern.substr(0, 24);
            for (auto j = phrase.first_arg; j < phrase.first_arg + phrase.arg_count; ++j)
                made += " |" + words(tree.args[j].first, tree.args[j].count);
            made += '\n';
        }
    }
    return made;
}

} // namespace loomsheet
