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

// What is printed for each word, in their order.
struct Wording {
    std::vector<std::string> texts;
};

// While it lives, what this thread prints is said in these words; before and after that in English.
class Speaking {
public:
    explicit Speaking(const Wording& wording);
    ~Speaking();
    Speaking(const Speaking&) = delete;
    Speaking& operator=(const Speaking&) = delete;

private:
    const Wording* before_;
};

// The text as it stands in the wording.
std::string_view text_of(Word word);

// With its places filled, in order.
template <class... Parts>
std::string say(Word word, const Parts&... parts) {
    return fmt::format(fmt::runtime(text_of(word)), parts...);
}

// The word that stands so many rows behind another: for tables whose rows have words in their own order.
constexpr Word word_after(Word first, std::size_t rows) {
    return static_cast<Word>(static_cast<std::size_t>(first) + rows);
}

} // namespace loomsheet
