// What the tests of the PDF room share: faces, a dense document, other people's readers, pictures.
#pragma once
#include "pdf/write.hpp"
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace help {

const loomsheet::Faces& faces();
// ":folder:folder" of the typefaces in use, to stand behind a folder of the test's own in $LOOMSHEET_FONTS.
std::string font_folders();

// A folder of this run, taken away at its end.
const std::filesystem::path& folder();
std::string save(const std::string& name, std::string_view bytes); // its path
std::string read(const std::filesystem::path& path);

struct Said {
    int status = -1;
    std::string out; // standard output, and standard error unless the command sends it away
};
Said run(const std::string& command);

// Writes the document, requires that it went well, gives the path of the file.
std::string print(const loomsheet::page::Document& document, const std::string& name);

// One page of 127 x 25.4 mm with one text, left end at (10, 15) mm.
loomsheet::page::Document one_line(loomsheet::page::Face face, double pt, std::string_view utf8);
// Four pages with every kind of mark and all faces: 12 cards with tick boxes, fields, outcomes, pins, codes, links.
loomsheet::page::Document dense_document();

// What the page says, split at blanks, sorted. Runs that touch belong together.
std::vector<std::string> words_of(const loomsheet::page::Page& page);
std::vector<std::string> split(std::string_view text); // the same for what a reader found

struct Area {
    double x = 0, y = 0, w = 0, h = 0; // mm from the left and top edges
};
// Grey, 0 = black.
struct Picture {
    std::size_t width = 0, height = 0;
    std::vector<std::uint8_t> grey;
    int at(std::size_t x, std::size_t y) const { return grey[y * width + x]; }
    // How much black lies there, in black pixels.
    double ink(double dpi, const Area& area) const;
};
Picture poppler_picture(const std::string& pdf, int dpi);
Picture mupdf_picture(const std::string& pdf, int dpi);
// How far two pictures of the same size differ there, over the ink that the first has there: 0 = the same, 1 = as far
// as that picture is from white paper.
double difference(const Picture& one, const Picture& other, double dpi, const Area& area);

} // namespace help
