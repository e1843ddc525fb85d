// A printed sheet read back by engines that others wrote: the codes by zbarimg, what is read while probing by
// tesseract, from renders as a worn copier makes them.
#include "analysis/analysis.hpp"
#include "page/axes.hpp"
#include "pdf/write.hpp"
#include "scratch.hpp"
#include "sheet/sheet.hpp"
#include <algorithm>
#include <cstdio>
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <set>
#include <sstream>

using namespace loomsheet;

namespace {

std::string said_by(const std::string& command) {
    FILE* pipe = popen((command + " 2>/dev/null").c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string said;
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe))
        said += static_cast<char>(c);
    REQUIRE(pclose(pipe) == 0);
    return said;
}

struct Printed {
    page::Document document;
    std::string path;
};
Printed printed_fan(const Scratch& scratch) {
    Sources sources;
    RealDisk disk;
    const Analysis made = analyse(sources, disk, {LOOMSHEET_ROOT "/plans/cooling/fan.plan"});
    REQUIRE(made.usable());
    std::string error;
    const std::optional<Faces> faces = Faces::load(error);
    REQUIRE_MESSAGE(faces, error);
    Printed printed{lay_out(*made.plan, *faces).document, scratch / "fan.pdf"};
    const PdfResult pdf = write_pdf(printed.document, *faces);
    REQUIRE_MESSAGE(pdf.error.empty(), pdf.error);
    scratch.write("fan.pdf", pdf.bytes);
    return printed;
}

// Black and white, as pdftoppm -mono writes it (PBM, P4).
class Bitmap {
public:
    explicit Bitmap(const std::string& bytes) {
        std::istringstream head(bytes.substr(0, 40));
        std::string kind;
        head >> kind >> width_ >> height_;
        REQUIRE(kind == "P4");
        bytes_ = bytes.substr(static_cast<std::size_t>(head.tellg()) + 1);
    }
    bool black(std::size_t x, std::size_t y) const {
        if (x >= width_ || y >= height_) return false;
        return (static_cast<unsigned char>(bytes_[y * ((width_ + 7) / 8) + x / 8]) >> (7 - x % 8)) & 1;
    }

private:
    std::size_t width_ = 0, height_ = 0;
    std::string bytes_;
};

// Words cut out of a page and set one below the other, each twice as large: what an engine made for running text needs.
class Strip {
public:
    static constexpr std::size_t scale = 2, width = 1200;
    void add(const Bitmap& page, double dpi, const page::Text& text) {
        const double px = dpi / 25.4, cap = cap_per_em * text.pt * mm_per_pt, above = cap + 1.0, below = 1.2;
        const auto x0 = static_cast<std::size_t>((text.x - 0.3) * px), y0 = static_cast<std::size_t>((text.y - above) * px);
        const auto w = static_cast<std::size_t>((text.width + 0.6) * px), h = static_cast<std::size_t>((above + below) * px);
        rows_.resize(rows_.size() + 24, std::string(width, '\xFF'));
        for (std::size_t y = 0; y < h * scale; ++y) {
            std::string row(width, '\xFF');
            for (std::size_t x = 0; x < std::min(w * scale, width - 40); ++x)
                if (page.black(x0 + x / scale, y0 + y / scale)) row[40 + x] = '\0';
            rows_.push_back(std::move(row));
        }
        words.push_back(text.utf8);
    }
    std::string graymap() const {
        std::string bytes = fmt::format("P5 {} {} 255\n", width, rows_.size());
        for (const std::string& row : rows_)
            bytes += row;
        return bytes;
    }
    std::vector<std::string> words;

private:
    std::vector<std::string> rows_;
};

// Without blanks, and with the signs that a reader cannot tell apart made one.
std::string plain(std::string text) {
    for (const auto& [from, to] : {std::pair<std::string, std::string>{"\u00A0", ""},
                                   {" ", ""},
                                   {"−", "-"},
                                   {"—", "-"},
                                   {"–", "-"},
                                   {"Ω", "Q"},
                                   {"’", "'"},
                                   {"‘", "'"}})
        for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at))
            text.replace(at, from.size(), to);
    return text;
}

} // namespace

TEST_CASE("the code of every page is read from a full-page render in black and white, at 100 and 150 dpi, and at 300") {
    const Scratch scratch;
    const Printed fan = printed_fan(scratch);
    for (const auto& [dpi, pages] :
         {std::pair<int, std::size_t>{100, fan.document.pages.size()}, {150, fan.document.pages.size()}, {300, 4}}) {
        CAPTURE(dpi);
        const std::string read =
            said_by(fmt::format("cd '{0}' && rm -f code-* && pdftoppm -r {1} -mono -l {2} fan.pdf code && zbarimg -q --raw code-*.pbm",
                                scratch.path.string(), dpi, pages));
        for (std::size_t i = 0; i < pages; ++i) {
            const auto& marks = fan.document.pages[i].marks;
            const auto code =
                std::find_if(marks.begin(), marks.end(), [](const page::Mark& mark) { return std::holds_alternative<page::Code>(mark); });
            REQUIRE(code != marks.end());
            CHECK_MESSAGE(read.find(std::get<page::Code>(*code).words + "\n") != std::string::npos, "page ", i + 1);
        }
    }
}

TEST_CASE("tesseract reads 98 of 100 limits and pin names from a 150 dpi copy in black and white") {
    constexpr int dpi = 150, last = 10;
    const Scratch scratch;
    const Printed fan = printed_fan(scratch);
    said_by(fmt::format("cd '{}' && pdftoppm -r {} -mono -l {} fan.pdf page", scratch.path.string(), dpi, last));
    Strip strip;
    std::set<std::string> once;
    for (int number = 1; number <= last; ++number) {
        const std::string file = fmt::format("page-{:02}.pbm", number);
        const Bitmap bitmap(read_file(scratch / file));
        for (const page::Mark& mark : fan.document.pages[static_cast<std::size_t>(number) - 1].marks) {
            const auto* text = std::get_if<page::Text>(&mark);
            if (!text || text->ink != page::Ink::black) continue;
            const bool pin = text->face == page::Face::SB && text->pt == usual_sizes.pt(type::pin),
                       limit = text->face == page::Face::NB && text->pt == usual_sizes.pt(type::limit);
            if ((pin || limit) && once.insert(text->utf8).second) strip.add(bitmap, dpi, *text);
        }
    }
    REQUIRE(strip.words.size() > 30);
    scratch.write("strip.pgm", strip.graymap());
    std::istringstream lines(said_by(fmt::format("tesseract '{}' - --psm 6 --dpi 300", scratch / "strip.pgm")));
    std::vector<std::string> read;
    for (std::string line; std::getline(lines, line);)
        if (!plain(line).empty()) read.push_back(plain(line));
    std::size_t right = 0;
    for (const std::string& words : strip.words) {
        const bool found = std::find(read.begin(), read.end(), plain(words)) != read.end();
        right += found ? 1 : 0;
        if (!found) MESSAGE("not read: " << words);
    }
    MESSAGE(right << " of " << strip.words.size() << " read right");
    CHECK(static_cast<double>(right) >= 0.98 * static_cast<double>(strip.words.size()));
}
