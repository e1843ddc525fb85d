#include "sheet/card/housing.hpp"
#include "sheet/card/symbol.hpp"
#include "sheet/words/figure.hpp"
#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace loomsheet {

bool is_mirrored(const Part& connector, View view) {
    const bool other_half = connector.twin != none && !connector.first_half;
    return (view == View::wire_side) != other_half;
}

namespace {

constexpr double lock_height = 2.4, lock_width = 9, wall = 2;

// The hour in "at 12 o'clock", 0 when none is said.
int lock_hour(const std::string& lock) {
    const std::size_t found = lock.find("at ");
    const int hour = found == std::string::npos ? 0 : std::atoi(lock.c_str() + found + 3);
    return hour >= 1 && hour <= 12 ? hour : 0;
}

int mirrored_hour(int hour) { return hour == 0 || hour == 12 || hour == 6 ? hour : 12 - hour; }

// "lever, at 9 o'clock" as this view shows it.
std::string lock_words(const std::string& lock, bool mirrored) {
    const int hour = lock_hour(lock);
    if (!mirrored || hour == 0) return lock;
    const std::size_t digits = lock.find("at ") + 3;
    std::string turned = lock;
    turned.replace(digits, std::to_string(hour).size(), std::to_string(mirrored_hour(hour)));
    return turned;
}

struct Grid {
    int rows = 0, columns = 0;
    bool mirrored = false;
    double x = 0, y = 0, cell_w = 0, cell_h = 0;
    page::Point corner(int index) const {
        const int row = index / columns, column = index % columns;
        return {x + (mirrored ? columns - 1 - column : column) * cell_w, y + row * cell_h};
    }
};

// The place of a cavity in the grid, none when its name is no number of it.
int index_of(const Circuit& circuit, const Grid& grid, PinId cavity) {
    const std::string& name = circuit.pins[cavity].name;
    for (int i = 0; i < grid.rows * grid.columns; ++i)
        if (name == std::to_string(i + 1)) return i;
    return none;
}

bool is_probed(const Circuit& circuit, const Housing& seen, const Grid& grid, int index) {
    return std::any_of(seen.probed.begin(), seen.probed.end(),
                       [&](const Housing::Probe& probe) { return index_of(circuit, grid, probe.cavity) == index; });
}

constexpr int most_numbered = 4; // columns: with more there is room for few numbers, outside the housing

void cavities(Pen& pen, const Circuit& circuit, const Housing& seen, const Grid& grid) {
    const double gap = std::min(1.0, grid.cell_w * 0.08);
    for (int i = 0; i < grid.rows * grid.columns; ++i) {
        const page::Point at = grid.corner(i);
        const bool probed = is_probed(circuit, seen, grid, i);
        pen.rect(at.x + gap, at.y + gap, grid.cell_w - 2 * gap, grid.cell_h - 2 * gap, stroke::drawing,
                 probed ? page::Ink::black : page::Ink::none);
        if (grid.columns > most_numbered) continue;
        const Style style = grid.cell_h > 6 ? type::main : type::caption_narrow;
        pen.centre(at.x + grid.cell_w / 2, at.y + grid.cell_h / 2 + pen.half_cap(style), style, std::to_string(i + 1),
                   probed ? page::Ink::white : page::Ink::black);
    }
}

// With many columns: the probed numbers on leaders, above or, where one stands near already, below; the first and the
// last cavity where there is room.
void outside_numbers(Pen& pen, const Circuit& circuit, const Housing& seen, const Grid& grid, double above, double below) {
    constexpr double near = 8;
    const double under = below + 2 * pen.half_cap(type::main) + 0.8;
    const auto middle = [&](int index) { return grid.corner(index).x + grid.cell_w / 2; };
    std::vector<double> taken_above, taken_below;
    const auto is_free = [&](const std::vector<double>& taken, double x) {
        return std::none_of(taken.begin(), taken.end(), [&](double other) { return std::abs(other - x) < near; });
    };
    for (const Housing::Probe& probe : seen.probed) {
        const int index = index_of(circuit, grid, probe.cavity);
        if (index == none) continue;
        const double x = middle(index), cavity = grid.corner(index).y + grid.cell_h / 2;
        const bool up = is_free(taken_above, x);
        pen.centre(x, up ? above : under, type::main, circuit.pins[probe.cavity].name);
        pen.line(x, up ? above + 0.6 : under - 2 * pen.half_cap(type::main) - 0.6, x, cavity, stroke::drawing);
        (up ? taken_above : taken_below).push_back(x);
    }
    const int last = grid.rows * grid.columns - 1;
    if (is_free(taken_above, middle(0))) pen.centre(middle(0), above, type::how_bold, "1");
    if (is_free(taken_below, middle(last)) && !is_probed(circuit, seen, grid, last))
        pen.centre(middle(last), under, type::how_bold, std::to_string(last + 1));
}

// The sign of each lead under its cavity, when two are on a single row.
bool lead_signs(const Wording& say, Pen& pen, const Circuit& circuit, const Housing& seen, const Grid& grid, double y) {
    if (seen.probed.size() < 2 || grid.rows > 1 || grid.columns > most_numbered) return false;
    constexpr double height = 4.4;
    const double width = std::min(12.5, grid.cell_w - 1.2);
    for (const Housing::Probe& probe : seen.probed)
        if (pen.width(type::caption_narrow, say(probe.lead)) > width) return false;
    for (const Housing::Probe& probe : seen.probed) {
        const int index = index_of(circuit, grid, probe.cavity);
        if (index != none)
            pill(pen, grid.corner(index).x + (grid.cell_w - width) / 2, y, width, height, type::caption_narrow, say(probe.lead),
                 probe.solid);
    }
    return true;
}

void lock(Pen& pen, int hour, double x, double y, double w, double h) {
    const double middle_x = x + w / 2, middle_y = y + h / 2;
    const double wide = lock_width / 2, narrow = lock_width / 2 - 1.2;
    const auto across = [&](double edge, double away) {
        pen.path({{middle_x - wide, edge}, {middle_x + wide, edge}, {middle_x + narrow, edge + away}, {middle_x - narrow, edge + away}}, 0,
                 true, page::Ink::black);
    };
    const auto upright = [&](double edge, double away) {
        const double half = std::min(wide, h / 2);
        pen.path(
            {{edge, middle_y - half}, {edge, middle_y + half}, {edge + away, middle_y + half - 1.2}, {edge + away, middle_y - half + 1.2}},
            0, true, page::Ink::black);
    };
    if (hour == 11 || hour == 12 || hour == 1)
        across(y, -lock_height);
    else if (hour >= 5 && hour <= 7)
        across(y + h, lock_height);
    else if (hour >= 2 && hour <= 4)
        upright(x + w, lock_height);
    else if (hour >= 8 && hour <= 10)
        upright(x, -lock_height);
}

double face_drawn(const Wording& say, Pen& pen, const Circuit& circuit, const Housing& seen, double x, double y, double width,
                  double height) {
    constexpr double number_room = 4.2, sign_room = 6;
    const Part& part = circuit.parts[seen.connector];
    Grid grid{part.face_rows, part.face_columns, is_mirrored(part, seen.view)};
    const bool many = grid.columns > most_numbered;
    const int declared = lock_hour(part.lock);
    const int hour = grid.mirrored ? mirrored_hour(declared) : declared;
    const bool lock_above = hour == 11 || hour == 12 || hour == 1, lock_below = hour >= 5 && hour <= 7;
    const double room_w = width - 2 * (lock_height + wall);
    const double room_h = height - 2 * wall - lock_height - (many ? 2 * number_room : 0);
    grid.cell_w = std::min(room_w / grid.columns, 12.5);
    grid.cell_h = std::clamp(room_h / grid.rows, many ? 2.2 : 4.8, 10.0);
    const double w = grid.cell_w * grid.columns + 2 * wall, h = grid.cell_h * grid.rows + 2 * wall;
    const double left = x + (width - w) / 2, top = y + (many ? number_room : 0) + (lock_above ? lock_height : 0);
    grid.x = left + wall;
    grid.y = top + wall;
    pen.rect(left, top, w, h, stroke::box, page::Ink::none, 1.6);
    lock(pen, hour, left, top, w, h);
    cavities(pen, circuit, seen, grid);
    double end = top + h + (lock_below ? lock_height : 0);
    if (many) {
        outside_numbers(pen, circuit, seen, grid, top - (lock_above ? lock_height : 0) - 0.8, end);
        end += number_room;
    }
    return lead_signs(say, pen, circuit, seen, grid, end + 0.8) ? end + sign_room : end;
}

std::vector<std::string> captions(const Wording& say, const Circuit& circuit, const Housing& seen) {
    const Part& part = circuit.parts[seen.connector];
    std::vector<std::string> lines;
    lines.push_back(part.half.empty() ? say(Word::harness_half, part.id) : say(Word::named_half, part.id, part.half));
    lines.push_back(say(seen.view == View::wire_side ? Word::view_wire_side : Word::view_mating_face));
    const bool drawn = part.face_rows > 0 && part.face_columns > 0 && lock_hour(part.lock) > 0;
    if (!part.lock.empty() && !(seen.brief && drawn))
        lines.push_back(say(Word::lock_place, lock_words(part.lock, is_mirrored(part, seen.view))));
    return lines;
}

} // namespace

double housing(const Wording& say, Pen& pen, const Circuit& circuit, const Housing& seen, double x, double y, double width, double height) {
    const Part& part = circuit.parts[seen.connector];
    double end = y;
    if (part.face_rows > 0 && part.face_columns > 0) end = face_drawn(say, pen, circuit, seen, x, y, width, height) + 1;
    for (const std::string& caption : captions(say, circuit, seen))
        for (const std::string& line : pen.wrap(type::how_bold, width, caption)) {
            end += pen.leading(type::how_bold);
            pen.centre(x + width / 2, end - 0.6, type::how_bold, line);
        }
    return end;
}

} // namespace loomsheet
