#include "drawing/drawing.hpp"
#include "drawing/extracts.hpp"
#include "drawing/layout.hpp"
#include "drawing/scheme/volts.hpp"
#include <algorithm>
#include <optional>

namespace loomsheet::drawing {
namespace {

constexpr long effort = 4000, first_effort = 1000, hasty_effort = 200;
constexpr std::size_t many_groups = 16; // then many pages are tried, each hastily
constexpr double hopeless = 1.2;        // so much too large at first sight, and a long search is in vain
constexpr std::size_t most_looked_ahead = 12;
constexpr Manner manners[] = {{false, false, false}, {true, false, false}, {false, true, false},
                              {true, true, false},   {false, false, true}, {false, true, true}};

class Drawer {
public:
    Drawer(const Circuit& circuit, const Probes& probes, const Measure& measure, const Phrases& phrases, Area area)
        : circuit_(circuit), probes_(probes), measure_(measure), phrases_(phrases), area_(area), volts_(volts_of_pins(circuit)),
          strands_(circuit) {}

    std::vector<Picture> draw() {
        if (auto whole = fit({}, area_)) return {std::move(*whole)};
        return draw_pages(share_out());
    }

private:
    // Asks for each way of drawing that is not too high, the roomiest first, until one is taken: with its layers, and
    // how large it gets.
    template <class Take>
    bool any_way(const Extract& extract, Area area, long first, const Take& take) const {
        const Scheme scheme = make_scheme(circuit_, volts_, probes_, measure_, extract);
        if (scheme.nodes.empty()) return false;
        const Layered ways[] = {lay_layers(scheme, true), lay_layers(scheme, false)};
        std::optional<Layout> ordered[2];
        for (const Manner manner : manners)
            for (std::size_t way = 0; way < 2; ++way) {
                const Ruler ruler{circuit_, measure_, manner};
                if (least_height(ruler, ways[way]) > area.height) continue;
                if (!ordered[way]) ordered[way] = order_roughly(ruler, ways[way], area.width, first);
                if (take(ruler, ways[way], place_roughly(ruler, *ordered[way], area.width))) return true;
            }
        return false;
    }
    static bool fits(const Layout& layout, Area area, double times = 1) {
        return layout.width <= times * area.width && layout.height <= times * area.height;
    }

    std::optional<Picture> fit(const Extract& extract, Area area) const {
        std::optional<Picture> picture;
        any_way(extract, area, first_effort, [&](const Ruler& ruler, const Layered& layered, const Layout& rough) {
            if (!fits(rough, area, hopeless)) return false;
            const Layout layout = lay_out(ruler, layered, area.width, effort);
            if (fits(layout, area)) picture = paint(ruler, layout);
            return picture.has_value();
        });
        return picture;
    }
    bool fits_roughly(const Extract& extract, bool hastily) const {
        return any_way(extract, area_, hastily ? hasty_effort : first_effort,
                       [&](const Ruler&, const Layered&, const Layout& rough) { return fits(rough, area_); });
    }

    static Group merged(const std::vector<Group>& groups) {
        Group all;
        for (const Group& group : groups) {
            all.wires.insert(all.wires.end(), group.wires.begin(), group.wires.end());
            all.parts.insert(all.parts.end(), group.parts.begin(), group.parts.end());
        }
        return all;
    }
    static std::vector<Group> head(const std::vector<Group>& groups, std::size_t count) {
        return {groups.begin(), groups.begin() + static_cast<long>(count)};
    }
    static std::vector<Group> tail(const std::vector<Group>& groups, std::size_t from) {
        return {groups.begin() + static_cast<long>(from), groups.end()};
    }

    // Whether a page of the first `count` groups fits, behind the pages that there are.
    bool page_fits(const std::vector<std::vector<Group>>& pages, const std::vector<Group>& groups, std::size_t count) const {
        std::vector<Group> all;
        for (const auto& page : pages)
            all.push_back(merged(page));
        all.push_back(merged(head(groups, count)));
        if (count < groups.size()) all.push_back(merged(tail(groups, count)));
        Extract extract = extracts_of(strands_, volts_, all, phrases_)[pages.size()];
        extract.part_words = phrases_.part;
        return fits_roughly(extract, groups.size() > many_groups);
    }

    // Groups fill a page as long as they fit; then those that still find room there.
    std::vector<std::vector<Group>> share_out() const {
        std::vector<Group> groups = groups_of(strands_);
        std::vector<std::vector<Group>> pages;
        while (!groups.empty()) {
            std::size_t fitting = 0, failing = groups.size() + 1;
            for (std::size_t trial = std::min<std::size_t>(groups.size(), 4); fitting + 1 < failing;
                 trial = failing > groups.size() ? std::min(2 * fitting, groups.size()) : (fitting + failing) / 2)
                (page_fits(pages, groups, trial) ? fitting : failing) = trial;
            if (fitting == 0 && groups[0].wires.size() > 1) {
                const std::vector<Group> pieces = pieces_of(strands_, groups[0]);
                groups.erase(groups.begin());
                groups.insert(groups.begin(), pieces.begin(), pieces.end());
                continue;
            }
            fitting = std::max<std::size_t>(fitting, 1); // what cannot be drawn smaller
            std::vector<Group> page = head(groups, fitting);
            groups = tail(groups, fitting);
            for (std::size_t next = 0, looked = 0; next < groups.size() && looked < most_looked_ahead; ++looked) {
                std::vector<Group> trial = page;
                trial.push_back(groups[next]);
                const std::size_t count = trial.size();
                for (std::size_t i = 0; i < groups.size(); ++i)
                    if (i != next) trial.push_back(groups[i]);
                if (page_fits(pages, trial, count)) {
                    page.push_back(groups[next]);
                    groups.erase(groups.begin() + static_cast<long>(next));
                } else {
                    ++next;
                }
            }
            pages.push_back(std::move(page));
        }
        return pages;
    }

    // A page that does not fit after all is parted in two, and all pages are drawn anew.
    std::vector<Picture> draw_pages(std::vector<std::vector<Group>> pages) const {
        for (;;) {
            std::vector<Group> all;
            for (const auto& page : pages)
                all.push_back(merged(page));
            std::vector<Extract> extracts = extracts_of(strands_, volts_, all, phrases_);
            std::vector<Picture> pictures;
            std::vector<std::vector<Group>> parted;
            double used = 0; // of the height of the page so far
            for (std::size_t i = 0; i < extracts.size(); ++i) {
                extracts[i].part_words = phrases_.part;
                std::optional<Picture> picture;
                const double left = area_.height - used - area_.heading;
                if (used > 0 && left > 0) picture = fit(extracts[i], {area_.width, left});
                if (picture) {
                    used += area_.heading + picture->height;
                } else {
                    picture = fit(extracts[i], area_);
                    used = picture ? picture->height : 0;
                }
                std::vector<Group> groups = pages[i];
                if (!picture && groups.size() == 1) groups = pieces_of(strands_, groups[0]);
                if (!picture && groups.size() > 1) {
                    parted.push_back(head(groups, groups.size() / 2));
                    parted.push_back(tail(groups, groups.size() / 2));
                    continue;
                }
                parted.push_back(pages[i]);
                pictures.push_back(picture ? std::move(*picture) : drawn_anyway(extracts[i]));
            }
            if (parted.size() == pages.size()) return pictures;
            pages = std::move(parted);
        }
    }
    Picture drawn_anyway(const Extract& extract) const {
        const Ruler ruler{circuit_, measure_, manners[0]};
        return paint(ruler,
                     lay_out(ruler, lay_layers(make_scheme(circuit_, volts_, probes_, measure_, extract), true), area_.width, effort));
    }

    const Circuit& circuit_;
    const Probes& probes_;
    const Measure& measure_;
    const Phrases& phrases_;
    Area area_;
    std::vector<double> volts_;
    Strands strands_;
};

} // namespace

std::vector<Picture> draw_circuit(const Circuit& circuit, const Probes& probes, const Measure& measure, const Phrases& phrases, Area area) {
    if (circuit.parts.empty()) return {};
    std::vector<Picture> pictures = Drawer(circuit, probes, measure, phrases, area).draw();
    std::erase_if(pictures, [](const Picture& picture) { return picture.strokes.empty(); });
    return pictures;
}

} // namespace loomsheet::drawing
