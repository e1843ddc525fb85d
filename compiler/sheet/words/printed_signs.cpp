#include "sheet/words/printed_signs.hpp"
#include <algorithm>
#include <charconv>
#include <string_view>

namespace loomsheet {
namespace {

using Texts = std::vector<const page::Text*>;

Texts texts_in(const page::Page& page, const page::Region& region) {
    Texts found;
    for (const page::Mark& mark : page.marks) {
        const auto* text = std::get_if<page::Text>(&mark);
        if (!text) continue;
        const double middle = text->x + text->width / 2;
        if (middle >= region.x && middle <= region.x + region.w && text->y >= region.y && text->y <= region.y + region.h)
            found.push_back(text);
    }
    return found;
}

double right_end(const page::Text& text) { return text.x + text.width; }

// A number in its tab, a letter in its pennant: white on black.
Texts white_in(const page::Page& page, const page::Region& region) {
    Texts found = texts_in(page, region);
    found.erase(std::remove_if(found.begin(), found.end(), [](const page::Text* each) { return each->ink != page::Ink::white; }),
                found.end());
    std::stable_sort(found.begin(), found.end(), [](const page::Text* a, const page::Text* b) { return a->x < b->x; });
    return found;
}

// At the right end stands where it leads, before it the words.
PrintedWay way_in(const page::Page& page, const page::Region& region) {
    const Texts texts = texts_in(page, region);
    const auto last = std::max_element(texts.begin(), texts.end(),
                                       [](const page::Text* a, const page::Text* b) { return right_end(*a) < right_end(*b); });
    PrintedWay way;
    if (last == texts.end()) return way;
    for (const page::Text* each : texts)
        if (each != *last) way.words += (way.words.empty() ? "" : " ") + each->utf8;
    way.sign = (*last)->utf8;
    return way;
}

// The words beside a number of a verdict, on its line.
PrintedWay onward(const Texts& all, const page::Text& number) {
    constexpr double same_line = 2, beside = 60; // mm
    PrintedWay way{"", number.utf8};
    double nearest = number.x - beside;
    for (const page::Text* each : all)
        if (each->ink == page::Ink::black && std::abs(each->y - number.y) < same_line && each->x < number.x && right_end(*each) > nearest)
            nearest = right_end(*each), way.words = each->utf8;
    return way;
}

PrintedCard& card_of(std::vector<PrintedCard>& cards, std::string_view label) {
    const auto found = std::find_if(cards.begin(), cards.end(), [&](const PrintedCard& each) { return each.label == label; });
    if (found != cards.end()) return *found;
    cards.push_back({std::string(label), "", {}, {}});
    return cards.back();
}

void read_region(PrintedSigns& signs, const page::Page& page, const page::Region& region) {
    const std::string_view name = region.name;
    const std::size_t label = name.find(' ') + 1, end = std::min(name.find(' ', label), name.size());
    const std::string_view of = name.substr(label, end - label);
    if (name.starts_with("check ") && region.role == page::Role::card && end == name.size()) {
        const Texts white = white_in(page, region);
        if (!white.empty()) card_of(signs.checks, of).sign = white.front()->utf8;
    } else if (name.starts_with("check ") && region.role == page::Role::outcome) {
        PrintedCard& card = card_of(signs.checks, of);
        std::size_t number = 0;
        const std::size_t blank = name.rfind(' ') + 1;
        std::from_chars(name.data() + blank, name.data() + name.size(), number);
        card.outcomes.push_back(number - 1);
        card.ways.push_back(way_in(page, region));
    } else if (name.starts_with("verdict ") && region.role == page::Role::cell) {
        PrintedCard& card = card_of(signs.verdicts, of);
        const Texts white = white_in(page, region), all = texts_in(page, region);
        for (std::size_t i = 0; i < white.size(); ++i)
            if (i == 0)
                card.sign = white[i]->utf8;
            else
                card.ways.push_back(onward(all, *white[i]));
    }
}

} // namespace

PrintedSigns printed_signs(const page::Document& document) {
    PrintedSigns signs;
    for (const page::Page& page : document.pages)
        for (const page::Region& region : page.regions)
            read_region(signs, page, region);
    return signs;
}

} // namespace loomsheet
