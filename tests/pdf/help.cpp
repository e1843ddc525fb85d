#include "help.hpp"
#include "page/code.hpp"
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <fstream>
#include <iterator>
#include <sys/wait.h>

using namespace loomsheet;
using page::Face, page::Ink;

namespace help {

const Faces& faces() {
    static std::string error;
    static const std::optional<Faces> loaded = Faces::load(error);
    REQUIRE_MESSAGE(loaded, error);
    return *loaded;
}

const std::filesystem::path& folder() {
    static const struct Folder {
        std::filesystem::path path;
        Folder() {
            std::string pattern = (std::filesystem::temp_directory_path() / "loomsheet-pdf-XXXXXX").string();
            REQUIRE(mkdtemp(pattern.data()) != nullptr);
            path = pattern;
        }
        ~Folder() {
            std::error_code ignored;
            std::filesystem::remove_all(path, ignored);
        }
    } made;
    return made.path;
}

std::string font_folders() {
    const auto of = [](page::Face face) { return ":" + std::filesystem::path(faces().file(face)).parent_path().string(); };
    return of(page::Face::S) + of(page::Face::spare);
}

std::string save(const std::string& name, std::string_view bytes) {
    const std::filesystem::path path = folder() / name;
    std::ofstream(path, std::ios::binary) << bytes;
    return path.string();
}

std::string read(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    REQUIRE_MESSAGE(file, path.string());
    return {(std::istreambuf_iterator<char>(file)), {}};
}

Said run(const std::string& command) {
    FILE* pipe = popen(("( " + command + " ) 2>&1").c_str(), "r");
    REQUIRE(pipe != nullptr);
    Said said;
    std::array<char, 4096> part;
    for (std::size_t got = 0; (got = fread(part.data(), 1, part.size(), pipe)) > 0;)
        said.out.append(part.data(), got);
    const int status = pclose(pipe);
    said.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    return said;
}

std::string print(const page::Document& document, const std::string& name) {
    const PdfResult result = write_pdf(document, faces());
    REQUIRE_MESSAGE(result.error.empty(), result.error);
    return save(name, result.bytes);
}

page::Document one_line(Face face, double pt, std::string_view utf8) {
    page::Document document;
    document.title = "One line";
    page::Page page{127, 25.4, {}, {}};
    for (page::Text& run : faces().runs(10, 15, face, pt, utf8))
        page.marks.emplace_back(std::move(run));
    document.pages = {std::move(page)};
    return document;
}

namespace {

void say(page::Page& page, double x, double y, Face face, double pt, std::string_view words, Ink ink = Ink::black) {
    for (page::Text& run : faces().runs(x, y, face, pt, words, ink))
        page.marks.emplace_back(std::move(run));
}

void card(page::Page& page, double y, std::size_t number, std::size_t next_page) {
    page.marks.emplace_back(page::Line{18, y, 198, y, 2, {}});
    page.marks.emplace_back(page::Rect{18, y, 11.5, 11.5, 0, Ink::black, 0});
    say(page, 20, y + 9, Face::SB, 26, fmt::format("{}", number % 10), Ink::white);
    say(page, 32.5, y + 8, Face::SB, 16, "Supply and ground at the fan plug, under load");
    for (double row = y + 16.5; row < y + 60; row += 10) {
        page.marks.emplace_back(page::Rect{22.5, row, 7, 7, 1.25, Ink::none, 0});
        say(page, 32.5, row + 3.5, Face::NB, 13, "X21 unplugged");
        say(page, 32.5, row + 7.7, Face::N, 10.5, "lock at 12 o’clock, grüne Öse");
    }
    page.marks.emplace_back(page::Line{72.2, y + 15.5, 72.2, y + 77.5, 1, {}});
    page.marks.emplace_back(page::Line{75, y + 46.5, 198, y + 46.5, 1, {3, 2}});
    page.marks.emplace_back(page::Rect{75, y + 15, 17, 8, 2, Ink::white, 1.6});
    say(page, 78, y + 20.6, Face::SB, 13, "RED");
    say(page, 95, y + 21, Face::SB, 20, "X21.1");
    say(page, 124, y + 21, Face::NB, 18, "BU/WH");
    page.marks.emplace_back(page::Rect{75, y + 58.5, 44.3, 19, 2, Ink::none, 0});
    say(page, 112, y + 75, Face::SB, 16, "V");
    for (int pin = 0; pin < 56; ++pin) {
        page.marks.emplace_back(page::Circle{169 + pin % 14 * 2.1, y + 18 + pin / 14 * 3.0, 0.8, 0.75, Ink::none});
    }
    for (double row = y + 52.3; row < y + 75; row += 10) {
        page.marks.emplace_back(page::Circle{128.2, row, 4, 1.5, Ink::none});
        say(page, 136, row + 1.9, Face::NB, 16, "11.8 … 12.6\u00A0V");
        say(page, 136, row + 5.4, Face::N, 10.5, "Ground side, page 2");
        page.marks.emplace_back(page::Path{{{178.5, row}, {185, row}}, 1, false, Ink::none, {}});
        page.marks.emplace_back(page::Path{{{185, row}, {183, row - 1}, {183, row + 1}}, 0, true, Ink::black, {}});
        page.marks.emplace_back(page::Rect{190, row - 4, 8, 8, 0, Ink::black, 0});
        say(page, 192, row + 2.2, Face::SB, 16, "7", Ink::white);
        page.marks.emplace_back(page::Link{178, row - 4, 20, 8, next_page});
    }
    page.marks.emplace_back(page::Line{18, y + 79.3, 198, y + 79.3, 1, {}});
    say(page, 32.5, y + 83.6, Face::NB, 10.5, "If it fails:");
    say(page, 75, y + 83.6, Face::N, 10.5, "wire W7 BU/WH, contact X30.1, crimp X21.1; coil 85\u00A0Ω ±10\u00A0%, 6\u00A0mm² ✓");
}

} // namespace

page::Document dense_document() {
    page::Document document;
    document.title = "Radiator fan — does not run";
    constexpr std::size_t pages = 4;
    for (std::size_t i = 0; i < pages; ++i) {
        page::Page page;
        say(page, 18, 9.2, Face::SB, 16, "FAN-01");
        say(page, 44, 9.2, Face::SB, 10.5, "Radiator fan does not run");
        say(page, 44, 14.2, Face::S, 9, "Tarn 1.6 hatch, revision 3");
        page.marks.emplace_back(page::Rect{137, 4.2, 30, 12.6, 1, Ink::none, 0});
        REQUIRE(draw_code(page, 185, 4.2, 12.6, fmt::format("FAN-01 R3 P{}/4 7C1E09A4", i + 1)));
        for (std::size_t n = 0; n < 3; ++n)
            card(page, 20 + 88 * static_cast<double>(n), 3 * i + n + 1, (i + 1) % pages);
        page.marks.emplace_back(page::Line{18, 286, 198, 286, 1, {}});
        say(page, 18, 290.4, Face::SB, 9, "FAN-01 ǖ ⇉");
        document.pages.push_back(std::move(page));
        document.outline.push_back({fmt::format("Checks – page {}", i + 1), i});
    }
    return document;
}

std::vector<std::string> split(std::string_view text) {
    std::vector<std::string> words(1);
    for (std::size_t at = 0; at < text.size(); ++at) {
        const bool held = text.substr(at, 2) == "\u00A0";
        if (held || std::string_view(" \t\n\r\f").find(text[at]) != std::string_view::npos) {
            words.emplace_back();
            at += held ? 1 : 0;
        } else {
            words.back() += text[at];
        }
    }
    std::erase(words, "");
    std::sort(words.begin(), words.end());
    return words;
}

std::vector<std::string> words_of(const page::Page& page) {
    std::string all;
    const page::Text* before = nullptr;
    for (const page::Mark& mark : page.marks) {
        const auto* text = std::get_if<page::Text>(&mark);
        if (text == nullptr) continue;
        const bool touches = before != nullptr && before->y == text->y && std::abs(before->x + before->width - text->x) < 1e-6;
        if (!touches) all += ' ';
        all += text->utf8;
        before = text;
    }
    return split(all);
}

namespace {

Picture read_picture(const std::string& path) {
    const std::string bytes = read(path);
    Picture picture;
    int start = 0, most = 0;
    REQUIRE(std::sscanf(bytes.c_str(), "P5 %zu %zu %d%n", &picture.width, &picture.height, &most, &start) == 3);
    REQUIRE(most == 255);
    picture.grey.assign(bytes.begin() + start + 1, bytes.end());
    REQUIRE(picture.grey.size() == picture.width * picture.height);
    return picture;
}

} // namespace

Picture poppler_picture(const std::string& pdf, int dpi) {
    const Said said = run(fmt::format("pdftoppm -r {} -gray -singlefile '{}' '{}'", dpi, pdf, pdf));
    REQUIRE_MESSAGE((said.status == 0 && said.out.empty()), said.out);
    return read_picture(pdf + ".pgm");
}

Picture mupdf_picture(const std::string& pdf, int dpi) {
    const Said said = run(fmt::format("mutool draw -q -r {} -c gray -o '{}.mu.pgm' '{}' 1", dpi, pdf, pdf));
    REQUIRE_MESSAGE(said.status == 0, said.out);
    return read_picture(pdf + ".mu.pgm");
}

namespace {

template <class Work>
void for_pixels(const Picture& picture, double dpi, const Area& area, Work work) {
    const auto pixel = [&](double mm) { return static_cast<std::size_t>(std::lround(mm / 25.4 * dpi)); };
    for (std::size_t y = pixel(area.y); y < std::min(picture.height, pixel(area.y + area.h)); ++y) {
        for (std::size_t x = pixel(area.x); x < std::min(picture.width, pixel(area.x + area.w)); ++x)
            work(x, y);
    }
}

} // namespace

double Picture::ink(double dpi, const Area& area) const {
    double sum = 0;
    for_pixels(*this, dpi, area, [&](std::size_t x, std::size_t y) { sum += 255 - at(x, y); });
    return sum / 255;
}

double difference(const Picture& one, const Picture& other, double dpi, const Area& area) {
    REQUIRE(one.width == other.width);
    REQUIRE(one.height == other.height);
    double apart = 0;
    for_pixels(one, dpi, area, [&](std::size_t x, std::size_t y) { apart += std::abs(one.at(x, y) - other.at(x, y)); });
    const double ink = one.ink(dpi, area);
    REQUIRE(ink > 0);
    return apart / 255 / ink;
}

} // namespace help
