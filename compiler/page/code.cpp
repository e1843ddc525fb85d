#include "page/code.hpp"
#include <map>
#include <memory>
#include <qrencode.h>

namespace loomsheet {

namespace {

struct DropCode {
    void operator()(QRcode* code) const { QRcode_free(code); }
};

using Made = std::unique_ptr<QRcode, DropCode>;

// Null when the words are empty or too many. libqrencode splits them into the cheapest modes by itself. Level M mends
// 15 %, level L 7 %: L is taken where it has fewer, larger modules.
Made encode(const std::string& words) {
    constexpr int smallest_version = 0, case_counts = 1;
    const auto made = [&](QRecLevel level) {
        return Made(QRcode_encodeString(words.c_str(), smallest_version, level, QR_MODE_8, case_counts));
    };
    Made strong = made(QR_ECLEVEL_M), large = made(QR_ECLEVEL_L);
    return large && (!strong || large->width < strong->width) ? std::move(large) : std::move(strong);
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

std::vector<BlackModules> black_modules(const page::Code& code) {
    using Run = std::pair<std::size_t, std::size_t>; // first and past-the-last column
    std::vector<BlackModules> found;
    std::map<Run, std::size_t> above; // runs of the row above -> where they stand in `found`
    for (std::size_t row = 0; row < code.side; ++row) {
        std::map<Run, std::size_t> here;
        const auto black = [&](std::size_t column) { return column < code.side && code.black[row * code.side + column]; };
        for (std::size_t column = 0; column < code.side; ++column) {
            if (!black(column)) continue;
            Run run{column, column};
            while (black(run.second))
                ++run.second;
            column = run.second;
            if (const auto same = above.find(run); same != above.end()) {
                ++found[same->second].rows;
                here.insert(*same);
            } else {
                here.emplace(run, found.size());
                found.push_back({run.first, row, run.second - run.first, 1});
            }
        }
        above = std::move(here);
    }
    return found;
}

} // namespace loomsheet
