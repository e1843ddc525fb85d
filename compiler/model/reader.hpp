// Reads what was filled in for a phrase, in order.
#pragma once
#include "model/quantity.hpp"
#include "source/diagnostic.hpp"
#include "syntax/tree.hpp"
#include <string>
#include <string_view>

namespace loomsheet {

class Reader {
public:
    Reader(const Sources& sources, const Tree& tree, std::uint32_t first_arg, std::uint32_t count)
        : sources_(&sources), tree_(&tree), at_(first_arg), end_(first_arg + count) {}

    bool done() const { return at_ == end_; }
    bool is(Atom atom) const { return !done() && arg().atom == atom; }
    // True, and past it, when this fixed word comes next.
    bool word(std::string_view wanted);
    // The next fixed word, and past it; empty when something else comes.
    std::string_view any_word();
    void skip_words();
    // Past one colon or arrow, or past one given word.
    void skip_words_of(Atom atom, std::string_view wanted = {});
    // Goes past the next arg and gives its place.
    Span take();
    std::string_view take_text() { return sources_->text(take()); }
    // Words in quotes, without their quotes, lines joined by a blank.
    std::string text();
    double number();
    Quantity quantity(); // also what stands after ±, for a tolerance
    void range(Quantity& low, Quantity& high);
    Span rest() const; // from here to the end of the phrase
    const Sources& sources() const { return *sources_; }
    const Tree& tree() const { return *tree_; }
    const Arg& arg() const { return tree_->args[at_]; }

private:
    const Sources* sources_;
    const Tree* tree_;
    std::uint32_t at_, end_;
    std::string_view token_text(std::uint32_t token) const { return sources_->text(tree_->span(token, 1)); }
    Quantity plain(std::uint32_t number, std::uint32_t unit) const;
};

// The number of a token; the tokens of the language always hold one.
double to_number(std::string_view digits);

} // namespace loomsheet
