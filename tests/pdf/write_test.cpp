#include "help.hpp"
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <limits>

using namespace loomsheet;
using help::run;
using page::Face;

TEST_CASE("qpdf finds nothing wrong, and poppler and mupdf read it without a warning") {
    const std::string pdf = help::print(help::dense_document(), "dense.pdf");
    const help::Said checked = run("qpdf --check '" + pdf + "'");
    CHECK_MESSAGE(checked.status == 0, checked.out);
    CHECK(checked.out.find("WARNING") == std::string::npos);
    for (const char* command : {"pdftotext '{0}' /dev/null", "pdftoppm -r 40 -gray '{0}' '{0}'", "pdftocairo -r 40 -png '{0}' '{0}'",
                                "mutool draw -q -r 40 -o '{0}.%d.png' '{0}'"}) {
        const help::Said said = run(fmt::format(fmt::runtime(command), pdf));
        CHECK(said.status == 0);
        CHECK_MESSAGE((said.out.empty() || said.out == "warning: ICC support is not available\n"), said.out);
    }
    const std::string fonts = run("pdffonts '" + pdf + "'").out;
    CHECK(fonts.find("LiberationSansNarrow-Bold") != std::string::npos);
    CHECK(fonts.find(" no ") == std::string::npos); // all embedded, all subsets, all with a way back to Unicode
}

TEST_CASE("poppler and mupdf read the words of the pages back") {
    const page::Document document = help::dense_document();
    const std::string pdf = help::print(document, "words.pdf");
    for (std::size_t i = 0; i < document.pages.size(); ++i) {
        const auto expected = help::words_of(document.pages[i]);
        CHECK(expected.size() > 150);
        CHECK(help::split(run(fmt::format("pdftotext -raw -f {0} -l {0} '{1}' -", i + 1, pdf)).out) == expected);
        CHECK(help::split(run(fmt::format("mutool draw -q -F txt '{1}' {0} 2>/dev/null", i + 1, pdf)).out) == expected);
    }
}

TEST_CASE("characters that share a glyph are still read back as written") {
    // One glyph each in Liberation Sans: ohm sign and omega, micro sign and mu.
    const std::string words = "5\u2126 6\u03A9 7\u00B5 8\u03BC 9\u00A0V 30/\u206087a 😀";
    const std::string pdf = help::print(help::one_line(Face::S, 12, words), "shared.pdf");
    CHECK(run("pdftotext '" + pdf + "' -").out == "5\u2126 6\u03A9 7\u00B5 8\u03BC 9 V 30/87a 😀\n\n\f");
}

TEST_CASE("signs of East Asia, Greek and Cyrillic are drawn and read back as written") {
    const std::string words = "電気 テスト Ψύξη Вентилятор";
    page::Document document = help::one_line(Face::SB, 14, "");
    document.pages.front().marks.clear();
    for (page::Text& run : help::faces().runs(10, 15, Face::SB, 14, words))
        document.pages.front().marks.emplace_back(std::move(run));
    const std::string pdf = help::print(document, "east.pdf");
    CHECK(run("pdftotext '" + pdf + "' -").out == words + "\n\n\f");
    CHECK(help::poppler_picture(pdf, 150).ink(150, {10, 9, 18, 8}) > 300); // two signs
}

TEST_CASE("a text is as wide on paper as layout measured it") {
    page::Document document;
    page::Page page;
    double y = 20;
    const char* words[] = {"Widerstand", "mmmmmmmmmmmmmmmmmmmmmmmmmmmmmm", "illiilliill",
                           "AVAVAVToTo", "Größenänderungsgeschwindigkeit", "±85,5Ω→°"};
    for (const Face face : {Face::S, Face::SB, Face::N, Face::NB, Face::spare, Face::spare_bold}) {
        for (const double pt : {8.0, 10.5, 13.0, 26.0}) {
            for (const char* word : words) {
                page.marks.emplace_back(page::Text{10.37, y, word, face, pt, help::faces().width(face, pt, word)});
                y += 11;
            }
        }
    }
    page.width = 600;
    page.height = y;
    document.pages = {page};
    const std::string found = run("pdftotext -bbox '" + help::print(document, "bbox.pdf") + "' -").out;
    std::size_t seen = 0;
    for (std::size_t at = found.find("<word "); at != std::string::npos; at = found.find("<word ", at + 1), ++seen) {
        double left = 0, right = 0;
        REQUIRE(std::sscanf(found.c_str() + at, "<word xMin=\"%lf\" yMin=\"%*f\" xMax=\"%lf\"", &left, &right) == 2);
        REQUIRE(seen < page.marks.size());
        const auto& text = std::get<page::Text>(page.marks[seen]);
        const std::size_t start = found.find('>', at) + 1;
        REQUIRE(found.substr(start, found.find('<', start) - start) == text.utf8);
        CHECK(std::abs(left - text.x / mm_per_pt) < 0.01);
        CHECK(std::abs((right - left) - text.width / mm_per_pt) < 0.01);
    }
    CHECK(seen == page.marks.size());
}

TEST_CASE("the same document gives the same bytes") {
    const PdfResult one = write_pdf(help::dense_document(), help::faces());
    std::string error;
    const auto other_faces = Faces::load(error);
    REQUIRE(other_faces);
    CHECK(one.bytes == write_pdf(help::dense_document(), *other_faces).bytes);
    CHECK(one.bytes.find("CreationDate") == std::string::npos);
    page::Document changed = help::dense_document();
    changed.title = "Another";
    CHECK(one.bytes != write_pdf(changed, help::faces()).bytes);
}

TEST_CASE("a date stands in it only when the environment gives one") {
    const page::Document document = help::one_line(Face::S, 9, "date");
    setenv("SOURCE_DATE_EPOCH", "1795516200", 1);
    const std::string dated = help::print(document, "dated.pdf");
    setenv("SOURCE_DATE_EPOCH", "yesterday", 1);
    const PdfResult not_a_date = write_pdf(document, help::faces());
    unsetenv("SOURCE_DATE_EPOCH");
    CHECK(run("mutool show '" + dated + "' trailer/Info/CreationDate 2>/dev/null").out == "(D:20261124103000Z)\n");
    CHECK(not_a_date.bytes == write_pdf(document, help::faces()).bytes);
}

TEST_CASE("title, language, outline, page labels and links") {
    const page::Document document = help::dense_document();
    const std::string pdf = help::print(document, "parts.pdf");
    const auto show = [&](const std::string& what) { return run("mutool show '" + pdf + "' " + what + " 2>/dev/null").out; };
    CHECK(run("pdfinfo '" + pdf + "'").out.find("Title:           Radiator fan — does not run\n") != std::string::npos);
    CHECK(show("trailer/Root/Lang") == "(en)\n");
    CHECK(show("trailer/Root/ViewerPreferences/PrintScaling") == "/None\n");
    CHECK(show("trailer/Root/PageLabels/Nums/2/S") == "/D\n");
    CHECK(show("trailer/Root/Version") == "null\n");
    const std::string outline = show("outline");
    for (int page = 1; page <= 4; ++page) {
        CAPTURE(outline);
        CHECK(outline.find(fmt::format("\"Checks – page {}\"\t#page={}", page, page)) != std::string::npos);
    }
    // Nine links on each page, the first one on the first page to the second.
    const std::string annotations = show("pages/1/Annots");
    CHECK(std::count(annotations.begin(), annotations.end(), 'R') == 9);
    CHECK(show("pages/1/Annots/1/Dest/1") == show("pages/2"));
    // 178, 20 + 52.3 - 4 mm, 20 x 8 mm, from the lower left corner in points.
    double left = 0, bottom = 0, right = 0, top = 0;
    REQUIRE(std::sscanf(show("pages/1/Annots/1/Rect").c_str(), "[ %lf %lf %lf %lf ]", &left, &bottom, &right, &top) == 4);
    CHECK(left * mm_per_pt == doctest::Approx(178).epsilon(0.0001));
    CHECK(right * mm_per_pt == doctest::Approx(198).epsilon(0.0001));
    CHECK((297 - top * mm_per_pt) == doctest::Approx(68.3).epsilon(0.0001));
    CHECK((297 - bottom * mm_per_pt) == doctest::Approx(76.3).epsilon(0.0001));
}

TEST_CASE("what cannot be printed is refused in words") {
    const auto refusal = [](const page::Mark& mark) {
        page::Document document;
        document.pages = {page::Page{210, 297, {mark}, {}}};
        const PdfResult result = write_pdf(document, help::faces());
        CHECK(result.bytes.empty());
        return result.error;
    };
    constexpr double nan = std::numeric_limits<double>::quiet_NaN(), infinite = std::numeric_limits<double>::infinity();
    CHECK(refusal(page::Line{0, nan, 1, 1, 1, {}}) == "Page 1: a mark lies at nan mm, which is on no page.");
    CHECK(refusal(page::Rect{0, 0, infinite, 1, 1}) == "Page 1: a mark lies at inf mm, which is on no page.");
    CHECK(refusal(page::Circle{0, 0, 1, nan}) == "Page 1: a line is nan pt wide.");
    CHECK(refusal(page::Text{1, 1, "a", Face::S, nan}) == "Page 1: a text is nan pt high.");
    CHECK(refusal(page::Text{10, 20, "a\xFF", Face::S, 9}) == "Page 1: the text at 10.00, 20.00 mm is no valid UTF-8.");
    CHECK(refusal(page::Text{10, 20, "a✓", Face::S, 9}).find("lacks the character U+2713") != std::string::npos);
    CHECK(refusal(page::Line{0, 0, 1, 1, 1, {0, 0}}) == "Page 1: a dashed line has dashes of no length.");
    CHECK(refusal(page::Line{0, 0, 1, 1, 1, {1, -1}}) == "Page 1: a dashed line has dashes of no length.");
    CHECK(refusal(page::Link{0, 0, 1, 1, 1}) == "Page 1: a link leads to page 2, which is not there.");
    CHECK(refusal(page::Link{0, nan, 1, 1, 0}) == "Page 1: a mark lies at nan mm, which is on no page.");

    page::Document document;
    CHECK(write_pdf(document, help::faces()).error == "The document has no pages.");
    document.pages = {page::Page{0, 297, {}, {}}};
    CHECK(write_pdf(document, help::faces()).error == "Page 1: a page of 0 by 297 mm cannot be printed.");
    document.pages = {page::Page{}};
    document.title = "\xC3";
    CHECK(write_pdf(document, help::faces()).error == "The title of the document is no valid UTF-8.");
    document.title.clear();
    document.outline = {{"There", 1}};
    CHECK(write_pdf(document, help::faces()).error == "The outline leads to page 2, which is not there.");
}

TEST_CASE("an empty page is a page") {
    page::Document document;
    document.pages = {page::Page{}, page::Page{148, 210, {}, {}}};
    const std::string pdf = help::print(document, "empty.pdf");
    CHECK(run("qpdf --check '" + pdf + "'").status == 0);
    const std::string sizes = run("pdfinfo -f 1 -l 2 '" + pdf + "'").out;
    CHECK(sizes.find("595.276 x 841.89") != std::string::npos);
    CHECK(sizes.find("419.528 x 595.276") != std::string::npos);
}
