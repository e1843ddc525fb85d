#include "pdf/write.hpp"
#include "pdf/content.hpp"
#include "pdf/objects.hpp"
#include "pdf/trouble.hpp"
#include "pdf/write_font.hpp"
#include "pdf/write_form.hpp"
#include "source/text.hpp"
#include <array>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <fmt/format.h>

namespace loomsheet {

namespace {

FontUses font_uses(const Faces& faces) {
    using page::Face;
    return {FontUse(faces, Face::S),     FontUse(faces, Face::SB),         FontUse(faces, Face::N),   FontUse(faces, Face::NB),
            FontUse(faces, Face::spare), FontUse(faces, Face::spare_bold), FontUse(faces, Face::wide)};
}

void require_utf8(const std::string& words, std::string_view what) {
    if (first_bad_utf8(words) != std::string_view::npos) throw PdfTrouble(fmt::format("{} is no valid UTF-8.", what));
}

// A date only when the environment gives one (SOURCE_DATE_EPOCH, seconds since 1970), so that equal input gives equal
// bytes.
void write_date(PdfObjects& objects) {
    const char* given = std::getenv("SOURCE_DATE_EPOCH");
    if (given == nullptr) return;
    char* end = nullptr;
    const std::time_t seconds = std::strtoll(given, &end, 10);
    std::tm utc{};
    if (end == given || *end != '\0' || gmtime_r(&seconds, &utc) == nullptr) return;
    std::array<char, 24> words{}; // ISO 32000-1, 7.9.4
    std::strftime(words.data(), words.size(), "D:%Y%m%d%H%M%SZ", &utc);
    objects.put(objects.doc()->info, "CreationDate", objects.words(words.data()));
}

void write_head(PdfObjects& objects, const page::Document& document) {
    HPDF_Doc doc = objects.doc();
    objects.done(HPDF_SetInfoAttr(doc, HPDF_INFO_CREATOR, "Loomsheet"));
    require_utf8(document.title, "The title of the document");
    objects.put(doc->info, "Title", objects.words(document.title));
    write_date(objects);
    require_utf8(document.language, "The language of the document");
    objects.put(doc->catalog, "Lang", objects.words(document.language));
    // Printed at its true size: the sizes on the sheet are promises.
    objects.done(HPDF_SetViewerPreference(doc, HPDF_PRINT_SCALING_NONE));
    objects.done(HPDF_AddPageLabel(doc, 0, HPDF_PAGE_NUM_STYLE_DECIMAL, 1, ""));
}

HPDF_Destination whole_page(PdfObjects& objects, const std::vector<HPDF_Page>& pages, std::size_t number, std::string_view from) {
    if (number >= pages.size()) throw PdfTrouble(fmt::format("{} leads to page {}, which is not there.", from, number + 1));
    HPDF_Destination destination = objects.made(HPDF_Page_CreateDestination(pages[number]));
    objects.done(HPDF_Destination_SetFit(destination));
    return destination;
}

HPDF_Page write_page(PdfObjects& objects, const page::Page& page, FontUses& fonts, HPDF_Dict resources) {
    constexpr double least = 3 * mm_per_pt, most = 14400 * mm_per_pt; // ISO 32000-1, annex C
    if (!(page.width >= least && page.width <= most && page.height >= least && page.height <= most)) {
        throw PdfTrouble(fmt::format("a page of {} by {} mm cannot be printed.", page.width, page.height));
    }
    HPDF_Page made = objects.made(HPDF_AddPage(objects.doc()));
    objects.done(HPDF_Page_SetWidth(made, static_cast<HPDF_REAL>(page.width / mm_per_pt)));
    objects.done(HPDF_Page_SetHeight(made, static_cast<HPDF_REAL>(page.height / mm_per_pt)));
    objects.put(made, "Resources", resources);
    Content content(page.height, fonts);
    for (const page::Mark& mark : page.marks)
        content.add(mark);
    objects.fill(static_cast<HPDF_PageAttr>(made->attr)->contents, content.take());
    return made;
}

void write_links(PdfObjects& objects, const page::Page& page, const std::vector<HPDF_Page>& pages, HPDF_Page here) {
    for (const page::Mark& mark : page.marks) {
        const auto* link = std::get_if<page::Link>(&mark);
        if (link == nullptr) continue;
        const auto points = [](double mm) {
            if (!std::isfinite(mm)) throw PdfTrouble(fmt::format("a mark lies at {} mm, which is on no page.", mm));
            return static_cast<HPDF_REAL>(mm / mm_per_pt);
        };
        const HPDF_Rect area{points(link->x), points(page.height - link->y - link->h), points(link->x + link->w),
                             points(page.height - link->y)};
        HPDF_Annotation touch = objects.made(HPDF_Page_CreateLinkAnnot(here, area, whole_page(objects, pages, link->page, "a link")));
        objects.done(HPDF_LinkAnnot_SetBorderStyle(touch, 0, 0, 0));
    }
}

void write_outline(PdfObjects& objects, const page::Document& document, const std::vector<HPDF_Page>& pages) {
    for (const page::OutlineEntry& entry : document.outline) {
        require_utf8(entry.title, "A title of the outline");
        HPDF_Outline outline = objects.made(HPDF_CreateOutline(objects.doc(), nullptr, "", nullptr));
        objects.put(outline, "Title", objects.words(entry.title));
        objects.done(HPDF_Outline_SetDestination(outline, whole_page(objects, pages, entry.page, "The outline")));
    }
}

// Says on which page the trouble lies.
template <class Work>
void on_page(std::size_t number, Work work) {
    try {
        work();
    } catch (const PdfTrouble& trouble) {
        throw PdfTrouble(fmt::format("Page {}: {}", number + 1, trouble.what()));
    }
}

void write_fonts(PdfObjects& objects, const FontUses& fonts, HPDF_Dict resources) {
    HPDF_Dict list = objects.dict();
    objects.put(resources, "Font", list);
    for (std::size_t i = 0; i < fonts.size(); ++i) {
        if (!fonts[i].used()) continue;
        const auto face = static_cast<page::Face>(i);
        const bool bold = face == page::Face::SB || face == page::Face::NB || face == page::Face::spare_bold;
        objects.put(list, fmt::format("F{}", i).c_str(), write_font(objects, fonts[i].subset(), bold));
    }
}

std::string write(const page::Document& document, const Faces& faces, Filling filling) {
    if (document.pages.empty()) throw PdfTrouble("The document has no pages.");
    PdfObjects objects;
    write_head(objects, document);
    FontUses fonts = font_uses(faces);
    HPDF_Dict resources = objects.numbered_dict(); // one for all pages
    std::vector<HPDF_Page> pages;
    for (const page::Page& page : document.pages) {
        on_page(pages.size(), [&] { pages.push_back(write_page(objects, page, fonts, resources)); });
    }
    for (std::size_t i = 0; i < pages.size(); ++i) {
        on_page(i, [&] { write_links(objects, document.pages[i], pages, pages[i]); });
    }
    write_outline(objects, document, pages);
    if (filling == Filling::on_screen) write_form(objects, document, pages);
    write_fonts(objects, fonts, resources);
    return objects.save();
}

} // namespace

PdfResult write_pdf(const page::Document& document, const Faces& faces, Filling filling) {
    try {
        return {write(document, faces, filling), {}};
    } catch (const PdfTrouble& trouble) {
        return {{}, trouble.what()};
    }
}

} // namespace loomsheet
