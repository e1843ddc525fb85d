// The checks as a map: each a box with number and title, what passes leads down, all else to the right; verdicts and
// stops are ends with signs of their own. A check that is reached from several stands once; elsewhere its number stands
// alone, black.
#pragma once
#include "drawing/drawing.hpp"

namespace loomsheet::drawing {

enum class WayEnd : std::uint8_t { check, verdict, stop, done };
struct MapWay { // an outcome
    std::string label;
    bool pass = false;
    WayEnd end = WayEnd::stop;
    int check = none;        // index among those of the map
    std::string sign, title; // of an end: "B", "The battery is flat"; "STOP"
};
struct MapCheck {
    int number = 0;
    std::string title;
    std::vector<MapWay> ways; // the passing one first
};
// `checks` in the order of their numbers. One picture a page.
std::vector<Picture> draw_map(const std::vector<MapCheck>& checks, const Measure& measure, Area area);

} // namespace loomsheet::drawing
