// What the readers of a PDF cannot tell from its text: whether the glyphs are whole.
#include "help.hpp"
#include "page/code.hpp"
#include "pdf/objects.hpp"
#include <array>
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <harfbuzz/hb.h>
#include <iterator>

using namespace loomsheet;
using page::Face;

namespace {

constexpr const char* accented = "é à ü š Ѐ ǖ";
constexpr const char* bare = "e a u s Е u";
constexpr double pt = 24, left = 10, pitch = 12.7; // of the rows, mm; 36 pt, as mutool makes pages of whole points
constexpr int dpi = 500;

// A row of letters that stand alone between blanks.
struct Row {
    Face face;
    std::string words;
    double y; // baseline
    std::string told() const { return help::faces().file(face) + " " + words; }
};
// Each text in each face.
std::vector<Row> rows_of(std::initializer_list<std::string> texts) {
    std::vector<Row> rows;
    for (const Face face : {Face::S, Face::SB, Face::N, Face::NB, Face::spare, Face::spare_bold}) {
        for (const std::string& words : texts)
            rows.push_back({face, words, pitch * static_cast<double>(rows.size() + 1)});
    }
    return rows;
}
page::Document document_of(const std::vector<Row>& rows) {
    page::Page page{127, pitch * static_cast<double>(rows.size() + 1), {}, {}};
    for (const Row& row : rows) {
        for (page::Text& run : help::faces().runs(left, row.y, row.face, pt, row.words))
            page.marks.emplace_back(std::move(run));
    }
    page::Document document;
    document.pages = {std::move(page)};
    return document;
}

// The same page drawn another way: the outlines of the font file as filled paths, placed by the file's own widths, with
// no font in the PDF at all. Runs as layout cuts them.
std::string outlines_of(const page::Document& document, const std::string& name) {
    std::string operators;
    for (const page::Mark& mark : document.pages[0].marks) {
        const auto& text = std::get<page::Text>(mark);
        hb_face_t* face = help::faces().data(text.face);
        hb_font_t* font = hb_font_create(face);
        struct Pen {
            std::string& out;
            double scale, x, y;
            void point(double px, double py) { fmt::format_to(std::back_inserter(out), "{:.4f} {:.4f} ", x + px * scale, y + py * scale); }
            void curve(double x1, double y1, double x2, double y2, double x3, double y3) {
                point(x1, y1), point(x2, y2), point(x3, y3);
                out += "c\n";
            }
        } pen{operators, text.pt / hb_face_get_upem(face), text.x / mm_per_pt, (document.pages[0].height - text.y) / mm_per_pt};
        hb_draw_funcs_t* draw = hb_draw_funcs_create();
        const auto move = [](hb_draw_funcs_t*, void* to, hb_draw_state_t*, float x, float y, void*) {
            static_cast<Pen*>(to)->point(x, y);
            static_cast<Pen*>(to)->out += "m\n";
        };
        const auto line = [](hb_draw_funcs_t*, void* to, hb_draw_state_t*, float x, float y, void*) {
            static_cast<Pen*>(to)->point(x, y);
            static_cast<Pen*>(to)->out += "l\n";
        };
        const auto quadratic = [](hb_draw_funcs_t*, void* to, hb_draw_state_t* at, float cx, float cy, float x, float y, void*) {
            const double sx = at->current_x, sy = at->current_y;
            static_cast<Pen*>(to)->curve(sx + (cx - sx) * 2 / 3, sy + (cy - sy) * 2 / 3, x + (cx - x) * 2 / 3, y + (cy - y) * 2 / 3, x, y);
        };
        hb_draw_funcs_set_move_to_func(draw, move, nullptr, nullptr);
        hb_draw_funcs_set_line_to_func(draw, line, nullptr, nullptr);
        hb_draw_funcs_set_quadratic_to_func(draw, quadratic, nullptr, nullptr);
        hb_buffer_t* characters = hb_buffer_create();
        hb_buffer_add_utf8(characters, text.utf8.c_str(), -1, 0, -1);
        unsigned count = 0;
        const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(characters, &count);
        for (unsigned i = 0; i < count; ++i) {
            hb_codepoint_t glyph = 0;
            REQUIRE(hb_font_get_nominal_glyph(font, infos[i].codepoint, &glyph));
            hb_font_get_glyph_shape(font, glyph, draw, &pen);
            operators += "f\n";
            pen.x += hb_font_get_glyph_h_advance(font, glyph) * pen.scale;
        }
        hb_buffer_destroy(characters);
        hb_draw_funcs_destroy(draw);
        hb_font_destroy(font);
    }
    PdfObjects objects;
    HPDF_Page page = objects.made(HPDF_AddPage(objects.doc()));
    objects.done(HPDF_Page_SetWidth(page, static_cast<HPDF_REAL>(document.pages[0].width / mm_per_pt)));
    objects.done(HPDF_Page_SetHeight(page, static_cast<HPDF_REAL>(document.pages[0].height / mm_per_pt)));
    objects.fill(static_cast<HPDF_PageAttr>(page->attr)->contents, operators);
    return help::save(name, objects.save());
}

// The letters of a row with the place of the whole letter and of what lies above its body (a small letter is 0.53 to
// 0.56 em high, a capital 0.69 to 0.73).
struct Letter {
    std::string utf8;
    help::Area whole, accent;
};
std::vector<Letter> letters_of(const Row& row) {
    constexpr double above = 10.4, below = 2.2;
    std::vector<Letter> letters;
    double x = left;
    for (std::size_t start = 0; start < row.words.size();) {
        const std::size_t end = std::min(row.words.find(' ', start), row.words.size());
        const std::string letter = row.words.substr(start, end - start);
        const double wide = help::faces().runs_width(row.face, pt, letter);
        const double body = pt * mm_per_pt * (letter == "Ѐ" || letter == "Е" ? 0.75 : 0.58);
        letters.push_back({letter, {x, row.y - above, wide, above + below}, {x, row.y - above, wide, above - body}});
        x += wide + help::faces().runs_width(row.face, pt, " ");
        start = end + 1;
    }
    return letters;
}

struct Reader {
    std::string name;
    help::Picture (*picture)(const std::string& pdf, int dpi);
};
const std::array readers{Reader{"poppler", &help::poppler_picture}, Reader{"mupdf", &help::mupdf_picture}};

// For each letter of each row, as each reader sees it in both files.
template <class Check>
void compare(const std::vector<Row>& rows, const std::string& expected, const std::string& printed, Check check) {
    for (const Reader& reader : readers) {
        const help::Picture one = reader.picture(expected, dpi), other = reader.picture(printed, dpi);
        for (const Row& row : rows) {
            const std::string told = reader.name + " " + row.told();
            for (const Letter& letter : letters_of(row)) {
                INFO(told << ": " << letter.utf8);
                check(one, other, letter);
            }
        }
    }
}

} // namespace

TEST_CASE("every accent leaves ink above its letter") {
    const auto with = rows_of({accented}), without = rows_of({bare});
    const std::string accents = help::print(document_of(with), "accents.pdf"), letters = help::print(document_of(without), "letters.pdf");
    compare(with, accents, accents,
            [](const help::Picture& seen, const help::Picture&, const Letter& letter) { CHECK(seen.ink(dpi, letter.accent) > 100); });
    compare(without, letters, letters,
            [](const help::Picture& seen, const help::Picture&, const Letter& letter) { CHECK(seen.ink(dpi, letter.accent) < 1); });
}

TEST_CASE("the printed glyphs are the outlines of the font file") {
    const auto rows = rows_of({accented, "Ö ß Å Ż ę ő Ř ½", "Ω ± ≥ → ⇉ ✓ ²"});
    const page::Document document = document_of(rows);
    // A font is set on the grid of the pixels, so edges differ a little; a lost accent differs by 1.
    compare(rows, outlines_of(document, "outlines.pdf"), help::print(document, "glyphs.pdf"),
            [](const help::Picture& expected, const help::Picture& found, const Letter& letter) {
                CHECK(help::difference(expected, found, dpi, letter.whole) < 0.2);
                const bool has_accent = std::string_view(accented).find(letter.utf8) != std::string_view::npos;
                if (has_accent) CHECK(help::difference(expected, found, dpi, letter.accent) < 0.3);
            });
}

TEST_CASE("mupdf sets the font files itself, and the picture is the same") {
    // A page that mupdf makes from the original files in its Latin encoding (Windows 1252).
    const auto rows = rows_of({"é à ü š Ä Ö"});
    const page::Document document = document_of(rows);
    const double height = document.pages[0].height / mm_per_pt;
    std::string fonts, texts;
    for (const Row& row : rows) {
        const int number = static_cast<int>(row.face);
        fonts += fmt::format("%%Font F{} {} Latin\n", number, help::faces().file(row.face));
        texts += fmt::format("BT /F{} {} Tf {:.4f} {:.4f} Td <E920E020FC209A20C420D6> Tj ET\n", number, pt, left / mm_per_pt,
                             height - row.y / mm_per_pt);
    }
    const std::string script = help::save("page.txt", fmt::format("%%MediaBox 0 0 360 {:.0f}\n{}{}", height, fonts, texts));
    const std::string theirs = (help::folder() / "mupdf.pdf").string();
    const help::Said made = help::run(fmt::format("mutool create -o '{}' '{}'", theirs, script));
    REQUIRE_MESSAGE(made.status == 0, made.out);
    compare(rows, theirs, help::print(document, "latin.pdf"),
            [](const help::Picture& expected, const help::Picture& found, const Letter& letter) {
                CHECK(help::difference(expected, found, dpi, letter.whole) < 0.2);
            });
}

TEST_CASE("a phone reads the code, also from a black and white copy") {
    constexpr double size = 13.2; // mm, as on the sheet: 2.5 pixels a module at 100 dpi
    const std::string words = "START-01/16/7C1E09A4";
    for (const std::string how : {"-r 100 -gray", "-r 100 -mono", "-r 150 -gray", "-r 150 -mono", "-r 300 -gray"}) {
        CAPTURE(how);
        page::Document document;
        document.pages.emplace_back();
        REQUIRE(draw_code(document.pages[0], 185 - size / 2, 4.2, size, words));
        const std::string pdf = help::print(document, "code.pdf"), copy = pdf + (how.ends_with("mono") ? ".pbm" : ".pgm");
        REQUIRE(help::run(fmt::format("pdftoppm {} -singlefile '{}' '{}'", how, pdf, pdf)).status == 0);
        CHECK(help::run(fmt::format("zbarimg --raw -q '{}' 2>/dev/null", copy)).out == words + "\n");
    }
}

TEST_CASE("fills, dashes and white ink look as they are named") {
    page::Document document;
    page::Page page{60, 20, {}, {}};
    page.marks = {page::Rect{10, 5, 10, 10, 0, page::Ink::black}, page::Circle{15, 10, 3, 0, page::Ink::white},
                  page::Line{30, 10, 50, 10, 2 / mm_per_pt, {2, 3}}, page::Rect{30, 14, 4, 4, 0, page::Ink::none}};
    document.pages = {page};
    constexpr int ten_a_mm = 254;
    const auto picture = help::poppler_picture(help::print(document, "fills.pdf"), ten_a_mm);
    const auto ink = [&](double x, double y, double w, double h) { return picture.ink(ten_a_mm, {x, y, w, h}); };
    CHECK(ink(10, 5, 10, 10) == doctest::Approx(10000 - 3.14159265 * 900).epsilon(0.002));
    CHECK(ink(25, 5, 30, 9) == doctest::Approx(4 * 20 * 20).epsilon(0.02)); // dashes at 30, 35, 40, 45
    CHECK(ink(30, 9, 2, 2) == doctest::Approx(400).epsilon(0.01));
    CHECK(ink(32, 9, 3, 2) < 4);
    CHECK(ink(29, 14, 6, 5) == 0);
}
