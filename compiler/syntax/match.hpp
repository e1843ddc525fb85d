// Matches the patterns of the vocabulary against tokens.
#pragma once
#include "grammar/vocabulary.hpp"
#include "syntax/tree.hpp"
#include <array>
#include <string_view>
#include <vector>

namespace loomsheet {

// Rows of the vocabulary that can begin with a given token, one set a context; made once.
class Openings {
public:
    static const Openings& of(Context context);
    // By the word itself, and by what kind of token stands there.
    const std::vector<std::uint16_t>* by_word(std::string_view word) const;
    const std::vector<std::uint16_t>& by_kind(TokenKind kind) const { return kinds_[static_cast<unsigned>(kind)]; }
    std::vector<std::string_view> words() const;

private:
    explicit Openings(Context context);
    void open(const PhrasePattern& pattern, std::size_t from, std::uint16_t row);
    std::vector<std::uint16_t>& rows_of(std::string_view word);
    struct Opening {
        std::string_view word;
        std::vector<std::uint16_t> rows;
    };
    std::vector<Opening> words_;             // sorted
    std::array<std::uint16_t, 257> first_{}; // of the words that begin with a byte, in words_
    std::array<std::vector<std::uint16_t>, 24> kinds_;
};

class Matcher {
public:
    Matcher(std::string_view text, Tree& tree) : text_(text), tree_(tree) {}

    std::uint32_t end = 0;              // tokens of the statement end here
    const Openings* keywords = nullptr; // words that a list of labels must not swallow
    bool labels_only = false;           // in a set-up no label is one of these words either

    std::string_view text_of(std::uint32_t token) const {
        const Token& t = tree_.tokens[token];
        return text_.substr(t.begin, t.length);
    }
    const Token& token(std::uint32_t index) const { return tree_.tokens[index]; }

    // Matches from token `at`; on success `at` stands behind it and the args are appended to the tree.
    bool match(const PhrasePattern& pattern, std::uint32_t& at);
    // True when the pattern ended in ITEMS, which the caller reads.
    bool items_follow = false;

    // A new phrase begins at `at`: forgets what has failed before.
    void begin(std::uint32_t at) { begin_ = at, failed_at_ = at, failed_.clear(); }
    // The furthest that any try has come since then: the token where it failed, and what might have stood there.
    std::uint32_t failed_at() const { return failed_at_; }
    const std::vector<const Node*>& failed() const { return failed_; }

    bool is_unit(std::uint32_t at) const; // a known unit on the same line as what stands before it

private:
    std::string_view text_;
    Tree& tree_;
    std::uint32_t begin_ = 0, failed_at_ = 0;
    std::vector<const Node*> failed_;

    void fail(const Node& node, std::uint32_t at) {
        if (at > failed_at_) failed_.clear(), failed_at_ = at;
        if (at == failed_at_) failed_.push_back(&node);
    }

    bool sequence(const PhrasePattern& pattern, std::size_t from, std::uint32_t& at);
    bool node(const Node& node, std::uint32_t& at);
    bool once(const Node& node, std::uint32_t& at, bool again);
    std::uint32_t atom(const Node& node, std::uint32_t at, bool again) const; // tokens taken, 0: none
    std::uint32_t quantity(std::uint32_t dimensions, std::uint32_t at) const;
    std::uint32_t plain_quantity(std::uint32_t dimensions, std::uint32_t at) const;
    bool is_pin(std::uint32_t at, bool listed = false) const; // listed: what stands behind it is no unit
    bool is_word(std::uint32_t at, std::string_view word) const;
    bool goes_on(std::uint32_t at, std::string_view word) const; // this word comes next on the same line
    bool line_goes_on(std::uint32_t at) const;
    TokenKind kind(std::uint32_t at) const { return at < end ? tree_.tokens[at].kind : TokenKind::stray; }
};

} // namespace loomsheet
