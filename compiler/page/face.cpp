#include "page/face.hpp"
#include "page/face_file.hpp"
#include "page/face_utf8.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <utility>

namespace loomsheet {

using page::Face;

namespace {

using page::face_count;
constexpr std::array<const char*, face_count> file_names{
    "LiberationSans-Regular.ttf",    "LiberationSans-Bold.ttf", "LiberationSansNarrow-Regular.ttf",
    "LiberationSansNarrow-Bold.ttf", "DejaVuSans.ttf",          "DejaVuSans-Bold.ttf",
    "DroidSansFallbackFull.ttf"};

constexpr Face spare_of(Face face) {
    return face == Face::SB || face == Face::NB || face == Face::spare_bold ? Face::spare_bold : Face::spare;
}

struct DropFont {
    void operator()(hb_font_t* font) const { hb_font_destroy(font); }
};

struct OpenFace {
    std::string path;
    FontFace file;
    std::unique_ptr<hb_font_t, DropFont> font;    // scaled to its own units
    std::array<std::optional<double>, 256> latin; // advances of the first characters, nearly all that is asked for

    void open() {
        font.reset(hb_font_create(file.face.get()));
        for (char32_t character = 0; character < latin.size(); ++character)
            latin[character] = look_up(character);
    }
    // In ems; nothing when the face lacks the character.
    std::optional<double> advance(char32_t character) const { return character < latin.size() ? latin[character] : look_up(character); }

private:
    std::optional<double> look_up(char32_t character) const {
        hb_codepoint_t glyph = 0;
        if (!font) return std::nullopt;
        if (!hb_font_get_nominal_glyph(font.get(), character, &glyph) || glyph == 0) return std::nullopt;
        const double units = hb_font_get_glyph_h_advance(font.get(), glyph);
        return units / hb_face_get_upem(file.face.get());
    }
};

} // namespace

struct Faces::Inner {
    std::array<OpenFace, face_count> faces;
    const OpenFace& operator[](Face face) const { return faces[static_cast<std::size_t>(face)]; }

    struct Found {
        Face face;
        double ems; // its advance
    };
    std::optional<Found> find(Face wanted, char32_t character) const {
        if (const auto ems = (*this)[wanted].advance(character)) return Found{wanted, *ems};
        for (const Face face : {spare_of(wanted), Face::S, Face::SB, Face::N, Face::NB, Face::spare, Face::spare_bold, Face::wide})
            if (const auto ems = (*this)[face].advance(character)) return Found{face, *ems};
        return std::nullopt;
    }
};

Faces::Faces(std::unique_ptr<Inner> inner) : inner_(std::move(inner)) {}
Faces::~Faces() = default;
Faces::Faces(Faces&&) noexcept = default;
Faces& Faces::operator=(Faces&&) noexcept = default;

std::optional<Faces> Faces::load(std::string& error) {
    auto inner = std::make_unique<Inner>();
    for (std::size_t i = 0; i < face_count; ++i) {
        OpenFace& face = inner->faces[i];
        face.path = find_font_file(file_names[i]);
        if (face.path.empty() && static_cast<Face>(i) == Face::wide) break; // one can do without
        if (face.path.empty()) {
            error = fmt::format("The font file {} is not in any of {}. Install the packages fonts-liberation and "
                                "fonts-dejavu-core, or set LOOMSHEET_FONTS to the folder that holds it.",
                                file_names[i], font_folders_in_words());
            return std::nullopt;
        }
        face.file = open_font_file(face.path);
        if (!face.file.face) {
            error = face.file.error;
            return std::nullopt;
        }
        face.open();
        const bool wide = static_cast<Face>(i) == Face::wide;
        if (!face.advance(wide ? U'一' : U'0')) {
            error =
                fmt::format("The font file {} is damaged: it has no {}. Install its package again.", face.path, wide ? "signs" : "figures");
            return std::nullopt;
        }
    }
    return Faces(std::move(inner));
}

const std::string& Faces::file(Face face) const { return (*inner_)[face].path; }

hb_face_t* Faces::data(Face face) const { return (*inner_)[face].file.face.get(); }

double Faces::width(Face face, double pt, std::string_view utf8) const {
    const OpenFace& open = (*inner_)[face];
    double ems = 0;
    while (!utf8.empty()) {
        const char32_t character = take_character(utf8);
        if (!is_unseen(character)) ems += open.advance(character).value_or(0);
    }
    return ems * pt * mm_per_pt;
}

bool Faces::covers(Face face, char32_t character) const { return (*inner_)[face].advance(character).has_value(); }

std::optional<Face> Faces::face_for(Face wanted, char32_t character) const {
    const auto found = inner_->find(wanted, character);
    return found ? std::optional(found->face) : std::nullopt;
}

std::vector<char32_t> Faces::missing(std::string_view utf8) const {
    std::vector<char32_t> found;
    while (!utf8.empty()) {
        const char32_t character = take_character(utf8);
        if (is_unseen(character) || character == U'\n' || face_for(Face::S, character)) continue;
        if (std::find(found.begin(), found.end(), character) == found.end()) found.push_back(character);
    }
    return found;
}

std::vector<page::Text> Faces::runs(double x, double y, Face face, double pt, std::string_view utf8, page::Ink ink) const {
    std::vector<page::Text> runs;
    while (!utf8.empty()) {
        const std::string_view before = utf8;
        const char32_t character = take_character(utf8);
        if (is_unseen(character)) continue;
        const auto found = inner_->find(face, character);
        if (!found) continue;
        if (runs.empty() || runs.back().face != found->face) {
            const double left = runs.empty() ? x : runs.back().x + runs.back().width;
            runs.push_back({left, y, {}, found->face, pt, 0, ink});
        }
        runs.back().utf8.append(before.substr(0, before.size() - utf8.size()));
        runs.back().width += found->ems * pt * mm_per_pt;
    }
    return runs;
}

double Faces::advance(Face wanted, char32_t character) const {
    if (is_unseen(character)) return 0;
    const auto found = inner_->find(wanted, character);
    return found ? found->ems : 0;
}

double Faces::runs_width(Face face, double pt, std::string_view utf8) const {
    double ems = 0;
    while (!utf8.empty())
        ems += advance(face, take_character(utf8));
    return ems * pt * mm_per_pt;
}

} // namespace loomsheet
