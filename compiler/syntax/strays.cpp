#include "syntax/strays.hpp"
#include "grammar/units.hpp"
#include <fmt/format.h>

namespace loomsheet {

namespace {
struct LookAlike {
    std::string_view written, help;
};
constexpr std::string_view straight = "write straight quotes: \"", minus = "write the minus of the keyboard, `-`",
                           arrow = "write the arrow as `->`";
constexpr LookAlike look_alikes[] = {
    {"“", straight}, {"”", straight}, {"„", straight}, {"«", straight}, {"»", straight}, {"‘", straight}, {"’", straight},
    {"'", straight}, {"−", minus},    {"–", minus},    {"—", minus},    {"→", arrow},    {">", arrow},    {"⇒", arrow},
};

std::string help_for(std::string_view written) {
    for (const auto& row : look_alikes)
        if (row.written == written) return std::string(row.help);
    return "words that are printed stand in \"quotes\"";
}

// 12.6V: a number that runs into its unit.
const Unit* unit_behind(std::string_view number, std::size_t letters) {
    return letters == std::string_view::npos ? nullptr : find_unit(number.substr(letters));
}

// 11.5-12.8 where a range is meant: as it is to be written, or nothing.
std::string range_meant(std::string_view written) {
    const auto dash = written.find('-');
    const auto is_number = [](std::string_view part) {
        return !part.empty() && part.find_first_not_of("0123456789.") == std::string_view::npos;
    };
    if (dash == std::string_view::npos || !is_number(written.substr(0, dash)) || !is_number(written.substr(dash + 1))) return {};
    return fmt::format("{} .. {}", written.substr(0, dash), written.substr(dash + 1));
}
} // namespace

void report_strays(std::string_view text, Tree& tree, Findings& findings) {
    bool told_on_line = false;
    for (Token& token : tree.tokens) {
        if (token.first_on_line) told_on_line = false;
        if (token.kind < TokenKind::open_text) continue;
        const Span at{tree.file, token.begin, token.end()};
        const auto written = text.substr(token.begin, token.length);
        switch (token.kind) {
        case TokenKind::open_text:
            findings.add(finding::quote_not_closed, at, "these words have no closing quote on their line",
                         "end them with \"; a long text goes on as a quoted text in the next line");
            token.kind = TokenKind::text;
            break;
        case TokenKind::decimal_comma: {
            std::string point(written);
            point[point.find(',')] = '.';
            findings.add(finding::decimal_comma, at, fmt::format("`{}` has a decimal comma", written),
                         fmt::format("write `{}`; for two pins put a blank after the comma", point));
            token.kind = TokenKind::number;
            break;
        }
        case TokenKind::dot_letters: {
            const auto letters = written.find_first_not_of("0123456789.");
            if (unit_behind(written, letters) != nullptr)
                findings.add(finding::number_without_unit, at, fmt::format("`{}` has no blank before its unit", written),
                             fmt::format("write `{} {}`", written.substr(0, letters), written.substr(letters)));
            else if (const auto range = range_meant(written); !range.empty())
                findings.add(finding::phrase_not_finished, at, "a range is written with two dots", fmt::format("write `{}`", range));
            else
                findings.add(finding::misplaced_character, at, fmt::format("`{}` is neither a number nor a pin", written),
                             "a number is written 12.6 V, a range 11.5 .. 12.8 V, a pin X21.1");
            token.kind = TokenKind::stray;
            break;
        }
        default:
            if (!told_on_line)
                findings.add(finding::misplaced_character, at, fmt::format("`{}` has no place in the language", written),
                             help_for(written));
            told_on_line = true;
        }
    }
}

} // namespace loomsheet
