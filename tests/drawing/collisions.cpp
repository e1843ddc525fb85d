#include "collisions.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

constexpr double slack = 0.05, side_by_side = 0.7;

struct Box {
    double left, top, right, bottom;
    bool meets(const Box& o, double by = slack) const {
        return left < o.right - by && o.left < right - by && top < o.bottom - by && o.top < bottom - by;
    }
};
Box box_of(const drawing::Words& words) {
    return {words.x, words.y - drawing::height_of(words.type), words.x + words.width,
            words.y + (words.type == drawing::Type::number ? 0 : 0.25) * drawing::height_of(words.type)};
}

struct Piece1 { // one straight piece of a stroke
    Spot a, b;
    const Stroke* stroke;
    bool upright() const { return std::abs(a.x - b.x) < 1e-6; }
    bool flat() const { return std::abs(a.y - b.y) < 1e-6; }
};
std::vector<Piece1> pieces_of(const Picture& picture) {
    std::vector<Piece1> pieces;
    for (const Stroke& stroke : picture.strokes) {
        for (std::size_t i = 1; i < stroke.through.size(); ++i)
            pieces.push_back({stroke.through[i - 1], stroke.through[i], &stroke});
        if (stroke.closed) pieces.push_back({stroke.through.back(), stroke.through.front(), &stroke});
    }
    return pieces;
}

// Liang and Barsky: whether a piece has a part inside a box.
bool enters(const Piece1& piece, Box box, double by) {
    box.left += by, box.top += by, box.right -= by, box.bottom -= by;
    if (box.left >= box.right || box.top >= box.bottom) return false;
    double from = 0, to = 1;
    const double dx = piece.b.x - piece.a.x, dy = piece.b.y - piece.a.y;
    const auto clip = [&](double p, double q) {
        if (p == 0) return q > 0;
        const double t = q / p;
        if (p < 0)
            from = std::max(from, t);
        else
            to = std::min(to, t);
        return from < to || (dx == 0 && dy == 0);
    };
    return clip(-dx, piece.a.x - box.left) && clip(dx, box.right - piece.a.x) && clip(-dy, piece.a.y - box.top) &&
           clip(dy, box.bottom - piece.a.y) && from <= to;
}

bool ring_meets(const Ring& ring, const Box& box) {
    const double nx = std::clamp(ring.x, box.left, box.right), ny = std::clamp(ring.y, box.top, box.bottom);
    const double nearest = std::hypot(nx - ring.x, ny - ring.y);
    double farthest = 0;
    for (const double x : {box.left, box.right})
        for (const double y : {box.top, box.bottom})
            farthest = std::max(farthest, std::hypot(x - ring.x, y - ring.y));
    return nearest < ring.r - slack && farthest > ring.r + slack;
}

bool on(const Spot& spot, const Piece1& piece) {
    const double by = 0.2;
    return spot.x > std::min(piece.a.x, piece.b.x) - by && spot.x < std::max(piece.a.x, piece.b.x) + by &&
           spot.y > std::min(piece.a.y, piece.b.y) - by && spot.y < std::max(piece.a.y, piece.b.y) + by;
}

std::string place(const Piece1& piece) { return fmt::format("({:.1f} {:.1f} {:.1f} {:.1f})", piece.a.x, piece.a.y, piece.b.x, piece.b.y); }

class Finder {
public:
    Finder(const Picture& picture, Area area) : picture_(picture), area_(area), pieces_(pieces_of(picture)) {}

    std::vector<std::string> find() {
        words();
        wires();
        symbols();
        outside();
        return std::move(found_);
    }

private:
    void words() {
        for (std::size_t i = 0; i < picture_.words.size(); ++i) {
            const drawing::Words& one = picture_.words[i];
            const Box box = box_of(one);
            for (std::size_t j = i + 1; j < picture_.words.size(); ++j)
                if (box.meets(box_of(picture_.words[j])))
                    found_.push_back(fmt::format("\"{}\" on \"{}\"", one.text, picture_.words[j].text));
            for (const Piece1& piece : pieces_)
                if (enters(piece, box, slack))
                    found_.push_back(fmt::format("\"{}\" ({:.1f} {:.1f}) on a line {}", one.text, one.x, one.y, place(piece)));
            for (const Ring& ring : picture_.rings)
                if (ring_meets(ring, box)) found_.push_back(fmt::format("\"{}\" on a circle", one.text));
            for (const Pill& pill : picture_.pills) {
                const Box frame{pill.x, pill.y, pill.x + pill.w, pill.y + pill.h};
                const bool inside = box.left > frame.left && box.right < frame.right && box.top > frame.top && box.bottom < frame.bottom;
                if (box.meets(frame) && !inside) found_.push_back(fmt::format("\"{}\" on a frame", one.text));
            }
        }
    }
    void wires() {
        for (std::size_t i = 0; i < pieces_.size(); ++i) {
            if (pieces_[i].stroke->use != Use::wire) continue;
            for (std::size_t j = i + 1; j < pieces_.size(); ++j) {
                if (pieces_[j].stroke->use != Use::wire || pieces_[i].stroke->net == pieces_[j].stroke->net) continue;
                if (lie_together(pieces_[i], pieces_[j]))
                    found_.push_back("a wire on a wire " + place(pieces_[i]) + " " + place(pieces_[j]));
            }
            for (const Ring& ring : picture_.rings)
                if (ring.fill == Fill::none &&
                    enters(pieces_[i], {ring.x - ring.r, ring.y - ring.r, ring.x + ring.r, ring.y + ring.r}, 0.2))
                    found_.push_back("a wire through a circle " + place(pieces_[i]));
            for (const Pill& pill : picture_.pills)
                if (enters(pieces_[i], {pill.x, pill.y, pill.x + pill.w, pill.y + pill.h}, 0.2))
                    found_.push_back("a wire through a frame " + place(pieces_[i]));
        }
    }
    static bool lie_together(const Piece1& one, const Piece1& other) {
        for (const bool upright : {true, false}) {
            if (upright ? !one.upright() || !other.upright() : !one.flat() || !other.flat()) continue;
            const auto across = [&](const Spot& s) { return upright ? s.x : s.y; };
            const auto along = [&](const Spot& s) { return upright ? s.y : s.x; };
            const double low = std::max(std::min(along(one.a), along(one.b)), std::min(along(other.a), along(other.b)));
            const double high = std::min(std::max(along(one.a), along(one.b)), std::max(along(other.a), along(other.b)));
            if (std::abs(across(one.a) - across(other.a)) < side_by_side && high - low > slack) return true;
        }
        return on(one.a, other) || on(one.b, other) || on(other.a, one) || on(other.b, one);
    }
    void symbols() {
        for (std::size_t i = 0; i < picture_.covers.size(); ++i) {
            const Cover& cover = picture_.covers[i];
            const Box box{cover.x, cover.y, cover.x + cover.w, cover.y + cover.h};
            for (const Piece1& piece : pieces_)
                if (piece.stroke->use == Use::wire && enters(piece, box, 0.3)) found_.push_back("a wire through a symbol " + place(piece));
            for (std::size_t j = i + 1; j < picture_.covers.size(); ++j) {
                const Cover& other = picture_.covers[j];
                if (box.meets({other.x, other.y, other.x + other.w, other.y + other.h})) found_.push_back("a symbol on a symbol");
            }
        }
        for (std::size_t i = 0; i < picture_.rings.size(); ++i)
            for (std::size_t j = i + 1; j < picture_.rings.size(); ++j) {
                const Ring &a = picture_.rings[i], &b = picture_.rings[j];
                if (a.fill == Fill::none && b.fill == Fill::none && std::hypot(a.x - b.x, a.y - b.y) < a.r + b.r - slack)
                    found_.push_back("a circle on a circle");
            }
    }
    void outside() {
        if (picture_.width > area_.width + 1e-6 || picture_.height > area_.height + 1e-6)
            found_.push_back(
                fmt::format("{:.1f} x {:.1f} mm is more than {:.1f} x {:.1f}", picture_.width, picture_.height, area_.width, area_.height));
        const auto inside = [&](double left, double top, double right, double bottom, const std::string& what) {
            if (left < -slack || top < -slack || right > picture_.width + slack || bottom > picture_.height + slack)
                found_.push_back(fmt::format("{} leaves the area: {:.1f} {:.1f} {:.1f} {:.1f}", what, left, top, right, bottom));
        };
        for (const drawing::Words& one : picture_.words) {
            const Box box = box_of(one);
            inside(box.left, box.top, box.right, box.bottom, "\"" + one.text + "\"");
        }
        for (const Piece1& piece : pieces_)
            inside(std::min(piece.a.x, piece.b.x), std::min(piece.a.y, piece.b.y), std::max(piece.a.x, piece.b.x),
                   std::max(piece.a.y, piece.b.y), "a line");
        for (const Ring& ring : picture_.rings)
            inside(ring.x - ring.r, ring.y - ring.r, ring.x + ring.r, ring.y + ring.r, "a circle");
        for (const Pill& pill : picture_.pills)
            inside(pill.x, pill.y, pill.x + pill.w, pill.y + pill.h, "a frame");
    }

    const Picture& picture_;
    Area area_;
    std::vector<Piece1> pieces_;
    std::vector<std::string> found_;
};

} // namespace

std::vector<std::string> collisions(const Picture& picture, Area area) { return Finder(picture, area).find(); }
