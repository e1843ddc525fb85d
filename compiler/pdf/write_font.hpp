// A font subset as PDF objects.
#pragma once
#include "pdf/font.hpp"
#include "pdf/objects.hpp"

namespace loomsheet {

// A composite font (ISO 32000-1, 9.7) with two-byte codes: the outlines, their widths, which glyph belongs to a code,
// and which character it is read back as.
HPDF_Dict write_font(PdfObjects& objects, const FontSubset& subset, bool bold);

} // namespace loomsheet
