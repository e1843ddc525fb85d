#include "picture_text.hpp"
#include <cstdlib>
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <fstream>
#include <sstream>

using namespace loomsheet::drawing;

namespace {

std::string number(double value) { return fmt::format("{:.2f}", value + 0.0); }

std::string look_of(const Stroke& stroke) {
    std::string words;
    switch (stroke.use) {
    case Use::wire: words = fmt::format("wire of net {}", stroke.net); break;
    case Use::symbol: words = "symbol"; break;
    case Use::outline: words = "outline"; break;
    case Use::link: words = "link"; break;
    }
    if (!stroke.dash.empty()) words += ", dashed";
    if (stroke.closed) words += ", closed";
    if (stroke.fill == Fill::black) words += ", black";
    if (stroke.fill == Fill::white) words += ", white";
    return words;
}

} // namespace

std::string text_of(const Picture& picture) {
    std::string text = fmt::format("{} x {} mm\n", number(picture.width), number(picture.height));
    for (const Stroke& stroke : picture.strokes) {
        text += fmt::format("{:3.1f} pt {}:", stroke.pt, look_of(stroke));
        for (const Spot& spot : stroke.through)
            text += " " + number(spot.x) + "," + number(spot.y);
        text += "\n";
    }
    for (const Ring& ring : picture.rings)
        text += fmt::format("{} {},{} radius {}\n", ring.fill == Fill::black ? "dot" : "circle", number(ring.x), number(ring.y),
                            number(ring.r));
    for (const Pill& pill : picture.pills)
        text += fmt::format("frame {},{} {} x {}\n", number(pill.x), number(pill.y), number(pill.w), number(pill.h));
    for (const Cover& cover : picture.covers)
        text += fmt::format("cover {},{} {} x {}\n", number(cover.x), number(cover.y), number(cover.w), number(cover.h));
    constexpr const char* types[] = {"colour", "designator", "number", "small", "bold"};
    for (const Words& words : picture.words)
        text += fmt::format("{}{} {},{}: {}\n", words.white ? "white " : "", types[static_cast<int>(words.type)], number(words.x),
                            number(words.y), words.text);
    return text;
}

std::string digest_of(const std::string& text) { // FNV-1a, 64 bits
    std::uint64_t hash = 14695981039346656037ULL;
    for (const char byte : text)
        hash = (hash ^ static_cast<unsigned char>(byte)) * 1099511628211ULL;
    return fmt::format("{:016x}", hash);
}

void check_golden(const std::string& name, const std::string& text) {
    const std::string path = LOOMSHEET_ROOT "/tests/drawing/goldens/" + name;
    if (std::getenv("LOOMSHEET_REFRESH") != nullptr) std::ofstream(path, std::ios::binary) << text;
    std::ostringstream golden;
    golden << std::ifstream(path, std::ios::binary).rdbuf();
    CHECK_MESSAGE(golden.str() == text, name << ": run this test with LOOMSHEET_REFRESH=1, then read the difference");
}
