#include "page/pager.hpp"
#include "page/axes.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <iterator>
#include <utility>

namespace loomsheet {
namespace {

constexpr double block_gap = 5; // the title's rule then stands 11 mm below what is above
constexpr double slack = 1e-6;

struct MoveDown {
    double down;
    void operator()(page::Text& mark) const { mark.y += down; }
    void operator()(page::Line& mark) const { mark.y1 += down, mark.y2 += down; }
    void operator()(page::Rect& mark) const { mark.y += down; }
    void operator()(page::Circle& mark) const { mark.y += down; }
    void operator()(page::Path& mark) const {
        for (page::Point& point : mark.points)
            point.y += down;
    }
    void operator()(page::Link& mark) const { mark.y += down; }
    void operator()(page::Code& mark) const { mark.y += down; }
};

double height(const std::optional<Box>& box) { return box ? box->height : 0; }

double height_of_rows(const Block& block, std::size_t count) {
    double sum = 0;
    for (std::size_t i = 0; i < std::min(count, block.rows.size()); ++i)
        sum += block.rows[i].height;
    return sum;
}

} // namespace

void put(page::Page& page, Box box, double down) {
    for (page::Mark& mark : box.marks)
        std::visit(MoveDown{down}, mark);
    for (page::Region& region : box.regions)
        region.y += down;
    std::move(box.marks.begin(), box.marks.end(), std::back_inserter(page.marks));
    std::move(box.regions.begin(), box.regions.end(), std::back_inserter(page.regions));
}

bool Pager::at_top() const { return pages_.empty() || y_ <= size_.top + slack; }

void Pager::new_page() {
    page::Page page;
    page.width = size_.width;
    page.height = size_.height;
    pages_.push_back(std::move(page));
    y_ = size_.top;
}

void Pager::put_down(Box box) {
    if (box.height > room() + slack)
        findings_->add(
            finding::too_wide_for_place, box.at,
            fmt::format("this needs {:.0f} mm of height on the sheet, a page has {:.0f} mm", box.height, size_.bottom - size_.top),
            "split it in two");
    const std::size_t page = pages_.size() - 1;
    if (!box.anchor.empty()) anchors_.emplace(box.anchor, page);
    if (!box.outline.empty()) outline_.push_back({box.outline, page});
    for (Later& later : box.later)
        waiting_.push_back({std::move(later), page, y_, box.at});
    const double height = box.height;
    put(pages_.back(), std::move(box), y_);
    y_ += height;
}

void Pager::start(Block& block) {
    if (pages_.empty() || (block.new_page && !at_top())) new_page();
    if (!at_top()) y_ += block_gap;
    const double page_room = size_.bottom - size_.top;
    const double head = height(block.title) + height(block.captions);
    const double all = head + height_of_rows(block, block.rows.size());
    const bool whole = block.together && all <= page_room + slack;
    const double needs = whole ? all : head + height_of_rows(block, block.keep);
    if (needs > room() + slack && !at_top()) new_page();
    if (block.title) put_down(std::move(*block.title));
    if (block.captions) put_down(*block.captions);
}

void Pager::place(Block block) {
    if (block.rows.empty()) return;
    start(block);
    for (std::size_t i = 0; i < block.rows.size(); ++i) {
        const bool starts = block.rows[i].new_page || block.rows[i].height > room() + slack;
        if (starts && !at_top() && i > 0) {
            new_page();
            if (block.captions) put_down(*block.captions);
        }
        put_down(std::move(block.rows[i]));
    }
    if (block.alone) y_ = size_.bottom;
}

} // namespace loomsheet
