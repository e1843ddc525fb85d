#include "paper_rules.hpp"
#include <algorithm>
#include <fmt/format.h>

using namespace loomsheet;
using namespace loomsheet::page;

namespace {

constexpr double slack = 0.02;
constexpr double cap = 0.688 * 25.4 / 72.0; // height of capitals per point, measured in the Liberation faces

struct Box {
    double x1, y1, x2, y2;
    std::string name;
};

Box box_of(const Text& text) { return {text.x, text.y - cap * text.pt, text.x + text.width, text.y, text.utf8}; }
Box box_of(const Region& region) { return {region.x, region.y, region.x + region.w, region.y + region.h, region.name}; }

bool overlap(const Box& a, const Box& b) {
    return a.x1 < b.x2 - slack && b.x1 < a.x2 - slack && a.y1 < b.y2 - slack && b.y1 < a.y2 - slack;
}

bool inside(const Box& inner, const Box& outer) {
    return inner.x1 >= outer.x1 - slack && inner.x2 <= outer.x2 + slack && inner.y1 >= outer.y1 - slack && inner.y2 <= outer.y2 + slack;
}

double gap(const Box& a, const Box& b) {
    const double across = std::max({0.0, a.x1 - b.x2, b.x1 - a.x2}), down = std::max({0.0, a.y1 - b.y2, b.y1 - a.y2});
    return std::max(across, down);
}

class Checker {
public:
    Checker(const Page& page, const Margins& margins, std::size_t number, std::vector<std::string>& broken)
        : page_(page), margins_(margins), number_(number), broken_(broken) {
        for (const Mark& mark : page.marks)
            if (const auto* text = std::get_if<Text>(&mark); text && !text->utf8.empty()) texts_.push_back(box_of(*text));
        for (const Region& region : page.regions)
            regions_.push_back({region, box_of(region)});
    }

    void run() {
        sizes();
        edges();
        texts();
        boxes();
        cards();
    }

private:
    const Page& page_;
    const Margins& margins_;
    std::size_t number_;
    std::vector<std::string>& broken_;
    std::vector<Box> texts_;
    std::vector<std::pair<Region, Box>> regions_;

    template <class... Parts>
    void say(fmt::format_string<Parts...> format, Parts&&... parts) {
        broken_.push_back(fmt::format("page {}: {}", number_, fmt::format(format, std::forward<Parts>(parts)...)));
    }

    // Captions of fields at least 8 pt (US state form standard), supporting text 9 pt; rules at least 1 pt, 0.75 in
    // drawings.
    void sizes() {
        for (const Mark& mark : page_.marks) {
            if (const auto* text = std::get_if<Text>(&mark); text && text->pt < 9) say("\"{}\" is set in {} pt", text->utf8, text->pt);
            if (const auto* line = std::get_if<Line>(&mark); line && line->pt < 0.75)
                say("a line of {} pt at {:.1f} {:.1f}", line->pt, line->x1, line->y1);
        }
    }

    // The margins, usually left 18 mm for holes, right 12; the running head alone above 18 mm.
    void edges() {
        for (const Box& text : texts_) {
            if (text.x1 < margins_.left - slack || text.x2 > page_.width - margins_.right + slack)
                say("\"{}\" leaves the type area at the side", text.name);
            if (text.y1 < 4 || text.y2 > page_.height - 5) say("\"{}\" leaves the paper", text.name);
        }
        for (const auto& [region, box] : regions_) {
            const bool frame = region.role == Role::head || region.role == Role::foot || region.name.starts_with("job number") ||
                               region.name.starts_with("strip");
            if (!frame && (region.y < 18 || box.y2 > page_.height - 17)) say("{} stands in the head or the foot", region.name);
        }
    }

    void texts() {
        for (std::size_t i = 0; i < texts_.size(); ++i)
            for (std::size_t j = i + 1; j < texts_.size(); ++j)
                if (overlap(texts_[i], texts_[j])) say("\"{}\" and \"{}\" overlap", texts_[i].name, texts_[j].name);
    }

    // Tick boxes 6 to 8 mm, reading fields at least 25 x 9, boxes at least 2 mm apart, nothing printed in a tick box
    // but the numbers of the strip (common practice; field gaps by two form guides).
    void boxes() {
        std::vector<Box> boxes;
        for (const auto& [region, box] : regions_) {
            if (region.role == Role::tick && (region.w < 6 || region.w > 8 || region.h < 6 || region.h > 8) &&
                !region.name.starts_with("strip"))
                say("{} is {:.1f} x {:.1f} mm", region.name, region.w, region.h);
            if (region.role == Role::reading && (region.w < 25 || region.h < 9))
                say("{} is {:.1f} x {:.1f} mm", region.name, region.w, region.h);
            if (region.role == Role::tick || region.role == Role::reading) boxes.push_back(box);
            if (region.role != Role::tick || region.name.starts_with("strip")) continue;
            for (const Box& text : texts_)
                if (overlap(text, box)) say("\"{}\" is printed into {}", text.name, region.name);
        }
        for (std::size_t i = 0; i < boxes.size(); ++i)
            for (std::size_t j = i + 1; j < boxes.size(); ++j)
                if (gap(boxes[i], boxes[j]) < 1.9)
                    say("{} and {} are {:.2f} mm apart", boxes[i].name, boxes[j].name, gap(boxes[i], boxes[j]));
    }

    // A card stands whole on its page; what is named after it lies in it, and no two cards touch.
    void cards() {
        for (const auto& [card, box] : regions_) {
            if (card.role != Role::card) continue;
            for (const auto& [other, other_box] : regions_) {
                if (other.role == Role::card && other.name != card.name && overlap(box, other_box))
                    say("{} and {} overlap", card.name, other.name);
                const bool part =
                    other.name.starts_with(card.name + " ") && other.role != Role::card && other.role != Role::field; // the copy at the end
                if (part && !inside(other_box, box)) say("{} leaves its card", other.name);
            }
            for (const Box& text : texts_) {
                const bool cut = text.y1 < box.y2 - slack && text.y2 > box.y2 + slack;
                if (cut) say("\"{}\" runs over the foot of {}", text.name, card.name);
            }
        }
    }
};

} // namespace

std::vector<std::string> broken_rules(const Document& document, const Margins& margins) {
    std::vector<std::string> broken;
    for (std::size_t i = 0; i < document.pages.size(); ++i)
        Checker(document.pages[i], margins, i + 1, broken).run();
    return broken;
}
