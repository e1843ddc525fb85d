// Line breaking (UAX 14 by libunibreak) and what must stay on one line.
#include "grammar/units.hpp"
#include "page/face.hpp"
#include "page/face_utf8.hpp"
#include <cctype>
#include <linebreak.h>

namespace loomsheet {

namespace {

constexpr std::string_view line_ends = "\n\r\v\f", no_break_space = "\u00A0";

std::string_view without_trailing(std::string_view text, std::string_view characters) {
    return text.substr(0, text.find_last_not_of(characters) + 1);
}

std::vector<char> breaks_after(std::string_view utf8) {
    static const bool ready = (init_linebreak(), true);
    std::vector<char> breaks(ready ? utf8.size() : 0);
    // libunibreak takes U+FFFF for the end of the text and aborts; U+FFFD, of the same length in bytes, stands in for
    // it.
    std::string readable(utf8);
    for (std::size_t at = 0; (at = readable.find("\uFFFF", at)) != std::string::npos;)
        readable.replace(at, 3, "\uFFFD");
    set_linebreaks_utf8(reinterpret_cast<const utf8_t*>(readable.data()), readable.size(), "en", breaks.data());
    return breaks;
}

bool is_letter_or_figure(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; }

// Whether the text up to here ends in a number of its own: "12.6" and "(6", but not "X21.1".
bool ends_in_number(std::string_view before) {
    const std::size_t last = before.find_last_not_of("0123456789.,");
    const std::string_view figures = before.substr(last == std::string_view::npos ? 0 : last + 1);
    if (figures.empty() || !is_letter_or_figure(figures.back())) return false;
    return last == std::string_view::npos || !is_letter_or_figure(before[last]);
}

bool starts_with_unit(std::string_view after) {
    for (const Unit& unit : units()) {
        for (const std::string_view name : {unit.printed, unit.written}) {
            if (!name.empty() && after.starts_with(name) && (after.size() == name.size() || !is_letter_or_figure(after[name.size()]))) {
                return true;
            }
        }
    }
    return false;
}

} // namespace

std::vector<std::string> Faces::wrap(page::Face face, double pt, double width, std::string_view utf8) const {
    constexpr std::size_t none = std::string_view::npos;
    constexpr double slack = 1e-6; // mm: a text set in its own measured width stays on one line
    if (utf8.find_first_of(line_ends) == none && runs_width(face, pt, utf8) <= width + slack) {
        return {std::string(without_trailing(utf8, " \t"))}; // most texts
    }
    const std::vector<char> breaks = breaks_after(utf8);
    std::vector<std::string> lines;
    std::size_t start = 0, best = none; // where the line starts; where the last chance to break it lies
    double used = 0, used_at_best = 0;
    const auto end_line = [&](std::size_t end) {
        lines.emplace_back(without_trailing(utf8.substr(start, end - start), " \t"));
        start = end;
        best = none;
    };
    std::string_view rest = utf8;
    while (!rest.empty()) {
        const std::size_t at = utf8.size() - rest.size();
        std::string_view after = rest;
        const char32_t character = take_character(after);
        const std::size_t next = utf8.size() - after.size();
        const double wide = advance(face, character) * pt * mm_per_pt;
        const bool blank = character == U' ' || character == U'\t'; // hangs over the margin, as it is not printed there
        if (!blank && used + wide > width + slack && at > start) {
            used -= best == none ? used : used_at_best;
            end_line(best == none ? at : best);
        }
        used += wide;
        if (breaks[next - 1] == LINEBREAK_MUSTBREAK && line_ends.find(utf8[next - 1]) != none) {
            end_line(next);
            lines.back() = without_trailing(lines.back(), " \t\n\r\v\f");
            used = 0;
        } else if (breaks[next - 1] == LINEBREAK_ALLOWBREAK) {
            best = next;
            used_at_best = used;
        }
        rest = after;
    }
    end_line(utf8.size());
    return lines;
}

std::string hold_units(std::string_view utf8) {
    std::string held;
    std::size_t done = 0;
    for (std::size_t at = utf8.find(' '); at != std::string_view::npos; at = utf8.find(' ', at + 1)) {
        if (!ends_in_number(utf8.substr(0, at)) || !starts_with_unit(utf8.substr(at + 1))) continue;
        held.append(utf8.substr(done, at - done)).append(no_break_space);
        done = at + 1;
    }
    return held.append(utf8.substr(done));
}

} // namespace loomsheet
