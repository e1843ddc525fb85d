// Reads words: a language that ships, a shop's own file, single words of a template.
#pragma once
#include "sheet/words/words.hpp"
#include "source/diagnostic.hpp"
#include "source/disk.hpp"
#include "syntax/tree.hpp"
#include <optional>

namespace loomsheet {

// That ships.
const Wording& english();

// Where a language is asked for: a name that ships, or the path of a file.
struct LanguageName {
    std::string name;
    bool is_file = false;
    Span at; // of a file that has no text, where it was asked for on the command line
};

class WordingReader {
public:
    WordingReader(Sources& sources, Disk& disk, Findings& findings);

    // Takes all words of a language; those said before are forgotten. LS004 when its file cannot be read.
    void language(const LanguageName& asked);
    // Takes a `word` statement. LS853 when the file said it before.
    void word(const Tree& tree, const Statement& statement);
    Wording wording() const;

private:
    Sources& sources_;
    Disk& disk_;
    Findings& findings_;
    struct Said {
        std::string text;
        Span at;
    };
    std::vector<std::optional<Said>> said_; // by Word

    void file(std::uint32_t file);
    void base(const Tree& tree, const Statement& statement);
    void missing(std::uint32_t file);
};

// The word of this name, or nothing.
std::optional<Word> find_word(std::string_view name);
// "did you mean `page_of`?", or nothing.
std::string meant_word(std::string_view typed);
// What is wrong with the places of a text, in words; empty when nothing is.
std::string wrong_places(std::string_view text, int places);

} // namespace loomsheet
