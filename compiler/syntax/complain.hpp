// The messages of form: what was not understood, and what to write instead.
#pragma once
#include "source/diagnostic.hpp"
#include "syntax/match.hpp"

namespace loomsheet {

class Complaints {
public:
    Complaints(const Matcher& matcher, const Vocabulary& vocabulary, std::uint32_t file, Findings& findings)
        : matcher_(matcher), vocabulary_(vocabulary), file_(file), findings_(findings) {}

    // A line at the margin whose first word is no statement.
    void no_statement(std::uint32_t token);
    // The head of a statement is not finished; `failed` is where and on what.
    void head(const StatementRow& row, std::uint32_t statement);
    // No phrase begins here (`row` is null), or the phrase of `row` is not finished.
    void phrase(const StatementRow& statement, Context context, std::uint32_t begin, const PhraseRow* row);
    // A whole statement that was indented by mistake.
    void indented(std::uint32_t token);
    void repeated(const PhraseRow& row, Span first, Span second);
    void taken_label(std::uint32_t token);

private:
    const Matcher& matcher_;
    const Vocabulary& vocabulary_;
    std::uint32_t file_;
    Findings& findings_;

    Span at(std::uint32_t token) const { return {file_, matcher_.token(token).begin, matcher_.token(token).end()}; }
    Span after(std::uint32_t token) const { return {file_, matcher_.token(token).end(), matcher_.token(token).end()}; }
    bool is_statement(std::string_view word) const { return vocabulary_.find_statement(word) >= 0; }
    std::string typed_so_far(std::uint32_t begin, std::uint32_t failed) const;
    bool is_word(std::uint32_t token) const;
    bool range(std::uint32_t token);
    bool number(std::uint32_t token, std::uint32_t dimensions, const std::string& wanted, std::string_view example);
};

// "did you mean `fuse`?" or nothing
std::string meant(std::string_view typed, std::span<const std::string_view> candidates);

} // namespace loomsheet
