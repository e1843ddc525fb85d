#include "drawing/paint/signs.hpp"
#include "drawing/scheme/measures.hpp"
#include <algorithm>

namespace loomsheet::drawing {
namespace {

constexpr double fuse_half = 1.6, coil_half = 4.3, lamp_radius = 3.8, motor_radius = 4.3;

struct SignSize {
    double height, half;
};
SignSize size_of_sign(Sign sign) {
    switch (sign) {
    case Sign::battery: return {7.6, 3.8};
    case Sign::fuse:
    case Sign::resistor: return {7.6, fuse_half};
    case Sign::breaker: return {8, 4.2};
    case Sign::coil:
    case Sign::solenoid: return {5.2, coil_half};
    case Sign::contact: return {6.8, 3.6};
    case Sign::change_over: return {7.6, 1.2};
    case Sign::motor: return {2 * motor_radius, motor_radius};
    case Sign::lamp: return {2 * lamp_radius, lamp_radius};
    case Sign::heater: return {9, 1.8};
    case Sign::horn: return {7, 5.2};
    case Sign::diode: return {4.4, 2.3};
    case Sign::ntc: return {8, 3};
    case Sign::pot: return {8, fuse_half};
    case Sign::inductor: return {8, fuse_half};
    }
    return {8, 4};
}

struct Frame {
    Sketch& sketch;
    double x, top, bottom;
    double middle() const { return (top + bottom) / 2; }
    void leads(double from, double to) const { // from the upper end to the sign, from the sign to the lower end
        sketch.line(x, top, x, from, pt::sign);
        sketch.line(x, to, x, bottom, pt::sign);
    }
};

void draw_battery(const Frame& f, bool plus_below) {
    const double y = f.middle() - 3.6;
    f.leads(y, y + 7.2);
    for (int plate = 0; plate < 4; ++plate) {
        const bool wide = (plate % 2 == 0) != plus_below;
        const double half = wide ? 3.6 : 1.9;
        f.sketch.line(f.x - half, y + 2.4 * plate, f.x + half, y + 2.4 * plate, wide ? pt::sign : 2.4);
    }
    f.sketch.line(f.x, y + 2.4, f.x, y + 4.8, pt::sign);
}

void draw_body(const Frame& f, double half, double height) {
    f.leads(f.middle() - height / 2, f.middle() + height / 2);
    f.sketch.rect(f.x - half, f.middle() - height / 2, 2 * half, height, pt::sign);
}

// At rest: an open one leans to the left, a closed one is crossed by its fixed contact's nose.
void draw_contact(const Frame& f, bool closed) {
    const double y = f.middle() - 3.2, end = f.middle() + 3.2;
    f.leads(y, end);
    if (closed) {
        f.sketch.line(f.x, end, f.x + 1.7, y + 0.2, pt::sign);
        f.sketch.line(f.x, y, f.x + 2.6, y, pt::sign);
    } else {
        f.sketch.line(f.x, end, f.x - 3.0, y + 0.4, pt::sign);
    }
}

void draw_breaker(const Frame& f) { // a contact that its own heat opens
    draw_contact(f, false);
    const double y = f.middle();
    f.sketch.path({{f.x - 3.9, y - 1.6}, {f.x - 3.9, y + 0.2}, {f.x - 2.4, y + 0.2}, {f.x - 2.4, y + 2}, {f.x - 3.9, y + 2}}, pt::sign);
}

// The common end above (or below, turned), the break end straight across, the make end in the next column.
void draw_change_over(const Frame& f, double side_x, bool turned) {
    const double up = turned ? -1 : 1, y = f.middle(), common = y - 3.2 * up, far = y + 2.6 * up;
    f.sketch.line(f.x, turned ? f.bottom : f.top, f.x, common, pt::sign);
    const double far_end = turned ? f.top : f.bottom;
    f.sketch.line(f.x, common, f.x + 1.9, far + 0.4 * up, pt::sign);
    f.sketch.path({{f.x + 2.6, far}, {f.x, far}, {f.x, far_end}}, pt::sign);
    f.sketch.path({{f.x + 4.6, far - 1 * up}, {f.x + 4.6, far}, {side_x, far}, {side_x, far_end}}, pt::sign);
}

void draw_heater(const Frame& f) {
    draw_body(f, 1.8, 9);
    for (int i = 1; i < 4; ++i)
        f.sketch.line(f.x - 1.8, f.middle() - 4.5 + 2.25 * i, f.x + 1.8, f.middle() - 4.5 + 2.25 * i, pt::sign);
}

void draw_lamp(const Frame& f) {
    f.leads(f.middle() - lamp_radius, f.middle() + lamp_radius);
    f.sketch.ring(f.x, f.middle(), lamp_radius, pt::sign);
    const double d = lamp_radius * 0.7071;
    f.sketch.line(f.x - d, f.middle() - d, f.x + d, f.middle() + d, pt::sign);
    f.sketch.line(f.x - d, f.middle() + d, f.x + d, f.middle() - d, pt::sign);
}

void draw_motor(const Frame& f) {
    f.leads(f.middle() - motor_radius, f.middle() + motor_radius);
    f.sketch.ring(f.x, f.middle(), motor_radius, pt::sign);
    f.sketch.centred(f.x, f.middle() + height_of(Type::designator) / 2, Type::designator, "M");
}

void draw_horn(const Frame& f) {
    const double y = f.middle();
    f.leads(y - 2.4, y + 2.4);
    f.sketch.rect(f.x - 1.2, y - 2.4, 2.4, 4.8, pt::sign);
    f.sketch.path({{f.x - 1.2, y - 1.2}, {f.x - 4.6, y - 3.4}, {f.x - 4.6, y + 3.4}, {f.x - 1.2, y + 1.2}}, pt::sign);
}

void draw_diode(const Frame& f, bool upward) {
    const double y = f.middle(), half = 2.1, s = upward ? -1 : 1;
    f.sketch.line(f.x, f.top, f.x, f.bottom, pt::sign);
    f.sketch.path({{f.x - half, y - 2 * s}, {f.x + half, y - 2 * s}, {f.x, y + 1.8 * s}}, pt::sign, true, Fill::white);
    f.sketch.line(f.x - half, y + 1.8 * s, f.x + half, y + 1.8 * s, pt::sign);
}

void draw_ntc(const Frame& f) { // a slanted line with a foot: changes by itself
    draw_body(f, fuse_half, 8);
    const double y = f.middle();
    f.sketch.path({{f.x - 2.9, y + 3.2}, {f.x - 1.9, y + 3.2}, {f.x + 2.7, y - 3.4}}, pt::sign);
}

void draw_pot(const Frame& f, double side_x, bool side_up) {
    draw_body(f, fuse_half, 8);
    const double y = f.middle(), x = f.x + fuse_half;
    f.sketch.path({{side_x, side_up ? f.top : f.bottom}, {side_x, y}, {x + 1.4, y}}, pt::sign);
    f.sketch.path({{x, y}, {x + 1.7, y - 0.9}, {x + 1.7, y + 0.9}}, 0, true, Fill::black);
}

void draw_inductor(const Frame& f) {
    const double y = f.middle() - 4;
    f.leads(y, y + 8);
    for (int i = 0; i < 4; ++i)
        f.sketch.arc(f.x, y + 1 + 2 * i, 1, 90, -90, pt::sign);
}

} // namespace

double height_of(Sign sign) { return size_of_sign(sign).height; }
double half_width_of(Sign sign) { return size_of_sign(sign).half; }

void draw_sign(Sketch& sketch, const Cell& cell, double x, double side_x, double top, double height) {
    const Frame f{sketch, x, top, top + height};
    switch (cell.sign) {
    case Sign::battery: return draw_battery(f, cell.turned);
    case Sign::fuse:
        sketch.line(x, f.top, x, f.bottom, pt::sign);
        return sketch.rect(x - fuse_half, f.middle() - 3.8, 2 * fuse_half, 7.6, pt::sign);
    case Sign::breaker: return draw_breaker(f);
    case Sign::coil:
    case Sign::solenoid: return draw_body(f, coil_half, 5.2);
    case Sign::contact: return draw_contact(f, cell.closed);
    case Sign::change_over: return draw_change_over(f, side_x, cell.turned);
    case Sign::motor: return draw_motor(f);
    case Sign::lamp: return draw_lamp(f);
    case Sign::heater: return draw_heater(f);
    case Sign::horn: return draw_horn(f);
    case Sign::resistor: return draw_body(f, fuse_half, 7.6);
    case Sign::diode: return draw_diode(f, cell.turned);
    case Sign::ntc: return draw_ntc(f);
    case Sign::pot: return draw_pot(f, side_x, cell.side_up);
    case Sign::inductor: return draw_inductor(f);
    }
}

void draw_ground(Sketch& sketch, double x, double y) {
    sketch.line(x, y, x, y + 1.2, pt::sign);
    sketch.line(x - mm::ground_half, y + 1.2, x + mm::ground_half, y + 1.2, pt::heavy);
    for (int i = 0; i < 3; ++i)
        sketch.line(x - 2.6 + 2.8 * i, y + 1.2, x - 3.6 + 2.8 * i + 0.3, y + 3.4, pt::sign);
}

void draw_plug(Sketch& sketch, double x, double y, bool pin_below) {
    sketch.arc(x, y, mm::plug_radius, pin_below ? 0 : 180, pin_below ? 180 : 360, pt::sign);
    sketch.rect(x - 0.45, y - (pin_below ? 0.3 : 2.0), 0.9, 2.3, 0, Fill::black);
}

} // namespace loomsheet::drawing
