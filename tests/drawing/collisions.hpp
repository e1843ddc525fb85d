// What lies on one another in a picture, measured on what is drawn: words on words, words on lines, wires on wires,
// wires through symbols, anything outside the area. One line of text a collision.
#pragma once
#include "drawing/drawing.hpp"
#include <string>
#include <vector>

std::vector<std::string> collisions(const loomsheet::drawing::Picture& picture, loomsheet::drawing::Area area);
