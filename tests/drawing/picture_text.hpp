// A picture as text that a person reads, and goldens of such texts.
#pragma once
#include "drawing/scheme/picture.hpp"
#include <string>

// A line for each stroke, circle, frame, cover and word, in the order in which they are drawn.
std::string text_of(const loomsheet::drawing::Picture& picture);
// Of a text: the same on every machine.
std::string digest_of(const std::string& text);
// Holds `text` to be what tests/drawing/goldens/<name> has; with LOOMSHEET_REFRESH in the environment that is written.
void check_golden(const std::string& name, const std::string& text);
