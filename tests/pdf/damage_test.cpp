// Font files that a bad disk, a cut-off download or somebody with a grudge has changed.
#include "help.hpp"
#include <array>
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <random>

using namespace loomsheet;
using page::Face;

namespace {

using Random = std::mt19937; // the same numbers everywhere for the same seed

std::uint32_t read_32(const std::string& bytes, std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i)
        value = value << 8 | static_cast<unsigned char>(bytes.at(at + i));
    return value;
}

// Makes the checksums of the directory true again, so that the damage gets past them.
void mend_checksums(std::string& font) {
    const std::size_t tables = static_cast<unsigned char>(font[5]);
    for (std::size_t i = 0; i < tables; ++i) {
        const std::size_t record = 12 + 16 * i;
        const std::size_t at = read_32(font, record + 8), length = read_32(font, record + 12);
        if (at > font.size() || length > font.size() - at) continue;
        std::string table = font.substr(at, length);
        if (font.compare(record, 4, "head") == 0 && length >= 12) table.replace(8, 4, 4, '\0');
        table.resize((length + 3) / 4 * 4);
        std::uint32_t sum = 0;
        for (std::size_t word = 0; word < table.size(); word += 4)
            sum += read_32(table, word);
        for (int byte = 3; byte >= 0; --byte, sum >>= 8)
            font[record + 4 + static_cast<std::size_t>(byte)] = static_cast<char>(sum);
    }
}

// Only the tables that are read, so that a few changed bytes matter.
std::size_t place_to_hit(const std::string& font, Random& random) {
    static constexpr std::array needed{"head", "hhea", "maxp", "hmtx", "cmap", "loca", "glyf"};
    const std::string wanted = needed.at(random() % needed.size());
    for (std::size_t record = 12; record + 16 <= font.size() && record < 12 + 16 * 40; record += 16) {
        if (font.compare(record, 4, wanted) == 0) return read_32(font, record + 8) + random() % read_32(font, record + 12);
    }
    return random() % font.size();
}

std::string damaged(std::string font, unsigned seed) {
    Random random(seed);
    switch (seed % 5) {
    case 0: font.resize(random() % font.size()); break; // cut off
    case 1:                                             // somewhere in the list of tables
        for (unsigned n = 0; n <= random() % 4; ++n)
            font[random() % 300] = static_cast<char>(random());
        break;
    case 2: // anywhere, past the checksums by luck only
        for (unsigned n = 0; n <= random() % 20; ++n)
            font[place_to_hit(font, random)] ^= static_cast<char>(1 << random() % 8);
        break;
    case 3: // a few bytes, checksums mended
        for (unsigned n = 0; n <= random() % 8; ++n)
            font[place_to_hit(font, random)] = static_cast<char>(random());
        mend_checksums(font);
        break;
    default: // a stretch of one byte, checksums mended
        const std::size_t at = place_to_hit(font, random);
        const std::size_t length = std::min<std::size_t>(random() % 2000 + 1, font.size() - at);
        font.replace(at, length, length, static_cast<char>(random() % 2 == 0 ? 0 : 0xFF));
        mend_checksums(font);
    }
    return font;
}

// Every letter that a sheet may have, so that every outline of them is taken out.
page::Document alphabet(const Faces& faces) {
    page::Document document;
    page::Page page;
    std::string words;
    for (char c = '!'; c <= '~'; ++c)
        words += c;
    words += " é à ü š Ѐ ǖ Ω µ ± ≥ ≤ → ° ² ✓ ⇉";
    double y = 20;
    for (const Face face : {Face::S, Face::N, Face::spare}) {
        for (const std::string& line : faces.wrap(face, 12, 180, words)) {
            for (page::Text& run : faces.runs(15, y, face, 12, line))
                page.marks.emplace_back(std::move(run));
            y += 6;
        }
    }
    document.pages = {page};
    return document;
}

} // namespace

TEST_CASE("a damaged font file gives an error in words or a good PDF") {
    const std::array names{"LiberationSans-Regular.ttf", "LiberationSansNarrow-Regular.ttf", "DejaVuSans.ttf"};
    const std::array originals{help::read(help::faces().file(Face::S)), help::read(help::faces().file(Face::N)),
                               help::read(help::faces().file(Face::spare))};
    const std::filesystem::path folder = help::folder() / "fonts";
    std::filesystem::create_directory(folder);
    setenv("LOOMSHEET_FONTS", (folder.string() + help::font_folders()).c_str(), 1);
    int refused = 0, printed = 0;
    for (unsigned seed = 0; seed < 200; ++seed) {
        CAPTURE(seed);
        const std::string name = names.at(seed / 5 % names.size());
        for (const char* before : names)
            std::filesystem::remove(folder / before);
        const std::string path = help::save("fonts/" + name, damaged(originals.at(seed / 5 % names.size()), seed));
        std::string error;
        const auto faces = Faces::load(error);
        if (!faces) {
            ++refused;
            CHECK(error.find(path) != std::string::npos);
            CHECK(error.find("damaged") != std::string::npos);
        } else {
            const PdfResult result = write_pdf(alphabet(*faces), *faces);
            CHECK(result.bytes.empty() != result.error.empty());
            if (result.bytes.empty()) {
                ++refused;
                CHECK(result.error.find(path) != std::string::npos);
            } else {
                if (++printed % 4 != 0) continue; // asking qpdf each time would take a minute
                const std::string pdf = help::save("damaged.pdf", result.bytes);
                const help::Said checked = help::run(fmt::format("qpdf --check '{}'", pdf));
                CHECK_MESSAGE(checked.status == 0, checked.out);
            }
        }
    }
    unsetenv("LOOMSHEET_FONTS");
    CHECK(refused > 100);
    CHECK(printed > 20); // what gets past the checksums was tried too
}

TEST_CASE("damage among the outlines is found before they are printed") {
    std::string font = help::read(help::faces().file(Face::S));
    const std::size_t record = font.find("glyf");
    font[read_32(font, record + 8) + read_32(font, record + 12) / 2] ^= 1;
    const std::filesystem::path folder = help::folder() / "outlines";
    std::filesystem::create_directory(folder);
    const std::string path = help::save("outlines/LiberationSans-Regular.ttf", font);
    setenv("LOOMSHEET_FONTS", (folder.string() + help::font_folders()).c_str(), 1);
    std::string error;
    const auto faces = Faces::load(error);
    unsetenv("LOOMSHEET_FONTS");
    REQUIRE(faces);
    CHECK(faces->file(Face::S) == path);
    CHECK(write_pdf(help::one_line(Face::S, 12, "a"), *faces).error ==
          fmt::format("The font file {} is damaged: its table glyf does not agree with its checksum. Install its package again.", path));
    CHECK(write_pdf(help::one_line(Face::N, 12, "a"), *faces).error.empty()); // the other faces still print
}
