#include "drawing/paint/channel.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

class NetPainter {
public:
    NetPainter(Sketch& sketch, Wiring& wiring, const Layout& layout, const Net& net)
        : sketch_(sketch), wiring_(wiring), layout_(layout), net_(net), number_(wiring.net_of(net.segments[0])) {
        for (const int s : net.segments)
            thinnest_ = std::min(thinnest_, wiring.width_of(s)), thickest_ = std::max(thickest_, wiring.width_of(s));
    }

    void draw(int track, double top, double bottom) {
        const double y = top + mm::channel + std::max(track, 0) * mm::track;
        const bool straight = track == none;
        for (const auto& upper : net_.uppers)
            vertical(upper, top, straight ? bottom : y);
        for (const auto& lower : net_.lowers)
            if (!straight) vertical(lower, y, bottom);
        if (!straight)
            draw_bar(y);
        else if (net_.uppers.empty()) // nothing above: a bar without length
            for (const auto& lower : net_.lowers)
                line(x_of(lower), y, x_of(lower), bottom, thickest_);
    }

private:
    double x_of(const std::pair<int, int>& end) const { return layout_.columns.at(layout_.layered.scheme, end); }
    void line(double x1, double y1, double x2, double y2, double pt) { sketch_.line(x1, y1, x2, y2, pt, Use::wire, number_); }
    void vertical(const std::pair<int, int>& end, double from, double to) {
        const double x = x_of(end);
        const bool alone = layout_.layered.at[end.first][end.second].size() == 1;
        line(x, from, x, to, alone ? wiring_.width_at(end.first, end.second) : thickest_);
        verticals_.push_back(x);
    }
    void draw_bar(double y) {
        const double low = *std::min_element(verticals_.begin(), verticals_.end()),
                     high = *std::max_element(verticals_.begin(), verticals_.end());
        line(low, y, high, y, net_.rail ? pt::rail : net_.segments.size() == 1 ? thickest_ : thinnest_);
        for (std::size_t i = 0; i < verticals_.size(); ++i) {
            const double x = verticals_[i];
            const auto here = std::count(verticals_.begin(), verticals_.end(), x);
            const bool first = std::find(verticals_.begin(), verticals_.end(), x) - verticals_.begin() == static_cast<std::ptrdiff_t>(i);
            if (first && here + (x > low + 1e-6) + (x < high - 1e-6) > 2) sketch_.dot(x, y);
        }
    }

    Sketch& sketch_;
    Wiring& wiring_;
    const Layout& layout_;
    const Net& net_;
    int number_;
    double thinnest_ = 9, thickest_ = 0;
    std::vector<double> verticals_;
};

} // namespace

void draw_channel(Sketch& sketch, Wiring& wiring, const Layout& layout, std::size_t channel, double top, double bottom) {
    const std::vector<Net>& nets = layout.nets[channel];
    for (std::size_t i = 0; i < nets.size(); ++i)
        NetPainter(sketch, wiring, layout, nets[i]).draw(layout.tracks[channel].of[i], top, bottom);
}

} // namespace loomsheet::drawing
