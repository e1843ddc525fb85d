#include "drawing/paint/inside.hpp"
#include "drawing/paint/signs.hpp"
#include "drawing/scheme/measures.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

class Inside {
public:
    Inside(Sketch& sketch, const Grid& grid, const InsidePlace& place) : sketch_(sketch), grid_(grid), place_(place) {}

    void draw() {
        for (const Cell& cell : grid_.cells)
            draw_cell(cell);
        list_ends();
        for (const Bar& bar : grid_.bars)
            draw_bar(bar);
        for (std::size_t i = 0; i < ends_.size(); ++i)
            draw_vertical(i);
        if (grid_.linked) draw_links();
    }

private:
    double bar_y(const Bar& bar) const { return place_.top + grid_.bar_y(bar); }

    void draw_cell(const Cell& cell) {
        const double y = place_.top + grid_.row_top(cell.row), height = grid_.row_height[cell.row];
        const double side = cell.side == none ? 0 : place_.x[cell.column + 1];
        draw_sign(sketch_, cell, place_.x[cell.column], side, y, height);
        const double x = place_.x[cell.column + cell.columns() - 1] + reach_right(cell) + mm::label;
        double baseline = y + height / 2 - 0.8; // one line stands over the link
        if (cell.label.size() > 1)
            baseline = y + (height - label_pitch * static_cast<double>(cell.label.size() - 1) + height_of(Type::small)) / 2;
        for (const std::string& line : cell.label) {
            sketch_.words(x, baseline, Type::small, line);
            baseline += label_pitch;
        }
    }

    void list_ends() {
        for (const Cell& cell : grid_.cells) {
            const double y = place_.top + grid_.row_top(cell.row), end = y + grid_.row_height[cell.row];
            ends_.push_back({cell.top, cell.column, y});
            ends_.push_back({cell.bottom, cell.column, end});
            if (cell.side != none) ends_.push_back({cell.side, cell.column + 1, cell.side_up ? y : end});
        }
        for (const GridPin& pin : grid_.pins)
            ends_.push_back({pin.joint, pin.column, pin.top ? place_.upper_end : place_.lower_end});
    }
    void draw_bar(const Bar& bar) {
        const double y = bar_y(bar);
        sketch_.line(place_.x[bar.from], y, place_.x[bar.to], y, pt::sign);
        for (int c = bar.from; c <= bar.to; ++c) {
            const auto verticals =
                std::count_if(ends_.begin(), ends_.end(), [&](const End& end) { return end.joint == bar.joint && end.column == c; });
            if ((c > bar.from) + (c < bar.to) + verticals > 2) sketch_.dot(place_.x[c], y);
        }
    }
    // One line a joint and column, drawn for the first of its ends.
    void draw_vertical(std::size_t index) {
        const End& here = ends_[index];
        double low = here.y, high = here.y;
        for (std::size_t i = 0; i < ends_.size(); ++i) {
            if (ends_[i].joint != here.joint || ends_[i].column != here.column) continue;
            if (i < index) return;
            low = std::min(low, ends_[i].y), high = std::max(high, ends_[i].y);
        }
        for (const Bar& bar : grid_.bars)
            if (bar.joint == here.joint) low = std::min(low, bar_y(bar)), high = std::max(high, bar_y(bar));
        sketch_.line(place_.x[here.column], low, place_.x[here.column], high, pt::sign);
    }

    void draw_links() {
        const auto coil = std::find_if(grid_.cells.begin(), grid_.cells.end(), [](const Cell& cell) { return cell.sign == Sign::coil; });
        for (const Cell& cell : grid_.cells)
            if ((cell.sign == Sign::contact || cell.sign == Sign::change_over) && cell.row == coil->row) draw_link(*coil, cell);
    }
    // Dashed, and behind what stands between the coil and the contact's blade.
    void draw_link(const Cell& coil, const Cell& contact) {
        const double from = place_.x[coil.column], blade = place_.x[contact.column] + (contact.sign == Sign::contact ? -1.4 : 0.9);
        const double y = place_.top + grid_.row_top(coil.row) + grid_.row_height[coil.row] / 2;
        const double ahead = from < blade ? 1 : -1;
        double at = from + ahead * half_width_of(Sign::coil);
        std::vector<const Cell*> between;
        for (const Cell& other : grid_.cells)
            if (other.row == coil.row && &other != &coil && &other != &contact && place_.x[other.column] > std::min(at, blade) &&
                place_.x[other.column] < std::max(at, blade))
                between.push_back(&other);
        const auto dash_to = [&](double x) { sketch_.dashed({{at, y}, {x, y}}, pt::link, Use::link, {1.4, 0.9}); };
        if (!between.empty()) {
            const Cell &first = *between.front(), &last = *between.back();
            dash_to(place_.x[first.column] - ahead * half_width_of(first.sign));
            at = place_.x[last.column] + ahead * half_width_of(last.sign);
        }
        dash_to(blade);
    }

    struct End { // of a cell or a pin: where its joint goes on
        int joint, column;
        double y;
    };
    Sketch& sketch_;
    const Grid& grid_;
    const InsidePlace& place_;
    std::vector<End> ends_;
};

} // namespace

void draw_inside(Sketch& sketch, const Grid& grid, const InsidePlace& place) { Inside(sketch, grid, place).draw(); }

} // namespace loomsheet::drawing
