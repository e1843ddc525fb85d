// One face as a document uses it: every character gets a code of its own (two bytes, from 1, in the order of first
// use), so that what is read back from the PDF is exactly what was written, even where two characters share a glyph.
#pragma once
#include "page/face.hpp"
#include <cstdint>
#include <string>
#include <vector>

namespace loomsheet {

// A glyph as the PDF needs it; what stands at index i of a list belongs to code i + 1.
struct CodedGlyph {
    char32_t character = 0;
    std::uint32_t glyph = 0; // in the original file; in the subset once it is made
    double advance = 0;      // thousandths of an em
};

struct FontSubset {
    std::string name;  // "ABCDEF+LiberationSans-Bold"
    std::string bytes; // a TrueType file with the outlines of the glyphs and nothing else
    std::vector<CodedGlyph> glyphs;
    double left = 0, bottom = 0, right = 0, top = 0; // around all glyphs of the face, thousandths of an em
    double ascent = 0, descent = 0, capitals = 0;    // the same
};

class FontUse {
public:
    FontUse(const Faces& faces, page::Face face);
    ~FontUse();
    FontUse(FontUse&&) noexcept;
    FontUse& operator=(FontUse&&) = delete;
    // Throws PdfTrouble when the face lacks the character.
    std::uint16_t code(char32_t character);
    bool used() const { return !glyphs_.empty(); }
    // Made by HarfBuzz. Throws PdfTrouble when the file is damaged.
    FontSubset subset() const;

private:
    struct Font;
    std::unique_ptr<Font> font_;
    std::vector<std::uint16_t> codes_; // by character, 0 = not used yet
    std::vector<CodedGlyph> glyphs_;
};

} // namespace loomsheet
