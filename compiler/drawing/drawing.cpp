#include "drawing/drawing.hpp"
#include "drawing/layout.hpp"
#include "drawing/paging.hpp"
#include "drawing/volts.hpp"
#include <algorithm>
#include <optional>

namespace loomsheet::drawing {
namespace {

constexpr long full_effort = 4000, quick_effort = 150;
constexpr double hopeless = 1.25; // so much too large after a quick search, and a long one is in vain
constexpr std::size_t most_looked_ahead = 12;
constexpr Manner manners[] = {{false, false, false}, {true, false, false}, {false, true, false}, {true, true, false}, {false, false, true}, {false, true, true}};

class Drawer {
public:
    Drawer(const Circuit& circuit, const Probes& probes, const Measure& measure, const Phrases& phrases, Area area)
        : circuit_(circuit), probes_(probes), measure_(measure), phrases_(phrases), area_(area), volts_(volts_of_pins(circuit)) {}

    std::vector<Picture> draw() {
        if (auto whole = fit({}, full_effort)) return {std::move(*whole)};
        return draw_pages();
    }

private:
    // The first manner in which it fits the area.
    std::optional<Picture> fit(const Extract& extract, long effort) const { return fit(extract, effort, area_); }
    std::optional<Picture> fit(const Extract& extract, long effort, Area area) const {
        const Scheme scheme = make_scheme(circuit_, volts_, probes_, measure_, extract);
        if (scheme.nodes.empty()) return Picture{};
        const Layered pressed = lay_layers(scheme, true), loose = lay_layers(scheme, false);
        for (const Manner manner : manners)
            for (const Layered* layered : {&pressed, &loose}) {
                const Ruler ruler{circuit_, measure_, manner};
                if (least_height(ruler, *layered) > area.height) continue;
                const Layout quick = lay_out(ruler, *layered, area.width, quick_effort);
                if (quick.width > hopeless * area.width || quick.height > hopeless * area.height) continue;
                if (effort > quick_effort) {
                    const Layout full = lay_out(ruler, *layered, area.width, effort);
                    if (fits(full, area)) return paint(ruler, full);
                }
                if (fits(quick, area)) return paint(ruler, quick);
            }
        return std::nullopt;
    }

    static bool fits(const Layout& layout, Area area) { return layout.width <= area.width && layout.height <= area.height; }

    // Groups fill a page as long as they fit.
    std::vector<Picture> draw_pages() {
        const Paging paging(circuit_, volts_);
        std::vector<Group> groups = paging.groups(), pages;
        while (!groups.empty()) {
            std::size_t fits = 0, fails = groups.size() + 1;
            for (std::size_t trial = std::min<std::size_t>(groups.size(), 8); fits + 1 < fails; trial = (fits + fails) / 2)
                (page_fits(paging, pages, groups, trial) ? fits : fails) = trial;
            if (fits == 0) {
                if (groups[0].wires.size() > 1) {
                    const std::vector<Group> pieces = paging.pieces_of(groups[0]);
                    groups.erase(groups.begin());
                    groups.insert(groups.begin(), pieces.begin(), pieces.end());
                    continue;
                }
                fits = 1; // what cannot be drawn smaller
            }
            Group page = merged(groups, fits);
            groups.erase(groups.begin(), groups.begin() + static_cast<long>(fits));
            for (std::size_t next = 0, looked = 0; next < groups.size() && looked < most_looked_ahead; ++looked) { // what still finds room
                std::vector<Group> trial{page, groups[next]};
                trial.insert(trial.end(), groups.begin(), groups.begin() + static_cast<long>(next));
                trial.insert(trial.end(), groups.begin() + static_cast<long>(next) + 1, groups.end());
                if (page_fits(paging, pages, trial, 2)) {
                    page = merged(trial, 2);
                    groups.erase(groups.begin() + static_cast<long>(next));
                } else {
                    ++next;
                }
            }
            pages.push_back(std::move(page));
        }
        std::vector<Extract> extracts = paging.extracts(pages, phrases_);
        std::vector<Picture> pictures;
        double used = 0; // of the height of the page so far
        for (Extract& extract : extracts) {
            extract.part_words = phrases_.part;
            if (const double left = area_.height - used - area_.heading; used > 0 && left > 0)
                if (auto low = fit(extract, full_effort, {area_.width, left})) {
                    used += area_.heading + low->height;
                    pictures.push_back(std::move(*low));
                    continue;
                }
            auto picture = fit(extract, full_effort);
            if (!picture) picture = fit(extract, quick_effort); // what it was shared out by
            pictures.push_back(picture ? std::move(*picture) : drawn_anyway(extract));
            used = pictures.back().height;
        }
        return pictures;
    }
    static Group merged(const std::vector<Group>& groups, std::size_t count) {
        Group all;
        for (std::size_t i = 0; i < count; ++i) {
            all.wires.insert(all.wires.end(), groups[i].wires.begin(), groups[i].wires.end());
            all.parts.insert(all.parts.end(), groups[i].parts.begin(), groups[i].parts.end());
        }
        return all;
    }
    bool page_fits(const Paging& paging, std::vector<Group> pages, const std::vector<Group>& groups, std::size_t count) const {
        const std::size_t page = pages.size();
        pages.push_back(merged(groups, count));
        if (count < groups.size()) pages.push_back(merged({groups.begin() + static_cast<long>(count), groups.end()}, groups.size() - count));
        Extract extract = paging.extracts(pages, phrases_)[page];
        extract.part_words = phrases_.part;
        return fit(extract, quick_effort).has_value();
    }
    Picture drawn_anyway(const Extract& extract) const {
        const Ruler ruler{circuit_, measure_, manners[0]};
        return paint(ruler, lay_out(ruler, lay_layers(make_scheme(circuit_, volts_, probes_, measure_, extract), true), area_.width, quick_effort));
    }

    const Circuit& circuit_;
    const Probes& probes_;
    const Measure& measure_;
    const Phrases& phrases_;
    Area area_;
    std::vector<double> volts_;
};

} // namespace

std::vector<Picture> draw_circuit(const Circuit& circuit, const Probes& probes, const Measure& measure, const Phrases& phrases, Area area) {
    std::vector<Picture> pictures = Drawer(circuit, probes, measure, phrases, area).draw();
    std::erase_if(pictures, [](const Picture& picture) { return picture.strokes.empty(); });
    return pictures;
}

} // namespace loomsheet::drawing
