#include "syntax/parse.hpp"
#include "syntax/complain.hpp"
#include "syntax/match.hpp"
#include "syntax/scan.hpp"
#include <bitset>
#include <fmt/format.h>

namespace loomsheet {

namespace {
constexpr std::size_t longest_line = 20'000; // bytes; no sheet of paper has a use for more

// --- bytes ------------------------------------------------------------------------------------------------------------------
bool good_bytes(const SourceFile& source, std::uint32_t file, Findings& findings) {
    const auto text = source.text();
    if (text.size() >= 0xFFFFFFF0U) {
        findings.add(3, {file, 0, 0}, "the file is larger than 4 GB");
        return false;
    }
    if (const auto bad = first_bad_utf8(text); bad != std::string_view::npos) {
        const auto at = static_cast<std::uint32_t>(bad);
        findings.add(1, {file, at, at + 1}, fmt::format("byte {:02X} here is not UTF-8 text", static_cast<unsigned char>(text[bad])),
                     "save the file as UTF-8 in your editor");
        return false;
    }
    std::size_t line = 0;
    for (std::size_t i = 0; i <= text.size(); ++i) {
        if (i == text.size() || text[i] == '\n') {
            if (i - line > longest_line) {
                const auto at = static_cast<std::uint32_t>(line);
                findings.add(3, {file, at, at + 1}, fmt::format("this line has {} characters; {} are the most", i - line, longest_line),
                             "break the line; an indented line goes on with the statement above");
                return false;
            }
            line = i + 1;
        } else if (const auto c = static_cast<unsigned char>(text[i]); (c < 0x20 && c != '\t' && !(c == '\r' && i + 1 < text.size() && text[i + 1] == '\n')) || c == 0x7F) {
            const auto at = static_cast<std::uint32_t>(i);
            findings.add(2, {file, at, at + 1}, fmt::format("a control character (byte {:02X}) stands here", c), "take it out; the file may be cut off or not a text");
            return false;
        }
    }
    return true;
}

// --- statements -------------------------------------------------------------------------------------------------------------
class Parser {
public:
    Parser(const SourceFile& source, std::uint32_t file, Findings& findings)
        : source_(source), findings_(findings), matcher_(source.text(), tree_), complaints_(matcher_, file, findings) {
        tree_.file = file;
    }

    Tree parse() {
        scan(source_.text(), tree_);
        report_bad_tokens();
        tree_.phrases.reserve(tree_.tokens.size() / 2);
        tree_.args.reserve(tree_.tokens.size());
        const auto count = static_cast<std::uint32_t>(tree_.tokens.size());
        std::uint32_t at = 0;
        while (at < count && !tree_.tokens[at].at_margin) ++at;
        if (at > 0 && count > 0)
            findings_.add(106, span(0), "this line is indented, but no statement stands above it", "begin at the margin");
        while (at < count) {
            auto end = at + 1;
            while (end < count && !tree_.tokens[end].at_margin) ++end;
            statement(at, end);
            at = end;
        }
        return std::move(tree_);
    }

private:
    const SourceFile& source_;
    Findings& findings_;
    Tree tree_;
    Matcher matcher_;
    Complaints complaints_;
    std::bitset<256> seen_;
    std::array<std::uint32_t, 256> seen_at_{};

    Span span(std::uint32_t token) const { return tree_.span(token, 1); }

    // What the scanner could not place. Texts without their end and decimal commas are then read as what they were meant to be.
    void report_bad_tokens() {
        for (std::uint32_t i = 0; i < tree_.tokens.size(); ++i) {
            Token& token = tree_.tokens[i];
            if (token.kind < TokenKind::open_text) continue;
            const auto written = matcher_.text_of(i);
            if (token.kind == TokenKind::open_text) {
                findings_.add(104, span(i), "these words have no closing quote on their line", "end them with \"; a long text goes on as a quoted text in the next line");
                token.kind = TokenKind::text;
            } else if (token.kind == TokenKind::decimal_comma) {
                std::string point(written);
                point[point.find(',')] = '.';
                findings_.add(111, span(i), fmt::format("`{}` has a decimal comma", written), fmt::format("write `{}`", point));
                token.kind = TokenKind::number;
            } else if (token.kind == TokenKind::dot_letters) {
                findings_.add(105, span(i), fmt::format("`{}` is neither a number nor a pin", written), "a number is written 12.6 V, a pin X21.1");
                token.kind = TokenKind::stray;
            } else if (i == 0 || tree_.tokens[i - 1].kind != TokenKind::stray || tree_.tokens[i - 1].end != token.begin) {
                findings_.add(105, span(i), fmt::format("`{}` has no place in the language", printable(i)), "words that are printed stand in \"quotes\"");
            }
        }
    }
    std::string printable(std::uint32_t token) const { // the whole character of a stray byte
        auto end = tree_.tokens[token].end;
        const auto text = source_.text();
        while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) ++end;
        return std::string(text.substr(tree_.tokens[token].begin, end - tree_.tokens[token].begin));
    }
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
        const int row = tree_.tokens[begin].kind == TokenKind::word ? statement_row(word) : -1;
        if (row < 0) {
            made.broken = true;
            if (tree_.tokens[begin].kind != TokenKind::stray) complaints_.no_statement(begin);
            tree_.statements.push_back(made);
            return;
        }
        made.row = static_cast<std::int16_t>(row);
        const auto& kind = statements()[static_cast<std::size_t>(row)];
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
        const bool setup = matcher_.items_follow;
        made.head_args = static_cast<std::uint32_t>(tree_.args.size()) - made.first_head_arg;
        if (made.head_args > 0) {
            const Arg& label = tree_.args[made.first_head_arg];
            if (label.atom == Atom::label && is_taken_label(matcher_.text_of(label.first))) complaints_.taken_label(label.first);
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

    static int statement_row(std::string_view word) {
        static const auto rows = [] {
            std::unordered_map<std::string_view, int> made;
            for (std::size_t i = 0; i < statements().size(); ++i) made[statements()[i].word] = static_cast<int>(i);
            return made;
        }();
        const auto found = rows.find(word);
        return found == rows.end() ? -1 : found->second;
    }

    // Reads the phrase at `at`: the row that takes most tokens. `at` then stands behind it, or where reading can go on.
    void phrase(const StatementRow& kind, Context context, std::uint32_t& at, bool& broken) {
        const auto& openings = Openings::of(context);
        const auto& token = tree_.tokens[at];
        matcher_.begin(at);
        matcher_.keywords = &openings;
        matcher_.labels_only = context == Context::item;
        Best best;
        furthest_ = nullptr;
        const auto* worded = token.kind == TokenKind::word || token.kind == TokenKind::name ? openings.by_word(matcher_.text_of(at)) : nullptr;
        if (worded != nullptr) try_rows(*worded, at, best);
        const PhraseRow* unfinished = worded != nullptr ? furthest_ : nullptr;
        if (best.row < 0) try_rows(openings.by_kind(token.kind), at, best);
        if (best.row < 0) {
            if (unfinished == nullptr && matcher_.failed_at() > at) unfinished = furthest_;
            broken = true;
            if (!has_stray(at, std::max(at, matcher_.failed_at()) + 1)) complaints_.phrase(kind, context, at, unfinished);
            at = std::max(at + 1, unfinished != nullptr ? matcher_.failed_at() : at + 1);
            while (at < matcher_.end && !tree_.tokens[at].first_on_line && tree_.tokens[at].kind != TokenKind::comma) ++at;
            return;
        }
        const auto row = static_cast<std::size_t>(best.row);
        const auto begin = at;
        Phrase made;
        made.row = static_cast<std::uint16_t>(best.row);
        made.is_item = context == Context::item;
        made.first = begin;
        made.count = best.end - begin;
        made.first_arg = best.first_arg;
        made.arg_count = static_cast<std::uint32_t>(tree_.args.size()) - best.first_arg;
        tree_.phrases.push_back(made);
        at = best.end;
        if (!made.is_item) {
            if (!phrases()[row].repeats && seen_[row]) complaints_.repeated(phrases()[row], tree_.span(seen_at_[row], 1), tree_.span(begin, made.count));
            seen_.set(row);
            seen_at_[row] = begin;
            if (best.items) items(kind, at, broken);
        }
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
            const auto& candidate = phrases()[row];
            const bool matched = matcher_.match(pattern_of(candidate), end);
            if (!matched && (furthest_ == nullptr || matcher_.failed_at() > failed)) furthest_ = &candidate;
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

    // A set-up: items to the end of the line, and on over a line that ends in a comma or goes on with what can only be an item.
    void items(const StatementRow& kind, std::uint32_t& at, bool& broken) {
        const auto& words = Openings::of(Context::item);
        const auto& outer = Openings::of(kind.context);
        bool first = true, comma = true;
        for (;; first = false) {
            while (at < matcher_.end && tree_.tokens[at].kind == TokenKind::comma) ++at, comma = true;
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
            findings_.add(103, {tree_.file, tree_.tokens[at - 1].end, tree_.tokens[at - 1].end}, "here comes a set-up such as `key on, X21 unplugged`");
        }
    }
};
} // namespace

Tree parse(const Sources& sources, std::uint32_t file, Findings& findings) {
    if (!good_bytes(sources[file], file, findings)) {
        Tree empty;
        empty.file = file;
        return empty;
    }
    return Parser(sources[file], file, findings).parse();
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
