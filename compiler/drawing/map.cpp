#include "drawing/map.hpp"
#include "drawing/paint/sketch.hpp"
#include "drawing/scheme/measures.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

constexpr double tab = 6.2;         // black square with a number
constexpr double sign_height = 5.4; // of ends
constexpr double lane_gap = 1.0;    // between outcomes
constexpr double pass_gap = 7.4;    // from a box to what it passes to
constexpr double stub = 1.8, bus = 1.6, arrow_room = 4.2, box_gap = 3, tree_gap = 7;
constexpr double line = 1.25, thin = 1;

struct MapGrid { // the columns of boxes
    int columns = 2;
    double pitch = 0, box = 0, label = 0, width = 0;
};
double stop_width(const Measure& measure, const std::string& sign) { return measure.width(Type::small_bold, sign) + 3.2; }
double flag_width(const Measure& measure, const std::string& sign) { return measure.width(Type::number, sign) + 5; }
double number_width(const Measure& measure, int number) { return std::max(tab, measure.width(Type::number, std::to_string(number)) + 1.6); }

double sign_width(const Measure& measure, const MapWay& way) {
    switch (way.end) {
    case WayEnd::check: return 0; // a number, measured as that of its check
    case WayEnd::verdict: return flag_width(measure, way.sign);
    case WayEnd::stop:
    case WayEnd::done: return stop_width(measure, way.sign);
    }
    return 0;
}

double widest_sign(const std::vector<MapCheck>& checks, const Measure& measure) {
    double width = tab;
    for (const MapCheck& check : checks) {
        width = std::max(width, number_width(measure, check.number));
        for (const MapWay& way : check.ways)
            width = std::max(width, sign_width(measure, way));
    }
    return width;
}
MapGrid grid_of(double width, int columns, double last_sign) {
    MapGrid grid;
    grid.columns = columns, grid.width = width;
    grid.pitch = (width - last_sign) / columns;
    grid.box = grid.pitch * 0.55;
    grid.label = grid.pitch - grid.box - bus - stub - arrow_room;
    return grid;
}

struct Lane {
    double y = 0; // below the upper edge of the tree
    std::size_t way = 0;
    bool leads_to_box = false;
    std::vector<std::string> label;
};
struct Item { // a check in a tree
    int check = none, column = 0;
    double y = 0, height = 0;
    std::vector<std::string> title;
    std::vector<Lane> lanes;
    std::size_t pass = none_way;
    double pass_y = 0; // where what it passes to begins
    bool pass_box = false;
    static constexpr std::size_t none_way = static_cast<std::size_t>(-1);
    double middle() const { return y + tab / 2; }
};
struct Tree {
    std::vector<Item> items;
    double height = 0;
};

class Map {
public:
    Map(const std::vector<MapCheck>& checks, const Measure& measure, Area area, int columns)
        : checks_(checks), measure_(measure), area_(area), grid_(grid_of(area.width, columns, widest_sign(checks, measure) + 0.5)),
          parent_(checks.size(), none), root_(checks.size(), 0) {
        find_parents();
    }

    std::vector<Picture> draw() {
        std::vector<Picture> pages;
        double y = area_.height; // full: the first tree opens a page
        for (std::size_t check = 0; check < checks_.size(); ++check) {
            if (!root_[check]) continue;
            const Tree tree = lay(static_cast<int>(check), 0);
            if (pages.empty() || y + tree.height > area_.height) {
                pages.emplace_back();
                pages.back().width = area_.width;
                y = 0;
            }
            Sketch sketch(pages.back(), measure_);
            for (const Item& item : tree.items)
                paint(sketch, item, y);
            pages.back().height = y + tree.height;
            y += tree.height + tree_gap;
        }
        return pages;
    }

private:
    // The parent of a check is the latest before it that leads to it, so that both stand near each other.
    void find_parents() {
        for (std::size_t c = 0; c < checks_.size(); ++c)
            for (const MapWay& way : checks_[c].ways)
                if (way.end == WayEnd::check && way.check > static_cast<int>(c)) parent_[way.check] = static_cast<int>(c);
        for (std::size_t c = 0; c < checks_.size(); ++c)
            root_[c] = static_cast<char>(parent_[c] == none);
    }
    // Whether the box of this way stands at its end: the first way to a child.
    bool is_branch(int check, std::size_t way) const {
        const MapWay& here = checks_[check].ways[way];
        if (here.end != WayEnd::check || parent_[here.check] != check || root_[here.check]) return false;
        for (std::size_t w = 0; w < way; ++w)
            if (checks_[check].ways[w].end == WayEnd::check && checks_[check].ways[w].check == here.check) return false;
        return true;
    }
    void cut(int check) { root_[check] = 1; }

    Item box(int check, int column, double y) const {
        Item item;
        item.check = check, item.column = column, item.y = y;
        item.title = measure_.wrap(Type::small_bold, grid_.box - tab_width(check) - 2.4, checks_[check].title);
        item.height = std::max(tab, static_cast<double>(item.title.size()) * pitch_of(Type::small_bold) + 1.8);
        return item;
    }
    double tab_width(int check) const { return number_width(measure_, checks_[check].number); }

    // A box, what it fails to on its right, what it passes to below, and so on down.
    Tree lay(int check, int column) {
        Tree tree;
        double y = 0;
        for (int here = check;;) {
            Item item = box(here, column, y);
            double bottom = lay_lanes(item, tree);
            const auto& ways = checks_[here].ways;
            int next = none;
            for (std::size_t w = 0; w < ways.size(); ++w) {
                if (!ways[w].pass || item.pass != Item::none_way) continue;
                item.pass = w;
                item.pass_y = y + item.height + pass_gap;
                if (is_branch(here, w)) {
                    const double below = std::max(item.pass_y, bottom + box_gap);
                    if (below + smallest_of(ways[w].check, column) > area_.height) {
                        cut(ways[w].check);
                    } else {
                        next = ways[w].check;
                        item.pass_y = below, item.pass_box = true;
                    }
                }
                if (next == none) bottom = std::max(bottom, item.pass_y + sign_height);
            }
            tree.items.push_back(item);
            tree.height = std::max({tree.height, bottom, item.y + item.height});
            if (next == none) return tree;
            here = next;
            y = item.pass_y;
        }
    }
    // The least that a check needs: its box and its lanes, without what they lead to.
    double smallest_of(int check, int column) const {
        const Item item = box(check, column, 0);
        double lanes = 0;
        for (const MapWay& way : checks_[check].ways)
            if (!way.pass) lanes += lane_height(way) + 2 * lane_gap;
        return std::max(item.height + pass_gap + sign_height, lanes);
    }
    double lane_height(const MapWay& way) const {
        return std::max(sign_height,
                        static_cast<double>(measure_.wrap(Type::small, grid_.label, way.label).size()) * pitch_of(Type::small) + 0.4);
    }

    double lay_lanes(Item& item, Tree& tree) {
        double y = item.y;
        const auto& ways = checks_[item.check].ways;
        for (std::size_t w = 0; w < ways.size(); ++w) {
            if (ways[w].pass && first_pass(item.check) == w) continue;
            Lane lane;
            lane.way = w;
            lane.label = measure_.wrap(Type::small, grid_.label, ways[w].label);
            const double half = lane_height(ways[w]) / 2;
            if (is_branch(item.check, w) && item.column + 1 < grid_.columns) {
                Tree branch = lay(ways[w].check, item.column + 1);
                const double down = y + std::max(0.0, half - tab / 2);
                double rest = half; // of the outcomes after it
                for (std::size_t later = w + 1; later < ways.size(); ++later)
                    rest += lane_height(ways[later]) + 2 * lane_gap;
                if (down + branch.height + rest <= area_.height && y - item.y + branch.height < 0.8 * area_.height) {
                    for (Item& each : branch.items) {
                        shift(each, down);
                        tree.items.push_back(std::move(each));
                    }
                    lane.leads_to_box = true;
                    lane.y = down + tab / 2;
                    y = std::max(down + branch.height, lane.y + half) + 2 * lane_gap;
                    item.lanes.push_back(std::move(lane));
                    continue;
                }
            }
            if (is_branch(item.check, w)) cut(ways[w].check);
            lane.y = y + std::max(half, y == item.y ? tab / 2 : 0);
            y = lane.y + half + lane_gap;
            item.lanes.push_back(std::move(lane));
        }
        return y - lane_gap;
    }
    std::size_t first_pass(int check) const {
        for (std::size_t w = 0; w < checks_[check].ways.size(); ++w)
            if (checks_[check].ways[w].pass) return w;
        return Item::none_way;
    }
    static void shift(Item& item, double down) {
        item.y += down, item.pass_y += down;
        for (Lane& lane : item.lanes)
            lane.y += down;
    }

    // --- drawing
    // -----------------------------------------------------------------------------------------------------------
    double left_of(int column) const { return column * grid_.pitch; }

    void paint(Sketch& sketch, const Item& item, double top) const {
        const double x = left_of(item.column), y = top + item.y;
        sketch.rect(x, y, grid_.box, item.height, line);
        sketch.cover(x, y, grid_.box, item.height);
        draw_number(sketch, x, y, tab, item.check);
        double baseline = y + item.height / 2 - (static_cast<double>(item.title.size()) - 1) * pitch_of(Type::small_bold) / 2 +
                          height_of(Type::small_bold) / 2;
        for (const std::string& each : item.title) {
            sketch.words(x + tab_width(item.check) + 1.2, baseline, Type::small_bold, each);
            baseline += pitch_of(Type::small_bold);
        }
        paint_lanes(sketch, item, top);
        if (item.pass != Item::none_way) paint_pass(sketch, item, top);
    }
    void paint_lanes(Sketch& sketch, const Item& item, double top) const {
        if (item.lanes.empty()) return;
        const double right = left_of(item.column) + grid_.box, start = top + item.middle(), x = right + bus;
        double low = start, high = start;
        sketch.line(right, start, x, start, thin, Use::wire, item.check);
        for (const Lane& lane : item.lanes) {
            const double y = top + lane.y;
            low = std::min(low, y), high = std::max(high, y);
            const MapWay& way = checks_[item.check].ways[lane.way];
            double width = 0;
            double baseline = y - (static_cast<double>(lane.label.size()) - 1) * pitch_of(Type::small) / 2 + height_of(Type::small) / 2;
            for (const std::string& each : lane.label) {
                sketch.words(x + stub, baseline, Type::small, each);
                width = std::max(width, measure_.width(Type::small, each));
                baseline += pitch_of(Type::small);
            }
            const double end = left_of(item.column) + grid_.pitch;
            sketch.line(x, y, x + stub - 0.7, y, thin, Use::wire, item.check);
            draw_arrow(sketch, x + stub + width + 0.7, end, y, item.check);
            if (!lane.leads_to_box) draw_end(sketch, end, y - sign_height / 2, way, area_.width);
        }
        sketch.line(x, low, x, high, thin, Use::wire, item.check);
    }
    static void draw_arrow(Sketch& sketch, double from, double to, double y, int net) {
        sketch.line(from, y, to - 2, y, thin, Use::wire, net);
        sketch.path({{to, y}, {to - 2.2, y - 1}, {to - 2.2, y + 1}}, 0, true, Fill::black);
    }
    void paint_pass(Sketch& sketch, const Item& item, double top) const {
        const MapWay& way = checks_[item.check].ways[item.pass];
        const double x = left_of(item.column) + tab / 2, from = top + item.y + item.height, to = top + item.pass_y;
        sketch.line(x, from, x, to - 2, thin, Use::wire, item.check);
        sketch.path({{x, to}, {x - 1, to - 2.2}, {x + 1, to - 2.2}}, 0, true, Fill::black);
        sketch.words(x + 1.4, from + 1.2 + height_of(Type::small), Type::small, way.label);
        if (!item.pass_box) draw_end(sketch, left_of(item.column), to, way, left_of(item.column) + grid_.box + bus - 1);
    }

    // The sign of an end; its title behind it where that has room on one line before `limit`.
    void draw_end(Sketch& sketch, double x, double y, const MapWay& way, double limit) const {
        const double right = x + end_width(way);
        switch (way.end) {
        case WayEnd::check: draw_number(sketch, x, y, sign_height, way.check); break;
        case WayEnd::verdict: draw_flag(sketch, x, y, way.sign); break;
        case WayEnd::stop:
        case WayEnd::done:
            sketch.pill(x, y, right - x, sign_height, line);
            sketch.words(x + 1.6, y + sign_height / 2 + height_of(Type::small_bold) / 2, Type::small_bold, way.sign);
            break;
        }
        if (!way.title.empty() && right + 1.2 + measure_.width(Type::small, way.title) <= limit)
            sketch.words(right + 1.2, y + sign_height / 2 + height_of(Type::small) / 2, Type::small, way.title);
    }
    double end_width(const MapWay& way) const { return way.end == WayEnd::check ? tab_width(way.check) : sign_width(measure_, way); }
    // White on black.
    void draw_number(Sketch& sketch, double x, double y, double height, int check) const {
        const double width = tab_width(check);
        sketch.path({{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}}, 0, true, Fill::black);
        sketch.centred(x + width / 2, y + height / 2 + height_of(Type::number) / 2, Type::number, std::to_string(checks_[check].number),
                       true);
    }
    void draw_flag(Sketch& sketch, double x, double y, const std::string& sign) const {
        const double width = flag_width(measure_, sign), shoulder = x + width - 2;
        sketch.path({{x, y}, {shoulder, y}, {x + width, y + sign_height / 2}, {shoulder, y + sign_height}, {x, y + sign_height}}, 0, true,
                    Fill::black);
        sketch.centred((x + shoulder) / 2 + 0.4, y + sign_height / 2 + height_of(Type::number) / 2, Type::number, sign, true);
    }

    const std::vector<MapCheck>& checks_;
    const Measure& measure_;
    Area area_;
    MapGrid grid_;
    std::vector<int> parent_;
    std::vector<char> root_; // begins a tree of its own
};

} // namespace

std::vector<Picture> draw_map(const std::vector<MapCheck>& checks, const Measure& measure, Area area) {
    std::vector<Picture> best;
    double least = 0;
    constexpr double narrowest = 40;      // of a column
    for (const int columns : {2, 3, 1}) { // the fewest pages, then the least height
        if (!best.empty() && area.width / columns < narrowest) continue;
        std::vector<Picture> pages = Map(checks, measure, area, columns).draw();
        double height = 0;
        for (const Picture& page : pages)
            height += page.height;
        if (best.empty() || pages.size() < best.size() || (pages.size() == best.size() && height < least - 20))
            best = std::move(pages), least = height;
    }
    return best;
}

} // namespace loomsheet::drawing
