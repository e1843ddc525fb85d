// Pages to PDF bytes through libharu. Fonts are subset by HarfBuzz before libharu sees them; the same document gives
// the same bytes. Knows pages and faces, nothing of plans.
#pragma once
#include "page/face.hpp"
#include "page/page.hpp"
#include <string>

namespace loomsheet {

struct PdfResult {
    std::string bytes; // empty when it failed
    std::string error; // what libharu or HarfBuzz said, in words
};
enum class Filling : std::uint8_t { by_pen, on_screen }; // on screen: with form fields
PdfResult write_pdf(const page::Document& document, const Faces& faces, Filling filling = Filling::by_pen);

} // namespace loomsheet
