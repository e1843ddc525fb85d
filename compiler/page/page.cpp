#include "page/page.hpp"
#include <array>
#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <iterator>
#include <string_view>

namespace loomsheet::page {

namespace {

constexpr std::array<std::string_view, face_count> face_words{"S", "SB", "N", "NB", "spare", "spare_bold", "wide"};
constexpr std::array<std::string_view, 3> ink_words{"none", "black", "white"};
constexpr std::array<std::string_view, 9> role_words{"head", "foot", "block", "card", "tick", "reading", "outcome", "field", "cell"};

template <class Words, class Value>
std::string_view word(const Words& words, Value value) {
    return words.at(static_cast<std::size_t>(value));
}

class Dump {
public:
    std::string text;

    template <class... Args>
    void put(fmt::format_string<Args...> words, Args&&... args) {
        fmt::format_to(std::back_inserter(text), words, std::forward<Args>(args)...);
    }
    // Two decimals each, never "-0.00". Whole hundredths are written as such, which is several times as fast; what lies
    // near the middle of two goes the slow way, so that all is rounded alike.
    void numbers(std::initializer_list<double> values) {
        for (const double value : values) {
            const double hundredths = std::abs(value) * 100, whole = std::round(hundredths);
            if (whole < 1e9 && std::abs(hundredths - whole) < 0.499) {
                const auto count = static_cast<unsigned>(whole);
                text += value < 0 && count > 0 ? " -" : " ";
                put_whole(count / 100);
                text += {'.', static_cast<char>('0' + count / 10 % 10), static_cast<char>('0' + count % 10)};
            } else {
                put(" {:.2f}", std::abs(value) < 0.005 ? 0.0 : value);
            }
        }
    }
    void put_whole(unsigned count) {
        std::array<char, 10> figures;
        text.append(figures.data(), std::to_chars(figures.begin(), figures.end(), count).ptr);
    }
    void numbers(std::string_view name, std::initializer_list<double> values) {
        (text += ' ') += name;
        numbers(values);
    }
    // In double quotes on one line.
    void quoted(std::string_view words) {
        text += " \"";
        for (const char c : words) {
            if (c == '"' || c == '\\') text += '\\';
            if (c == '\n') {
                text += "\\n";
            } else {
                text += c;
            }
        }
        text += '"';
    }
    void stroke_and_fill(double pt, Ink fill) {
        numbers("pt", {pt});
        if (fill != Ink::none) (text += " fill ") += word(ink_words, fill);
    }
    void dashes(const std::vector<double>& dash) {
        if (!dash.empty()) text += " dash";
        for (const double length : dash)
            numbers({length});
    }

    void operator()(const Text& mark) {
        (text += "text ") += word(face_words, mark.face);
        numbers({mark.pt});
        numbers("at", {mark.x, mark.y});
        numbers("wide", {mark.width});
        if (mark.ink != Ink::black) (text += ' ') += word(ink_words, mark.ink);
        quoted(mark.utf8);
    }
    void operator()(const Line& mark) {
        text += "line";
        numbers({mark.x1, mark.y1, mark.x2, mark.y2});
        stroke_and_fill(mark.pt, Ink::none);
        dashes(mark.dash);
    }
    void operator()(const Rect& mark) {
        text += "rect";
        numbers({mark.x, mark.y, mark.w, mark.h});
        stroke_and_fill(mark.pt, mark.fill);
        if (mark.round > 0) numbers("round", {mark.round});
    }
    void operator()(const Circle& mark) {
        text += "circle";
        numbers({mark.x, mark.y, mark.r});
        stroke_and_fill(mark.pt, mark.fill);
    }
    void operator()(const Path& mark) {
        text += mark.closed ? "path closed" : "path";
        stroke_and_fill(mark.pt, mark.fill);
        dashes(mark.dash);
        text += " through";
        for (const Point& point : mark.points)
            numbers({point.x, point.y});
    }
    void operator()(const Link& mark) {
        text += "link";
        numbers({mark.x, mark.y, mark.w, mark.h});
        put(" to page {}", mark.page + 1);
    }
    void operator()(const Code& mark) {
        text += "code";
        numbers({mark.x, mark.y, mark.size});
        put(" {} modules", mark.side);
        quoted(mark.words);
    }
    void operator()(const Region& region) {
        (text += "region ") += word(role_words, region.role);
        numbers({region.x, region.y, region.w, region.h});
        quoted(region.name);
    }
};

} // namespace

std::string dump(const Document& document) {
    Dump out;
    out.put("document {}", document.language);
    out.quoted(document.title);
    for (const OutlineEntry& entry : document.outline) {
        out.put("\noutline page {}", entry.page + 1);
        out.quoted(entry.title);
    }
    for (std::size_t i = 0; i < document.pages.size(); ++i) {
        const Page& page = document.pages[i];
        out.put("\n\npage {} of {}", i + 1, document.pages.size());
        out.numbers({page.width, page.height});
        for (const Region& region : page.regions) {
            out.text += '\n';
            out(region);
        }
        for (const Mark& mark : page.marks) {
            out.text += '\n';
            std::visit(out, mark);
        }
    }
    out.text += '\n';
    return std::move(out.text);
}

} // namespace loomsheet::page
