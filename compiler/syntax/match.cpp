#include "syntax/match.hpp"
#include "grammar/colours.hpp"
#include "grammar/units.hpp"
#include <algorithm>

namespace loomsheet {

namespace {
constexpr std::uint32_t longest_text = 60'000; // lines

// The kinds of token with which an atom can begin.
std::vector<TokenKind> first_kinds(Atom atom) {
    using K = TokenKind;
    switch (atom) {
    case Atom::text: return {K::text};
    case Atom::name: return {K::name};
    case Atom::ref: return {K::ref};
    case Atom::point: return {K::ref, K::name, K::word};
    case Atom::pin: return {K::number, K::pin, K::name, K::word, K::sign};
    case Atom::pins2:
    case Atom::pins3: return {K::pins};
    case Atom::label:
    case Atom::key: return {K::word};
    case Atom::position: return {K::word, K::number, K::pin, K::name};
    case Atom::colour: return {K::name, K::pins, K::word, K::word_pair};
    case Atom::number:
    case Atom::range:
    case Atom::quantity: return {K::number};
    case Atom::date: return {K::date};
    case Atom::map: return {K::number, K::pin, K::name, K::word, K::sign};
    case Atom::tolerance: return {K::plus_minus};
    case Atom::arrow: return {K::arrow};
    case Atom::colon: return {K::colon};
    case Atom::word:
    case Atom::items: break;
    }
    return {};
}

// A colour word, or one with a slip of the pen, which the model then finds.
bool is_near_colour(std::string_view written) {
    if (find_colour_word(written) != nullptr) return true;
    std::vector<std::string_view> words;
    for (const auto& row : colours())
        words.push_back(row.word);
    return !similar(written, words).empty();
}

bool has_commas(const Node& node) { return node.kind != NodeKind::item || node.atom == Atom::point || node.atom == Atom::key; }
} // namespace

// --- what a phrase may begin with
// ----------------------------------------------------------------------------------------
const Openings& Openings::of(Context context) {
    static const std::vector<Openings> all = [] {
        std::vector<Openings> made;
        for (unsigned i = 0; i < context_count; ++i)
            made.push_back(Openings(static_cast<Context>(i)));
        return made;
    }();
    return all[static_cast<unsigned>(context)];
}

Openings::Openings(Context context) {
    const auto rows = vocabulary_of(context).phrases;
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].where & in(context)) open(pattern_of(rows[i]), 0, static_cast<std::uint16_t>(i));
    std::sort(words_.begin(), words_.end(), [](const Opening& a, const Opening& b) { return a.word < b.word; });
    for (const Opening& opening : words_)
        ++first_[static_cast<unsigned char>(opening.word[0]) + 1U];
    for (std::size_t i = 1; i < first_.size(); ++i)
        first_[i] = static_cast<std::uint16_t>(first_[i] + first_[i - 1]);
}

std::vector<std::uint16_t>& Openings::rows_of(std::string_view word) {
    for (Opening& known : words_)
        if (known.word == word) return known.rows;
    return words_.emplace_back(Opening{word, {}}).rows;
}

void Openings::open(const PhrasePattern& pattern, std::size_t from, std::uint16_t row) {
    if (from >= pattern.size()) return;
    const Node& node = pattern[from];
    if (node.kind != NodeKind::item) {
        for (const auto& branch : node.branches)
            open(branch, 0, row);
        if (node.kind == NodeKind::optional) open(pattern, from + 1, row);
        return;
    }
    const auto add = [row](std::vector<std::uint16_t>& list) {
        if (list.empty() || list.back() != row) list.push_back(row);
    };
    if (node.atom == Atom::word) return add(rows_of(node.word));
    for (const TokenKind kind : first_kinds(node.atom))
        add(kinds_[static_cast<unsigned>(kind)]);
}

const std::vector<std::uint16_t>* Openings::by_word(std::string_view word) const {
    const auto letter = static_cast<unsigned char>(word[0]);
    for (std::size_t i = first_[letter]; i < first_[letter + 1U]; ++i)
        if (words_[i].word == word) return &words_[i].rows;
    return nullptr;
}

std::vector<std::string_view> Openings::words() const {
    std::vector<std::string_view> all;
    for (const Opening& opening : words_)
        all.push_back(opening.word);
    return all;
}

// --- matching
// ---------------------------------------------------------------------------------------------------------------
bool Matcher::match(const PhrasePattern& pattern, std::uint32_t& at) {
    items_follow = false;
    const auto args = tree_.args.size();
    auto cursor = at;
    if (!sequence(pattern, 0, cursor)) {
        tree_.args.resize(args);
        return false;
    }
    at = cursor;
    return true;
}

bool Matcher::sequence(const PhrasePattern& pattern, std::size_t from, std::uint32_t& at) {
    for (std::size_t i = from; i < pattern.size(); ++i) {
        if (pattern[i].atom == Atom::items) {
            items_follow = true;
            return true;
        }
        if (!node(pattern[i], at)) return false;
    }
    return true;
}

bool Matcher::node(const Node& node, std::uint32_t& at) {
    if (!once(node, at, false)) return node.may_be_missing || node.kind == NodeKind::optional;
    while (node.repeats) {
        auto next = at;
        if (has_commas(node))
            while (next < end && kind(next) == TokenKind::comma)
                ++next;
        if (!once(node, next, true)) break;
        at = next;
    }
    return true;
}

bool Matcher::once(const Node& node, std::uint32_t& at, bool again) {
    if (node.kind == NodeKind::item) {
        const bool broken = at > begin_ && at < end && token(at).first_on_line && !line_goes_on(at - 1);
        const auto taken = broken ? 0 : atom(node, at, again);
        if (taken == 0) {
            if (!again) fail(node, at);
            return false;
        }
        tree_.args.push_back({at, static_cast<std::uint16_t>(taken), node.atom});
        at += taken;
        return true;
    }
    for (const auto& branch : node.branches) {
        const auto args = tree_.args.size();
        auto cursor = at;
        if (sequence(branch, 0, cursor) && cursor > at) {
            at = cursor;
            return true;
        }
        tree_.args.resize(args);
    }
    return false;
}

// A line break ends a phrase, unless the line ends in what cannot end one: `,` `:` `and` `or`.
bool Matcher::line_goes_on(std::uint32_t last) const {
    const auto kind_of_last = kind(last);
    return kind_of_last == TokenKind::comma || kind_of_last == TokenKind::colon || is_word(last, "and") || is_word(last, "or");
}

bool Matcher::is_word(std::uint32_t at, std::string_view word) const {
    return at < end && (kind(at) == TokenKind::word || kind(at) == TokenKind::name) && text_of(at) == word;
}

bool Matcher::goes_on(std::uint32_t at, std::string_view word) const { return is_word(at + 1, word) && !token(at + 1).first_on_line; }

bool Matcher::is_unit(std::uint32_t at) const {
    return at < end && (kind(at) == TokenKind::word || kind(at) == TokenKind::name) && !token(at).first_on_line &&
           find_unit(text_of(at)) != nullptr;
}

bool Matcher::is_pin(std::uint32_t at, bool listed) const {
    switch (kind(at)) {
    case TokenKind::number:
        if ((is_unit(at + 1) && !listed) || goes_on(at, "pins") || goes_on(at, "x")) return false;
        [[fallthrough]];
    case TokenKind::pin:
    case TokenKind::name:
    case TokenKind::sign: return true;
    case TokenKind::word: return text_of(at).size() == 1;
    default: return false;
    }
}

std::uint32_t Matcher::plain_quantity(std::uint32_t dimensions, std::uint32_t at) const {
    if (kind(at) != TokenKind::number || at + 1 >= end || token(at + 1).first_on_line) return 0;
    const auto unit = kind(at + 1) == TokenKind::word || kind(at + 1) == TokenKind::name ? find_unit(text_of(at + 1)) : nullptr;
    return unit != nullptr && (dimensions & (1U << static_cast<unsigned>(unit->dimension))) != 0 ? 2 : 0;
}

std::uint32_t Matcher::quantity(std::uint32_t dimensions, std::uint32_t at) const {
    auto taken = plain_quantity(dimensions, at);
    if (taken != 0 && kind(at + taken) == TokenKind::plus_minus) {
        const auto tolerance = plain_quantity(~0U, at + taken + 1);
        if (tolerance != 0) taken += 1 + tolerance;
    }
    return taken;
}

std::uint32_t Matcher::atom(const Node& node, std::uint32_t at, bool again) const {
    if (at >= end) return 0;
    const Token& t = token(at);
    switch (node.atom) {
    case Atom::word: return is_word(at, node.word) ? 1 : 0;
    case Atom::text: {
        if (t.kind != TokenKind::text) return 0;
        std::uint32_t taken = 1;
        // A line that is only a text goes on with the one above.
        while (taken < longest_text && kind(at + taken) == TokenKind::text && token(at + taken).first_on_line &&
               (at + taken + 1 >= end || token(at + taken + 1).first_on_line))
            ++taken;
        return taken;
    }
    case Atom::name: return t.kind == TokenKind::name ? 1 : 0;
    case Atom::ref: return t.kind == TokenKind::ref ? 1 : 0;
    case Atom::point:
        if (t.kind == TokenKind::ref || t.kind == TokenKind::name || is_word(at, "ground")) return 1;
        if (is_word(at, "part") || is_word(at, "joint")) return kind(at + 1) == TokenKind::ref || kind(at + 1) == TokenKind::name ? 2 : 0;
        return 0;
    case Atom::pin:
        return is_pin(at, node.repeats) && !(again && goes_on(at, "on") && kind(at + 2) == TokenKind::name)
                   ? 1
                   : 0; // `31 on XE2` is another phrase
    case Atom::pins2:
    case Atom::pins3:
        return t.kind == TokenKind::pins &&
                       std::count(text_.begin() + t.begin, text_.begin() + t.end(), '/') == (node.atom == Atom::pins2 ? 1 : 2)
                   ? 1
                   : 0;
    case Atom::key: return t.kind == TokenKind::word ? 1 : 0;
    case Atom::label:
        if (t.kind != TokenKind::word) return 0;
        return (again || labels_only) && keywords->by_word(text_of(at)) != nullptr ? 0 : 1;
    case Atom::position:
        if (t.kind == TokenKind::number) return is_unit(at + 1) ? 0 : 1;
        return t.kind == TokenKind::word || t.kind == TokenKind::pin || t.kind == TokenKind::name ? 1 : 0;
    case Atom::colour: {
        const auto written = text_of(at);
        if (t.kind == TokenKind::pins || t.kind == TokenKind::word_pair) return 1;
        if (t.kind == TokenKind::word) return written.size() == 2 || is_near_colour(written) ? 1 : 0;
        return t.kind == TokenKind::name && written.size() > 1 &&
                       std::all_of(written.begin(), written.end(), [](char c) { return c >= 'A' && c <= 'Z'; })
                   ? 1
                   : 0;
    }
    case Atom::number: return t.kind == TokenKind::number ? 1 : 0;
    case Atom::date: return t.kind == TokenKind::date ? 1 : 0;
    case Atom::map: return is_pin(at) && kind(at + 1) == TokenKind::equals && is_pin(at + 2) ? 3 : 0;
    case Atom::tolerance: {
        const auto taken = t.kind == TokenKind::plus_minus ? plain_quantity(~0U, at + 1) : 0;
        return taken == 0 ? 0 : taken + 1;
    }
    case Atom::range: {
        if (t.kind != TokenKind::number) return 0;
        const std::uint32_t low = is_unit(at + 1) ? 2 : 1;
        if (kind(at + low) != TokenKind::range) return 0;
        const auto high = plain_quantity(~0U, at + low + 1);
        return high == 0 ? 0 : low + 1 + high;
    }
    case Atom::quantity: return quantity(node.dimensions, at);
    case Atom::arrow: return t.kind == TokenKind::arrow ? 1 : 0;
    case Atom::colon: return t.kind == TokenKind::colon ? 1 : 0;
    case Atom::items: break;
    }
    return 0;
}

} // namespace loomsheet
