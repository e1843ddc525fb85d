#include "sheet/code.hpp"
#include <map>
#include <memory>
#include <qrencode.h>

namespace loomsheet {

namespace {

struct DropCode {
    void operator()(QRcode* code) const { QRcode_free(code); }
};

// Null when the words are empty or too many. libqrencode splits them into the cheapest modes by itself.
std::unique_ptr<QRcode, DropCode> encode(const std::string& words) {
    constexpr int smallest_version = 0, case_counts = 1;
    return std::unique_ptr<QRcode, DropCode>(
        QRcode_encodeString(words.c_str(), smallest_version, QR_ECLEVEL_M, QR_MODE_8, case_counts));
}

} // namespace

int code_modules(const std::string& words) {
    const auto code = encode(words);
    return code ? code->width : 0;
}

bool draw_code(page::Page& page, double x, double y, double size, const std::string& words) {
    const auto code = encode(words);
    if (!code) return false;
    page::Code mark{x, y, size, words, static_cast<std::size_t>(code->width), {}};
    for (std::size_t i = 0; i < mark.side * mark.side; ++i)
        mark.black.push_back((code->data[i] & 1) != 0);
    page.marks.emplace_back(std::move(mark));
    return true;
}

std::vector<page::Rect> code_rectangles(const page::Code& code) {
    const double module = code.size / static_cast<double>(code.side);
    const auto at = [&](std::size_t count) { return module * static_cast<double>(count); };
    using Run = std::pair<std::size_t, std::size_t>; // first and past-the-last column
    std::vector<page::Rect> rectangles;
    std::map<Run, std::size_t> above; // runs of the row above -> their rectangle
    for (std::size_t row = 0; row < code.side; ++row) {
        std::map<Run, std::size_t> here;
        for (std::size_t column = 0; column < code.side; ++column) {
            const auto black = [&](std::size_t c) { return c < code.side && code.black[row * code.side + c]; };
            if (!black(column)) continue;
            Run run{column, column};
            while (black(run.second))
                ++run.second;
            column = run.second;
            const auto same = above.find(run);
            if (same != above.end()) {
                page::Rect& grown = rectangles[same->second];
                grown.h = code.y + at(row + 1) - grown.y;
                here.emplace(run, same->second);
            } else {
                here.emplace(run, rectangles.size());
                rectangles.push_back({code.x + at(run.first), code.y + at(row), at(run.second - run.first), module, 0,
                                      page::Ink::black, 0});
            }
        }
        above = std::move(here);
    }
    return rectangles;
}

} // namespace loomsheet
