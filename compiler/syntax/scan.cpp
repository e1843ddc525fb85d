#include "syntax/scan.hpp"
#include "grammar/tokens.hpp"

namespace loomsheet {

namespace {
namespace t = tokens;

struct Scanner {
    Tree& tree;
    const char* begin;
    TokenKind kind = TokenKind::name; // set by a tail, used by the token it ends
    bool new_line = false;
    bool line_has_items = false;

    std::uint32_t offset(const char* at) const { return static_cast<std::uint32_t>(at - begin); }
    void add(TokenKind made, const char* from, const char* to) {
        Token token;
        token.begin = offset(from);
        token.length = static_cast<std::uint16_t>(to - from);
        token.kind = made;
        token.first_on_line = new_line;
        token.at_margin = new_line && (from == begin || from[-1] == '\n' || token.begin == skipped);
        new_line = false;
        line_has_items = true;
        tree.tokens.push_back(token);
    }
    std::uint32_t skipped = 0; // bytes of a byte order mark
};

template <class Rule>
struct action {};

// A token whose kind is known from its rule alone.
template <TokenKind Kind>
struct is {
    template <class Input>
    static void apply(const Input& in, Scanner& scanner) {
        scanner.add(Kind, in.begin(), in.end());
    }
};
template <>
struct action<t::text> : is<TokenKind::text> {};
template <>
struct action<t::open_text> : is<TokenKind::open_text> {};
template <>
struct action<t::arrow> : is<TokenKind::arrow> {};
template <>
struct action<t::range> : is<TokenKind::range> {};
template <>
struct action<t::plus_minus> : is<TokenKind::plus_minus> {};
template <>
struct action<t::colon> : is<TokenKind::colon> {};
template <>
struct action<t::equals> : is<TokenKind::equals> {};
template <>
struct action<t::comma> : is<TokenKind::comma> {};
template <>
struct action<t::lone_sign> : is<TokenKind::sign> {};
template <>
struct action<t::signed_number> : is<TokenKind::number> {};
template <>
struct action<t::stray> : is<TokenKind::stray> {};

// A tail tells what the token before it has become; where none follows, the token is `Plain`.
template <TokenKind Kind>
struct tail {
    static void apply0(Scanner& scanner) { scanner.kind = Kind; }
};
template <>
struct action<t::after_dot> : tail<TokenKind::ref> {};
template <>
struct action<t::pins_tail> : tail<TokenKind::pins> {};
template <>
struct action<t::date_tail> : tail<TokenKind::date> {};
template <>
struct action<t::fraction> : tail<TokenKind::number> {};
template <>
struct action<t::decimal_comma> : tail<TokenKind::decimal_comma> {};
template <>
struct action<t::dot_letters> : tail<TokenKind::dot_letters> {};
template <>
struct action<t::words_tail> : tail<TokenKind::word_pair> {};
template <>
struct action<t::pin_letters> {
    static void apply0(Scanner& scanner) {
        if (scanner.kind != TokenKind::pins) scanner.kind = TokenKind::pin;
    }
};

constexpr auto no_tail = TokenKind::stray;
template <TokenKind Plain>
struct ends {
    template <class Input>
    static void apply(const Input& in, Scanner& scanner) {
        scanner.add(scanner.kind == no_tail ? Plain : scanner.kind, in.begin(), in.end());
        scanner.kind = no_tail;
    }
};
template <>
struct action<t::named> : ends<TokenKind::name> {};
template <>
struct action<t::digits> : ends<TokenKind::number> {};
template <>
struct action<t::word> : ends<TokenKind::word> {};

template <>
struct action<t::comment> {
    template <class Input>
    static void apply(const Input& in, Scanner& scanner) {
        scanner.tree.trivia.push_back({scanner.offset(in.begin()), scanner.offset(in.end()), TriviaKind::comment});
    }
};
template <>
struct action<t::empty_line> {
    template <class Input>
    static void apply(const Input& in, Scanner& scanner) {
        scanner.tree.trivia.push_back({scanner.offset(in.begin()), scanner.offset(in.end()), TriviaKind::blank_line});
    }
};
template <>
struct action<t::margin> {
    static void apply0(Scanner& scanner) { scanner.new_line = true; }
};
} // namespace

void scan(std::string_view text, Tree& tree) {
    Scanner scanner{tree, text.data()};
    scanner.kind = no_tail;
    if (text.starts_with("\xEF\xBB\xBF")) scanner.skipped = 3;
    tree.tokens.reserve(text.size() / 5);
    tao::pegtl::memory_input<tao::pegtl::tracking_mode::lazy> input(text.data() + scanner.skipped, text.data() + text.size(), "");
    tao::pegtl::parse<t::file, action>(input, scanner);
}

} // namespace loomsheet
