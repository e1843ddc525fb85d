#include "page/face.hpp"
#include <doctest/doctest.h>
#include <filesystem>
#include <fstream>
#include <harfbuzz/hb.h>

using namespace loomsheet;
using page::Face;

namespace {

const Faces& faces() {
    static std::string error;
    static const std::optional<Faces> loaded = Faces::load(error);
    REQUIRE_MESSAGE(loaded, error);
    return *loaded;
}

using Lines = std::vector<std::string>;

} // namespace

TEST_CASE("a width is the sum of the advances in the font file") {
    // Adobe's Helvetica metrics, which Liberation Sans shares by design (from memory): H 722, space 278, 6 556 of 1000.
    CHECK(faces().width(Face::S, 10, "H") == doctest::Approx(7.22 * mm_per_pt).epsilon(0.001));
    CHECK(faces().width(Face::S, 10, "H 6") == doctest::Approx((7.22 + 2.78 + 5.56) * mm_per_pt).epsilon(0.001));
    CHECK(faces().width(Face::S, 20, "AVAVA") == doctest::Approx(20 * 5 * 0.667 * mm_per_pt).epsilon(0.001)); // no kerning
    // The narrow face is 0.82 of it.
    CHECK(faces().width(Face::N, 10, "H") == doctest::Approx(0.82 * 7.22 * mm_per_pt).epsilon(0.003));
    CHECK(faces().width(Face::S, 10, "") == 0);
}

TEST_CASE("capitals and figures are 0.688 em in all four Liberation faces") {
    for (const Face face : {Face::S, Face::SB, Face::N, Face::NB}) {
        const std::string file = faces().file(face);
        CAPTURE(file);
        hb_font_t* font = hb_font_create(faces().data(face));
        for (const char32_t character : {U'H', U'E', U'1', U'7'}) {
            hb_codepoint_t glyph = 0;
            hb_glyph_extents_t box;
            REQUIRE(hb_font_get_nominal_glyph(font, character, &glyph));
            REQUIRE(hb_font_get_glyph_extents(font, glyph, &box));
            CHECK(box.y_bearing == doctest::Approx(cap_per_em * hb_face_get_upem(faces().data(face))).epsilon(0.001));
        }
        hb_font_destroy(font);
    }
}

TEST_CASE("what a face lacks is set in another one, and what none has is reported") {
    CHECK(faces().covers(Face::S, U'Ω'));
    CHECK_FALSE(faces().covers(Face::S, U'✓'));
    CHECK(faces().face_for(Face::S, U'Ω') == Face::S);
    CHECK(faces().face_for(Face::N, U'✓') == Face::spare);
    CHECK(faces().face_for(Face::NB, U'✓') == Face::spare_bold);
    CHECK(faces().face_for(Face::NB, U'中') == Face::wide);
    CHECK(faces().face_for(Face::S, U'か') == Face::wide);
    CHECK_FALSE(faces().face_for(Face::S, U'ก'));
    CHECK(faces().missing("ohm Ω ✓\nnext line").empty());
    CHECK(faces().missing("ก and ⎓, then ก 中") == std::vector<char32_t>{U'ก', U'⎓'});
    CHECK(faces().missing("a\tb") == std::vector<char32_t>{U'\t'});
}

TEST_CASE("a character that only the regular spare has is still found for bold text") {
    char32_t only_regular = 0;
    for (char32_t c = 0x100; c < 0x20000 && only_regular == 0; ++c) {
        if (faces().covers(Face::spare, c) && !faces().covers(Face::spare_bold, c)) only_regular = c;
    }
    REQUIRE(only_regular != 0);
    CHECK(faces().face_for(Face::SB, only_regular) == Face::spare);
}

TEST_CASE("runs stand one after the other") {
    const auto runs = faces().runs(18, 20, Face::SB, 12, "pin ✓ ok", page::Ink::white);
    REQUIRE(runs.size() == 3);
    CHECK(runs[0].utf8 == "pin ");
    CHECK(runs[1].utf8 == "✓");
    CHECK(runs[1].face == Face::spare_bold);
    CHECK(runs[2].utf8 == " ok");
    double x = 18;
    for (const page::Text& run : runs) {
        CHECK(run.x == doctest::Approx(x));
        CHECK(run.y == 20);
        CHECK(run.pt == 12);
        CHECK(run.ink == page::Ink::white);
        CHECK(run.width == doctest::Approx(faces().width(run.face, 12, run.utf8)));
        x += run.width;
    }
    CHECK(faces().runs_width(Face::SB, 12, "pin ✓ ok") == doctest::Approx(x - 18));
    CHECK(faces().runs(0, 0, Face::S, 9, "aกb").at(0).utf8 == "ab");
    CHECK(faces().runs(0, 0, Face::S, 9, "30/\u206087a").at(0).utf8 == "30/87a");
    CHECK(faces().runs(0, 0, Face::S, 9, "").empty());
}

TEST_CASE("text is broken where UAX 14 allows it") {
    const double room = faces().width(Face::S, 10, "one two");
    CHECK(faces().wrap(Face::S, 10, room, "one two six") == Lines{"one two", "six"});
    CHECK(faces().wrap(Face::S, 10, room - 0.1, "one two six") == Lines{"one", "two six"});
    CHECK(faces().wrap(Face::S, 10, room, "one two    ") == Lines{"one two"});
    CHECK(faces().wrap(Face::S, 10, room, "") == Lines{""});
    CHECK(faces().wrap(Face::S, 10, room, "one\n\ntwo\n") == Lines{"one", "", "two", ""});
    CHECK(faces().wrap(Face::S, 10, room, "one\r\ntwo") == Lines{"one", "two"});
    const double wire = faces().width(Face::S, 10, "W7 BU/W");
    CHECK(faces().wrap(Face::S, 10, wire, "W7 BU/WH") == Lines{"W7 BU/", "WH"});
    CHECK(faces().wrap(Face::S, 10, wire, "W7 BU/\u2060WH") == Lines{"W7", "BU/\u2060WH"});
}

TEST_CASE("a word that is too wide is broken between characters") {
    const double three = faces().width(Face::S, 10, "mmm") + 0.01;
    CHECK(faces().wrap(Face::S, 10, three, "mmmmmmm") == Lines{"mmm", "mmm", "m"});
    CHECK(faces().wrap(Face::S, 10, three, "öööööööööö") == Lines{"öööö", "öööö", "öö"});
    CHECK(faces().wrap(Face::S, 10, 0, "abc") == Lines{"a", "b", "c"});
}

TEST_CASE("every line of a broken text fits, and no word is lost") {
    const std::string text = hold_units("With key on, call the fan with the tester: the plug X21.1 must be within 0.8 V of the "
                                        "battery (12.6 V), the drop over 6 mm² and 1.4 m below 0.3 V \u2014 else stop, ask.");
    for (double room = 20; room < 90; room += 3.7) {
        std::string joined;
        for (const std::string& line : faces().wrap(Face::N, 10.5, room, text)) {
            CHECK(faces().runs_width(Face::N, 10.5, line) <= room + 1e-6);
            joined += (joined.empty() ? "" : " ") + line;
        }
        CHECK(joined == text);
    }
}

TEST_CASE("a number holds on to its unit") {
    CHECK(hold_units("at 12.6 V, then") == "at 12.6\u00A0V, then");
    CHECK(hold_units("6 mm² or 85 Ω ±10 %") == "6\u00A0mm² or 85\u00A0Ω ±10\u00A0%");
    CHECK(hold_units("105 °C for 5 min") == "105\u00A0°C for 5\u00A0min");
    CHECK(hold_units("(40 A)") == "(40\u00A0A)");
    CHECK(hold_units("X21.1 V and F14 A") == "X21.1 V and F14 A"); // pins and fuses are no numbers
    CHECK(hold_units("3 Volvox and 5 minutes") == "3 Volvox and 5 minutes");
    CHECK(hold_units("") == "");
    const double room = faces().width(Face::S, 10, "about 12.6");
    CHECK(faces().wrap(Face::S, 10, room, hold_units("about 12.6 V")) == Lines{"about", "12.6\u00A0V"});
}

TEST_CASE("fonts are looked for in LOOMSHEET_FONTS and nowhere else") {
    const auto folder = std::filesystem::temp_directory_path() / "loomsheet-face-test";
    std::filesystem::create_directories(folder);
    std::ofstream(folder / "LiberationSans-Bold.ttf") << "no font at all";
    const auto usual = std::filesystem::path(faces().file(Face::S)).parent_path().string();
    setenv("LOOMSHEET_FONTS", (folder.string() + ":" + usual).c_str(), 1);
    std::string error;
    CHECK_FALSE(Faces::load(error));
    CHECK(error.find((folder / "LiberationSans-Bold.ttf").string()) != std::string::npos);
    CHECK(error.find("damaged") != std::string::npos);
    std::filesystem::remove_all(folder);
    CHECK_FALSE(Faces::load(error));
    CHECK(error.find("is not in any of") != std::string::npos);
    unsetenv("LOOMSHEET_FONTS");
    CHECK(Faces::load(error));
}
