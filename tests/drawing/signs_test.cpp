// The signs: each within what it says it covers, its leads from edge to edge.
#include "drawing/paint/signs.hpp"
#include "drawing/scheme/measures.hpp"
#include "hand.hpp"
#include "picture_text.hpp"
#include <algorithm>
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::drawing;

namespace {

struct Named {
    Sign sign;
    const char* name;
};
constexpr Named rows[] = {
    {Sign::battery, "battery"},   {Sign::fuse, "fuse"},       {Sign::breaker, "breaker"},
    {Sign::coil, "coil"},         {Sign::contact, "contact"}, {Sign::change_over, "change-over"},
    {Sign::motor, "motor"},       {Sign::lamp, "lamp"},       {Sign::heater, "heater"},
    {Sign::solenoid, "solenoid"}, {Sign::horn, "horn"},       {Sign::resistor, "resistor"},
    {Sign::diode, "diode"},       {Sign::ntc, "ntc"},         {Sign::pot, "pot"},
    {Sign::inductor, "inductor"},
};
static_assert(std::size(rows) == static_cast<std::size_t>(Sign::inductor) + 1);

constexpr double x = 100, side_x = 112, top = 50, height = 14;

Picture drawn(const Cell& cell) {
    Picture picture;
    Sketch sketch(picture, hand::measure());
    draw_sign(sketch, cell, x, side_x, top, height);
    return picture;
}
Cell cell_of(Sign sign) {
    Cell cell;
    cell.sign = sign, cell.top = 0, cell.bottom = 1;
    if (sign == Sign::change_over || sign == Sign::pot) cell.side = 2;
    return cell;
}
struct Box {
    double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
    void take(double px, double py) {
        left = std::min(left, px), right = std::max(right, px), top = std::min(top, py), bottom = std::max(bottom, py);
    }
};
Box box_of(const Picture& picture, bool leads) {
    Box box;
    for (const Stroke& stroke : picture.strokes) {
        const bool lead =
            std::all_of(stroke.through.begin(), stroke.through.end(), [](const Spot& spot) { return spot.x == x || spot.x == side_x; });
        if (lead && !leads) continue;
        for (const Spot& spot : stroke.through)
            box.take(spot.x, spot.y);
    }
    for (const Ring& ring : picture.rings)
        box.take(ring.x - ring.r, ring.y - ring.r), box.take(ring.x + ring.r, ring.y + ring.r);
    return box;
}

} // namespace

TEST_CASE("each sign lies within its half width and its height, in the middle between its leads") {
    for (const Named& row : rows) {
        CAPTURE(std::string(row.name));
        const Picture picture = drawn(cell_of(row.sign));
        const Box all = box_of(picture, true), body = box_of(picture, false);
        CHECK(all.top == doctest::Approx(top));
        CHECK(all.bottom == doctest::Approx(top + height));
        CHECK(x - body.left <= half_width_of(row.sign) + 0.05);
        if (cell_of(row.sign).side == none) {
            CHECK(body.right - x <= half_width_of(row.sign) + 0.05);
            CHECK(body.bottom - body.top <= height_of(row.sign) + 0.05);
            CHECK(body.bottom - body.top >= height_of(row.sign) - 2);
        }
    }
}

TEST_CASE("what can be turned is: a diode, a battery, a change-over; a closed contact differs from an open one") {
    for (const Sign sign : {Sign::diode, Sign::battery, Sign::change_over}) {
        Cell turned = cell_of(sign);
        turned.turned = true;
        CHECK(text_of(drawn(turned)) != text_of(drawn(cell_of(sign))));
    }
    Cell closed = cell_of(Sign::contact);
    closed.closed = true;
    CHECK(box_of(drawn(closed), false).right > x + 2); // leans to the fixed contact's nose
    CHECK(box_of(drawn(cell_of(Sign::contact)), false).left < x - 2);
    Cell up = cell_of(Sign::pot);
    up.side_up = true;
    CHECK(text_of(drawn(up)) != text_of(drawn(cell_of(Sign::pot))));
}

TEST_CASE("the strokes of all signs, to be read beside a printed drawing") {
    std::string text;
    for (const Named& row : rows)
        text += std::string(row.name) + "\n" + text_of(drawn(cell_of(row.sign)));
    for (const Sign sign : {Sign::battery, Sign::diode, Sign::change_over}) {
        Cell turned = cell_of(sign);
        turned.turned = true;
        text += std::string(rows[static_cast<std::size_t>(sign)].name) + ", turned\n" + text_of(drawn(turned));
    }
    Cell closed = cell_of(Sign::contact);
    closed.closed = true;
    text += "contact, closed\n" + text_of(drawn(closed));
    Picture rest;
    Sketch sketch(rest, hand::measure());
    draw_ground(sketch, x, top);
    draw_plug(sketch, x, top, true);
    draw_plug(sketch, x, top, false);
    check_golden("signs.txt", text + "ground and both plugs\n" + text_of(rest));
}

TEST_CASE("a sketch leaves out lines without length and words without letters") {
    Picture picture;
    Sketch sketch(picture, hand::measure());
    sketch.line(1, 1, 1, 1, 1);
    sketch.words(1, 1, Type::small, "");
    sketch.centred(1, 1, Type::small, "");
    CHECK(picture.strokes.empty());
    CHECK(picture.words.empty());
    sketch.centred(50, 1, Type::small, "four", true);
    CHECK(picture.words[0].x == doctest::Approx(46));
    CHECK(picture.words[0].white);
    sketch.arc(10, 10, 2, 0, 90, 1); // from the right to the top
    CHECK(picture.strokes[0].through.front().x == doctest::Approx(12));
    CHECK(picture.strokes[0].through.back().y == doctest::Approx(8));
}
