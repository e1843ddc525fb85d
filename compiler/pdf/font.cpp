#include "pdf/font.hpp"
#include "page/face_file.hpp"
#include "pdf/trouble.hpp"
#include <array>
#include <cstddef>
#include <filesystem>
#include <fmt/format.h>
#include <hb-ot.h>
#include <hb-subset.h>

namespace loomsheet {

namespace {

struct Drop {
    void operator()(hb_blob_t* blob) const { hb_blob_destroy(blob); }
    void operator()(hb_face_t* face) const { hb_face_destroy(face); }
    void operator()(hb_font_t* font) const { hb_font_destroy(font); }
    void operator()(hb_subset_input_t* input) const { hb_subset_input_destroy(input); }
    void operator()(hb_subset_plan_t* plan) const { hb_subset_plan_destroy(plan); }
};
template <class T>
using Held = std::unique_ptr<T, Drop>;

std::string bytes_of(hb_blob_t* blob) {
    unsigned size = 0;
    const char* data = hb_blob_get_data(blob, &size);
    return {data, size};
}

// Only what a PDF needs of a TrueType font (ISO 32000-1, 9.9): HarfBuzz then has no cmap to walk through and no layout
// tables to close over. It leaves the hinting out by its flag.
hb_blob_t* needed_table(hb_face_t*, hb_tag_t tag, void* original) {
    switch (tag) {
    case HB_TAG('g', 'l', 'y', 'f'):
    case HB_TAG('h', 'e', 'a', 'd'):
    case HB_TAG('h', 'h', 'e', 'a'):
    case HB_TAG('h', 'm', 't', 'x'):
    case HB_TAG('l', 'o', 'c', 'a'):
    case HB_TAG('m', 'a', 'x', 'p'): return hb_face_reference_table(static_cast<hb_face_t*>(original), tag);
    default: return hb_blob_get_empty();
    }
}

// Six capitals that stand for these characters (ISO 32000-1, 9.6.4): FNV-1a over the code points.
std::string subset_tag(const std::vector<CodedGlyph>& glyphs) {
    std::uint64_t hash = 0xCBF29CE484222325u;
    for (const CodedGlyph& glyph : glyphs)
        hash = (hash ^ glyph.character) * 0x100000001B3u;
    std::string tag;
    for (int i = 0; i < 6; ++i, hash /= 26)
        tag += static_cast<char>('A' + hash % 26);
    return tag;
}

} // namespace

struct FontUse::Font {
    std::string path;
    hb_face_t* face = nullptr; // owned by Faces
    Held<hb_font_t> font;
    double thousandths(double units) const { return units * 1000 / hb_face_get_upem(face); }
    PdfTrouble damaged() const { return PdfTrouble(fmt::format("The font file {} is damaged: its outlines cannot be taken out.", path)); }
};

FontUse::FontUse(const Faces& faces, page::Face face)
    : font_(new Font{faces.file(face), faces.data(face), Held<hb_font_t>(hb_font_create(faces.data(face)))}) {}
FontUse::~FontUse() = default;
FontUse::FontUse(FontUse&&) noexcept = default;

std::uint16_t FontUse::code(char32_t character) {
    if (character < codes_.size() && codes_[character] != 0) return codes_[character];
    hb_codepoint_t glyph = 0;
    if (!hb_font_get_nominal_glyph(font_->font.get(), character, &glyph) || glyph == 0) {
        throw PdfTrouble(fmt::format("the font file {} lacks the character U+{:04X}.", font_->path, static_cast<std::uint32_t>(character)));
    }
    if (character >= codes_.size()) codes_.resize(character + 1);
    glyphs_.push_back({character, glyph, font_->thousandths(hb_font_get_glyph_h_advance(font_->font.get(), glyph))});
    return codes_[character] = static_cast<std::uint16_t>(glyphs_.size());
}

FontSubset FontUse::subset() const {
    hb_face_t* face = font_->face;
    if (const std::string flaw = flaw_of_outlines(face, font_->path); !flaw.empty()) throw PdfTrouble(flaw);
    const Held<hb_subset_input_t> input(hb_subset_input_create_or_fail());
    if (!input) throw font_->damaged();
    hb_subset_input_set_flags(input.get(), HB_SUBSET_FLAGS_NO_HINTING);
    for (const CodedGlyph& glyph : glyphs_)
        hb_set_add(hb_subset_input_glyph_set(input.get()), glyph.glyph);
    const Held<hb_face_t> outlines(hb_face_create_for_tables(needed_table, face, nullptr));
    const Held<hb_subset_plan_t> plan(hb_subset_plan_create_or_fail(outlines.get(), input.get()));
    if (!plan) throw font_->damaged();
    const Held<hb_face_t> made(hb_subset_plan_execute_or_fail(plan.get()));
    if (!made) throw font_->damaged();

    FontSubset subset;
    subset.name = subset_tag(glyphs_) + "+" + std::filesystem::path(font_->path).stem().string();
    subset.bytes = bytes_of(Held<hb_blob_t>(hb_face_reference_blob(made.get())).get());
    subset.glyphs = glyphs_;
    const hb_map_t* new_glyphs = hb_subset_plan_old_to_new_glyph_mapping(plan.get());
    for (CodedGlyph& glyph : subset.glyphs)
        glyph.glyph = hb_map_get(new_glyphs, glyph.glyph);

    const std::string head = bytes_of(Held<hb_blob_t>(hb_face_reference_table(face, HB_TAG('h', 'e', 'a', 'd'))).get());
    const auto box = [&](std::size_t at) { // xMin, yMin, xMax, yMax stand from byte 36
        const auto high = static_cast<unsigned char>(head.at(36 + 2 * at)), low = static_cast<unsigned char>(head.at(37 + 2 * at));
        return font_->thousandths(static_cast<std::int16_t>(high << 8 | low));
    };
    subset.left = box(0), subset.bottom = box(1), subset.right = box(2), subset.top = box(3);
    const auto metric = [&](hb_ot_metrics_tag_t tag) {
        hb_position_t units = 0;
        hb_ot_metrics_get_position_with_fallback(font_->font.get(), tag, &units);
        return font_->thousandths(units);
    };
    subset.ascent = metric(HB_OT_METRICS_TAG_HORIZONTAL_ASCENDER);
    subset.descent = metric(HB_OT_METRICS_TAG_HORIZONTAL_DESCENDER);
    subset.capitals = metric(HB_OT_METRICS_TAG_CAP_HEIGHT);
    return subset;
}

} // namespace loomsheet
