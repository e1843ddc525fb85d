// What is printed, before any PDF: pages of marks in millimetres. x from the left edge, y from the TOP edge, line
// widths and type sizes in points (1 pt = 25.4/72 mm). Black on white only.
#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace loomsheet::page {

// S = sans, N = narrow; B = bold. The spare faces stand in for characters that the first four lack, `wide` for what
// those lack too: the characters of East Asia.
enum class Face : std::uint8_t { S, SB, N, NB, spare, spare_bold, wide };
inline constexpr std::size_t face_count = 7;
enum class Ink : std::uint8_t { none, black, white };

struct Point {
    double x = 0, y = 0;
};

// One run of text in one face, left end at x, baseline at y.
struct Text {
    double x = 0, y = 0;
    std::string utf8;
    Face face = Face::S;
    double pt = 9;
    double width = 0; // measured, mm
    Ink ink = Ink::black;
};
struct Line {
    double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
    double pt = 1;
    std::vector<double> dash; // mm on, off, ...; empty = solid
};
struct Rect {
    double x = 0, y = 0, w = 0, h = 0;
    double pt = 1; // 0 = no outline
    Ink fill = Ink::none;
    double round = 0; // radius of the corners
};
struct Circle {
    double x = 0, y = 0, r = 0;
    double pt = 1;
    Ink fill = Ink::none;
};
// Straight strokes through the points.
struct Path {
    std::vector<Point> points;
    double pt = 1;
    bool closed = false;
    Ink fill = Ink::none;
    std::vector<double> dash;
};
// A click on the rectangle leads to a page of this document (0 = the first).
struct Link {
    double x = 0, y = 0, w = 0, h = 0;
    std::size_t page = 0;
};
// A code that a phone reads: `side` x `side` modules over `size` mm, top left at (x, y), row by row, true = black.
struct Code {
    double x = 0, y = 0, size = 0;
    std::string words;
    std::size_t side = 0;
    std::vector<bool> black;
};
using Mark = std::variant<Text, Line, Rect, Circle, Path, Link, Code>;

// Regions that layout promises to keep apart or to fill: tests and form fields use them. Not drawn.
enum class Role : std::uint8_t { head, foot, block, card, tick, reading, outcome, field, cell };
struct Region {
    Role role = Role::block;
    double x = 0, y = 0, w = 0, h = 0;
    std::string name; // stable, such as "check plug-feed reading"
};

struct Page {
    double width = 210, height = 297;
    std::vector<Mark> marks;
    std::vector<Region> regions;
};
struct OutlineEntry {
    std::string title;
    std::size_t page = 0;
};
struct Document {
    std::string title;
    std::string language = "en";
    std::vector<Page> pages;
    std::vector<OutlineEntry> outline;
};

// The document as text, one mark a line, two decimals: what the goldens hold.
std::string dump(const Document& document);

} // namespace loomsheet::page
