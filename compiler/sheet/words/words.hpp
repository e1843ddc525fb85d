// Every word that a sheet prints, by number; what it says is in a wording: a file in templates/ or a shop's own. Texts
// may have places for names and figures: "page {} of {}".
#pragma once
#include <cstddef>
#include <cstdint>
#include <fmt/format.h>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace loomsheet {

enum class Word : std::uint16_t {
#define WORD(name, places) name,
#include "sheet/words/word_list.inc"
#undef WORD
};

struct WordRow {
    std::string_view name; // as a file of words calls it
    int places;            // that its text has
};
std::span<const WordRow> word_rows(); // in the order of Word

// What is printed for each word, in their order. Whatever prints words is handed one, by the name of `say`.
struct Wording {
    std::vector<std::string> texts;

    // The text as it stands.
    std::string_view text(Word word) const { return texts[static_cast<std::size_t>(word)]; }
    // With its places filled, in order.
    template <class... Parts>
    std::string operator()(Word word, const Parts&... parts) const {
        return fmt::format(fmt::runtime(text(word)), parts...);
    }
};

// The word a number of rows behind another: for tables whose rows have words in their own order.
constexpr Word word_after(Word first, std::size_t rows) { return static_cast<Word>(static_cast<std::size_t>(first) + rows); }

} // namespace loomsheet
