#include "pdf/write_font.hpp"
#include <cmath>
#include <fmt/format.h>
#include <iterator>

namespace loomsheet {

namespace {

std::string glyphs_of_codes(const FontSubset& subset) {
    std::string map(2, '\0'); // code 0 is the glyph that stands for a missing one
    for (const CodedGlyph& one : subset.glyphs) {
        map += static_cast<char>(one.glyph >> 8);
        map += static_cast<char>(one.glyph & 0xFF);
    }
    return map;
}

// A space that holds is read back as a plain one, so that "12.6 V" is found by a search.
char32_t read_back(char32_t character) { return character == U'\u00A0' ? U' ' : character; }

std::string utf16_hex(char32_t character) {
    const auto code = static_cast<std::uint32_t>(character);
    if (code <= 0xFFFF) return fmt::format("{:04X}", code);
    return fmt::format("{:04X}{:04X}", 0xD800 + ((code - 0x10000) >> 10), 0xDC00 + ((code - 0x10000) & 0x3FF));
}

// ISO 32000-1, 9.10.3; at most 100 characters a block (Adobe technical note 5014).
std::string characters_of_codes(const FontSubset& subset) {
    constexpr std::size_t block = 100;
    std::string map = "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
                      "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n"
                      "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
                      "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
    const std::size_t count = subset.glyphs.size();
    for (std::size_t start = 0; start < count; start += block) {
        const std::size_t end = std::min(count, start + block);
        fmt::format_to(std::back_inserter(map), "{} beginbfchar\n", end - start);
        for (std::size_t i = start; i < end; ++i) {
            fmt::format_to(std::back_inserter(map), "<{:04X}> <{}>\n", i + 1, utf16_hex(read_back(subset.glyphs[i].character)));
        }
        map += "endbfchar\n";
    }
    map += "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
    return map;
}

HPDF_Dict write_descriptor(PdfObjects& objects, const FontSubset& subset, bool bold) {
    const auto whole = [](double value) { return static_cast<std::int32_t>(std::lround(value)); };
    HPDF_Dict descriptor = objects.numbered_dict();
    objects.put_name(descriptor, "Type", "FontDescriptor");
    objects.put_name(descriptor, "FontName", subset.name);
    objects.put_number(descriptor, "Flags", 4); // symbolic: the codes follow no standard encoding
    HPDF_Array box = objects.array();
    objects.put(descriptor, "FontBBox", box);
    for (const double side : {subset.left, subset.bottom, subset.right, subset.top})
        objects.append_number(box, whole(side));
    objects.put_number(descriptor, "ItalicAngle", 0);
    objects.put_number(descriptor, "Ascent", whole(subset.ascent));
    objects.put_number(descriptor, "Descent", whole(subset.descent));
    objects.put_number(descriptor, "CapHeight", whole(subset.capitals));
    objects.put_number(descriptor, "StemV", bold ? 140 : 80); // only for a viewer that would replace the font
    HPDF_Dict file = objects.stream(subset.bytes);
    objects.put_number(file, "Length1", static_cast<std::int32_t>(subset.bytes.size()));
    objects.put(descriptor, "FontFile2", file);
    return descriptor;
}

HPDF_Dict write_outlines(PdfObjects& objects, const FontSubset& subset, bool bold) {
    HPDF_Dict font = objects.numbered_dict();
    objects.put_name(font, "Type", "Font");
    objects.put_name(font, "Subtype", "CIDFontType2");
    objects.put_name(font, "BaseFont", subset.name);
    HPDF_Dict system = objects.dict();
    objects.put(font, "CIDSystemInfo", system);
    objects.put(system, "Registry", objects.words("Adobe"));
    objects.put(system, "Ordering", objects.words("Identity"));
    objects.put_number(system, "Supplement", 0);
    objects.put(font, "FontDescriptor", write_descriptor(objects, subset, bold));
    HPDF_Array ranges = objects.array(), widths = objects.array();
    objects.put(font, "W", ranges);
    objects.append_number(ranges, 1); // from code 1 on, one width each
    objects.append(ranges, widths);
    for (const CodedGlyph& one : subset.glyphs)
        objects.append_number(widths, one.advance);
    objects.put(font, "CIDToGIDMap", objects.stream(glyphs_of_codes(subset)));
    return font;
}

} // namespace

HPDF_Dict write_font(PdfObjects& objects, const FontSubset& subset, bool bold) {
    HPDF_Dict font = objects.numbered_dict();
    objects.put_name(font, "Type", "Font");
    objects.put_name(font, "Subtype", "Type0");
    objects.put_name(font, "BaseFont", subset.name);
    objects.put_name(font, "Encoding", "Identity-H");
    HPDF_Array descendants = objects.array();
    objects.put(font, "DescendantFonts", descendants);
    objects.append(descendants, write_outlines(objects, subset, bold));
    objects.put(font, "ToUnicode", objects.stream(characters_of_codes(subset)));
    return font;
}

} // namespace loomsheet
