// Typefaces as layout needs them: widths, cover, line breaks. Font files are found in the usual folders or in
// $LOOMSHEET_FONTS. Metrics come from the font files by HarfBuzz, never through the PDF library.
#pragma once
#include "page/page.hpp"
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

struct hb_face_t;

namespace loomsheet {

inline constexpr double mm_per_pt = 25.4 / 72.0;
// Height of capitals and figures over the type size in the Liberation faces (measured in the font files).
inline constexpr double cap_per_em = 0.688;

class Faces {
public:
    // A face that is not found or is damaged: nothing, and `error` says which file and where it was looked for.
    static std::optional<Faces> load(std::string& error);
    ~Faces();
    Faces(Faces&&) noexcept;
    Faces& operator=(Faces&&) noexcept;

    const std::string& file(page::Face face) const;
    hb_face_t*
    data(page::Face face) const; // the opened file, for the PDF room; owned by this; null only for a `wide` that is not installed
    double width(page::Face face, double pt, std::string_view utf8) const; // mm; a missing character counts 0
    bool covers(page::Face face, char32_t character) const;
    // The face itself, else its spare, else any face that has it (in the order of page::Face), else nothing.
    std::optional<page::Face> face_for(page::Face wanted, char32_t character) const;
    // The characters of `utf8` that no face has, each once, in order. U+200B, U+2060 and U+FEFF are never missing: they
    // steer line breaking, have no width and are not printed.
    std::vector<char32_t> missing(std::string_view utf8) const;
    // Split into runs of one face each, placed one after the other from (x, y). Missing characters are left out.
    std::vector<page::Text> runs(double x, double y, page::Face face, double pt, std::string_view utf8,
                                 page::Ink ink = page::Ink::black) const;
    double runs_width(page::Face face, double pt, std::string_view utf8) const;
    // Broken by UAX 14 into lines of at most `width` mm; a word that is wider is broken between characters.
    // Explicit line ends are kept. Never empty: an empty text is one empty line.
    std::vector<std::string> wrap(page::Face face, double pt, double width, std::string_view utf8) const;

private:
    struct Inner;
    explicit Faces(std::unique_ptr<Inner> inner);
    // In ems, in the face that has it; 0 for what is missing or unseen.
    double advance(page::Face wanted, char32_t character) const;
    std::unique_ptr<Inner> inner_;
};

// U+00A0 between a number and its unit (grammar/units.hpp), so that no line breaks there.
std::string hold_units(std::string_view utf8);

} // namespace loomsheet
