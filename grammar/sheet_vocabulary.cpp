#include "grammar/vocabulary.hpp"

namespace loomsheet {

namespace {
constexpr auto MARGINS = in(Context::margins), SIZES = in(Context::sizes), FIELDS = in(Context::fields);

constexpr StatementRow sheet_statement_rows[] = {
    {"sheet", Context::line, Form::sheet, "KEY (TEXT|KEY)", "", "sheet bay \"Bay sheet\"",
     "its name, by which its files are named, and the title on every page: in quotes, or the name of a word"},
    {"language", Context::line, Form::language, "(TEXT|KEY)", "", "language german",
     "the words that are printed: a language that ships, or a file of words in quotes, its path as seen from here"},
    {"shop", Context::line, Form::shop, "TEXT", "", "shop \"Garage at the bridge\"", "the shop's name, over the title on page one"},
    {"paper", Context::line, Form::paper, "(A4|A5|Letter)", "", "paper A5", "what it is printed on"},
    {"margins", Context::margins, Form::margins, "", "", "margins left 18 mm, top 20 mm", "white at the edges"},
    {"type", Context::sizes, Form::sizes, "", "", "type probing 13.5 pt, captions 9 pt", "sizes of type"},
    {"blocks", Context::line, Form::blocks, "KEY+", "", "blocks head, checks, verdicts", "what is printed, in this order"},
    {"page", Context::line, Form::page, "shows KEY+", "", "page shows job, strip", "what every page has beside its head and foot"},
    {"check", Context::line, Form::card, "shows KEY+", "", "check shows setup, leads, dial, blanks, limits, outcomes",
     "what the card of a check has"},
    {"fields", Context::fields, Form::fields, "(head|sign-off|approval)", "", "fields head \"Bay\" 2, vehicle 7, date 3",
     "a row of fields to fill in; the statement repeats for further rows"},
    {"word", Context::line, Form::word, "KEY TEXT", "", "word jumps \"Stop and ask.\"", "what is printed for a word"},
};

constexpr PhraseRow sheet_phrase_rows[] = {
    {Form::margin, MARGINS, "(left|right|top|bottom) METRE", "", "left 18 mm", "one edge", true},
    {Form::size, SIZES, "(probing|text|captions) NUMBER pt", "", "probing 13 pt",
     "what is read while probing, supporting text, captions of fields", true},
    {Form::field, FIELDS, "(KEY|TEXT) NUMBER [TEXT]", "", "odometer 3 \"km\"",
     "its caption, how many of the twelve columns it takes, its unit", true},
};
} // namespace

const Vocabulary& sheet_vocabulary() {
    static constexpr Vocabulary sheets{sheet_statement_rows, sheet_phrase_rows, {}, "`sheet`, `blocks` or `word`"};
    return sheets;
}

} // namespace loomsheet
