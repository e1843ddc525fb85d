#include "sheet/housing.hpp"
#include "sheet/figure.hpp"
#include "sheet/words.hpp"
#include <algorithm>
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

bool is_probed(const Circuit& circuit, const Housing& seen, int index) {
    const std::string name = std::to_string(index + 1);
    return std::any_of(seen.probed.begin(), seen.probed.end(),
                       [&](PinId pin) { return circuit.pins[pin].name == name; });
}

// Above four columns there is room for few numbers: the probed ones and the first and last.
bool is_numbered(const Grid& grid, int index, bool probed) {
    if (grid.columns <= 4) return true;
    return !probed && (index == 0 || index == grid.rows * grid.columns - 1);
}

void cavities(Pen& pen, const Circuit& circuit, const Housing& seen, const Grid& grid) {
    const Style style = grid.columns <= 4 ? type::main : type::how_bold;
    const double gap = std::min(1.0, grid.cell_w * 0.08);
    for (int i = 0; i < grid.rows * grid.columns; ++i) {
        const page::Point at = grid.corner(i);
        const bool probed = is_probed(circuit, seen, i);
        pen.rect(at.x + gap, at.y + gap, grid.cell_w - 2 * gap, grid.cell_h - 2 * gap, stroke::drawing,
                 probed ? page::Ink::black : page::Ink::none);
        const std::string number = std::to_string(i + 1);
        if (is_numbered(grid, i, probed) && pen.width(style, number) < grid.cell_w - gap &&
            2 * half_cap(style) < grid.cell_h - gap)
            pen.centre(at.x + grid.cell_w / 2, at.y + grid.cell_h / 2 + half_cap(style), style, number,
                       probed ? page::Ink::white : page::Ink::black);
    }
}

void lock(Pen& pen, int hour, double x, double y, double w, double h) {
    const double middle_x = x + w / 2, middle_y = y + h / 2;
    const double wide = lock_width / 2, narrow = lock_width / 2 - 1.2;
    const auto across = [&](double edge, double away) {
        pen.path({{middle_x - wide, edge},
                  {middle_x + wide, edge},
                  {middle_x + narrow, edge + away},
                  {middle_x - narrow, edge + away}},
                 0, true, page::Ink::black);
    };
    const auto upright = [&](double edge, double away) {
        const double half = std::min(wide, h / 2);
        pen.path({{edge, middle_y - half},
                  {edge, middle_y + half},
                  {edge + away, middle_y + half - 1.2},
                  {edge + away, middle_y - half + 1.2}},
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

double drawing(Pen& pen, const Circuit& circuit, const Housing& seen, double x, double y, double width, double height) {
    const Part& part = circuit.parts[seen.connector];
    Grid grid{part.face_rows, part.face_columns, is_mirrored(part, seen.view)};
    const double room_w = width - 2 * (lock_height + wall), room_h = height - 2 * wall - lock_height;
    grid.cell_w = std::min(room_w / grid.columns, 11.0);
    grid.cell_h = std::min(room_h / grid.rows, 10.0);
    const double w = grid.cell_w * grid.columns + 2 * wall, h = grid.cell_h * grid.rows + 2 * wall;
    const int declared = lock_hour(part.lock);
    const int hour = grid.mirrored ? mirrored_hour(declared) : declared;
    const bool above = hour == 11 || hour == 12 || hour == 1, below = hour >= 5 && hour <= 7;
    const double left = x + (width - w) / 2, top = y + (above ? lock_height : 0);
    grid.x = left + wall;
    grid.y = top + wall;
    pen.rect(left, top, w, h, stroke::box, page::Ink::none, 1.6);
    lock(pen, hour, left, top, w, h);
    cavities(pen, circuit, seen, grid);
    return top + h + (below ? lock_height : 0);
}

std::vector<std::string> captions(const Circuit& circuit, const Housing& seen) {
    const Part& part = circuit.parts[seen.connector];
    std::vector<std::string> lines;
    lines.push_back(part.half.empty() ? say(Word::harness_half, part.id) : say(Word::named_half, part.id, part.half));
    lines.push_back(say(seen.view == View::wire_side ? Word::view_wire_side : Word::view_mating_face));
    if (!part.lock.empty()) lines.push_back(say(Word::lock_place, lock_words(part.lock, is_mirrored(part, seen.view))));
    return lines;
}

} // namespace

double housing(Pen& pen, const Circuit& circuit, const Housing& seen, double x, double y, double width, double height) {
    const Part& part = circuit.parts[seen.connector];
    double end = y;
    if (part.face_rows > 0 && part.face_columns > 0) end = drawing(pen, circuit, seen, x, y, width, height) + 1;
    for (const std::string& caption : captions(circuit, seen))
        for (const std::string& line : pen.wrap(type::how_bold, width, caption)) {
            end += leading(type::how_bold);
            pen.centre(x + width / 2, end - 0.6, type::how_bold, line);
        }
    return end;
}

} // namespace loomsheet
