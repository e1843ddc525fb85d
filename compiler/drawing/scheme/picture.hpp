// One page of a drawing: strokes, circles and words, in millimetres from the upper left corner of its area; line widths
// in points. Knows neither paper nor typefaces.
#pragma once
#include "model/circuit.hpp"
#include <functional>
#include <string>
#include <vector>

namespace loomsheet::drawing {

// What is written, by its role. Colours are read while probing: their capitals are 3 mm high and more.
enum class Type : std::uint8_t { colour, designator, number, small, small_bold };

// How wide a text is in print, and where it breaks into lines of at most `room` mm.
struct Measure {
    std::function<double(Type, const std::string&)> width;
    std::function<std::vector<std::string>(Type, double room, const std::string&)> wrap;
};
// How a drawing is written: tried one after the other, the roomiest first.
struct Manner {
    bool one_line = false;      // colour and size of a wire side by side
    bool names_left = false;    // pins left of their wires, whose words then stand on the same height
    bool upright_marks = false; // numbers of checks one above the other
};
double size_of(Type type);   // points
double height_of(Type type); // of capitals, mm
double pitch_of(Type type);  // from line to line, mm

struct Spot {
    double x = 0, y = 0;
};
enum class Use : std::uint8_t { wire, symbol, outline, link };
enum class Fill : std::uint8_t { none, black, white };
struct Stroke {
    std::vector<Spot> through;
    double pt = 1;
    Use use = Use::symbol;
    int net = none; // of wires: those with the same number are joined
    bool closed = false;
    Fill fill = Fill::none;
    std::vector<double> dash;
};
struct Ring { // a circle
    double x = 0, y = 0, r = 0, pt = 1;
    Fill fill = Fill::none;
};
struct Pill { // a frame with round ends
    double x = 0, y = 0, w = 0, h = 0, pt = 1;
};
struct Words {
    double x = 0, y = 0, width = 0; // left end, baseline
    Type type = Type::small;
    std::string text;
    bool white = false; // on black
};
// What a symbol covers with its outline: no foreign wire may enter.
struct Cover {
    double x = 0, y = 0, w = 0, h = 0;
};
struct Picture {
    double width = 0, height = 0; // what is drawn lies within
    std::vector<Stroke> strokes;
    std::vector<Ring> rings;
    std::vector<Pill> pills;
    std::vector<Words> words;
    std::vector<Cover> covers;
    std::vector<WireId> wires; // those that are drawn here
    std::vector<PinId> pins;
};

} // namespace loomsheet::drawing
