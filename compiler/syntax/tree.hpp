// The tree of one file: statements and phrases over flat vectors of tokens. Comments and blank lines are kept beside them, in
// the order of the text, so that a formatter can print all of it back.
#pragma once
#include "grammar/vocabulary.hpp"
#include "source/text.hpp"
#include <cstdint>
#include <vector>

namespace loomsheet {

enum class TokenKind : std::uint8_t {
    name,      // F14, RD, V, P0480, B+
    ref,       // K5.30, K5.30/87, G1.+
    pins,      // 30/87, 1/2, BU/WH, 31/A
    word,      // volts, plug-feed, mm2, °C, %
    word_pair, // blue/white, BU/wh
    number,    // 12.6, -40
    pin,       // 87a
    date,      // 2026-11-24
    sign,      // + or - alone
    text,      // "in quotes", quotes included in the place
    arrow,
    range,
    plus_minus,
    colon,
    equals,
    comma,
    // what has no place in the language, kept so that the message stands where it is
    open_text,
    decimal_comma,
    dot_letters,
    stray,
};

// Small on purpose, as are Arg and Phrase: what a large text costs is the memory it touches.
struct Token {
    std::uint32_t begin = 0;  // bytes
    std::uint16_t length = 0; // no line has more than 20 000 bytes
    TokenKind kind = TokenKind::stray;
    bool first_on_line : 1 = false;
    bool at_margin : 1 = false; // first on its line and not indented
    std::uint32_t end() const { return begin + length; }
};

enum class TriviaKind : std::uint8_t { comment, blank_line };
struct Trivia {
    std::uint32_t begin = 0, end = 0;
    TriviaKind kind = TriviaKind::comment;
};

// What was filled in for one atom of a pattern, or one fixed word of it.
struct Arg {
    std::uint32_t first = 0; // tokens
    std::uint16_t count = 0;
    Atom atom = Atom::word;
};

struct Phrase {
    std::uint32_t first_arg = 0, arg_count = 0; // in Tree::args, one at least
    std::uint16_t row = 0;                      // in phrases()
    bool is_item = false;                       // a set-up item: belongs to the `with` (or the `setup`) above it
};

struct Statement {
    std::int16_t row = -1;              // in statements(); -1: the word is none
    bool broken = false;                // something in it was not understood
    std::uint32_t first = 0, count = 0; // tokens; the first is the statement's word
    std::uint32_t first_head_arg = 0, head_args = 0;
    std::uint32_t first_phrase = 0, phrase_count = 0;
};

struct Tree {
    std::uint32_t file = 0;
    std::vector<Token> tokens; // commas included
    std::vector<Trivia> trivia;
    std::vector<Statement> statements;
    std::vector<Phrase> phrases;
    std::vector<Arg> args;

    Span span(std::uint32_t first, std::uint32_t count) const {
        return {file, tokens[first].begin, tokens[first + (count == 0 ? 0 : count - 1)].end()};
    }
    Span span(const Phrase& phrase) const {
        const Arg& last = args[phrase.first_arg + phrase.arg_count - 1];
        const auto first = args[phrase.first_arg].first;
        return span(first, last.first + last.count - first);
    }
};

} // namespace loomsheet
