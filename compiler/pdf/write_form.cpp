#include "pdf/write_form.hpp"
#include "page/face_utf8.hpp"
#include "pdf/content.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <optional>

namespace loomsheet {

namespace {

constexpr std::int32_t printed = 4;             // 12.5.3: a widget is printed with its page
constexpr std::int32_t many_lines = 1 << 12;    // 12.7.4.3
constexpr double mark_side = 7.4, margin = 1.2; // mm: the mark at an outcome; from a frame to what is written in it
constexpr double caption = 4.2, unit = 9;       // mm: kept free at the top of a frame, and at its right
constexpr double lines_from = 16;               // mm: higher frames take several lines

struct Blank {
    bool is_tick = false;
    double x = 0, y = 0, w = 0, h = 0; // mm
};

// Where a tick or words go; nothing where a region is not to be filled in.
std::optional<Blank> blank_of(const page::Region& region) {
    switch (region.role) {
    case page::Role::tick: return Blank{true, region.x, region.y, region.w, region.h};
    case page::Role::outcome: return Blank{true, region.x, region.y + 1, mark_side, mark_side};
    case page::Role::reading:
    case page::Role::field: {
        const double down = std::min(caption, 0.4 * region.h), aside = region.w > 60 ? margin : unit;
        return Blank{false, region.x + margin, region.y + down, region.w - margin - aside, region.h - down - 0.6};
    }
    default: return std::nullopt;
    }
}

// 12.7.3.2: a full stop parts the names of a hierarchy. What is not ASCII is written by its number.
std::string field_name(std::string_view words) {
    std::string name;
    while (!words.empty()) {
        const char32_t character = take_character(words);
        if (character == '.')
            name += '_';
        else if (character >= ' ' && character <= '~')
            name += static_cast<char>(character);
        else
            name += fmt::format("u{:04X}", static_cast<std::uint32_t>(character));
    }
    return name;
}

class Form {
public:
    Form(PdfObjects& objects, const page::Document& document) : objects_(objects), fields_(objects.array()) {
        for (const page::Page& page : document.pages)
            for (const page::Region& region : page.regions)
                ++counts_[region.name];
    }

    void add(const page::Page& page, HPDF_Page on, const page::Region& region) {
        const std::optional<Blank> blank = blank_of(region);
        if (!blank) return;
        HPDF_Dict widget = objects_.numbered_dict();
        objects_.put_name(widget, "Type", "Annot");
        objects_.put_name(widget, "Subtype", "Widget");
        objects_.put_number(widget, "F", printed);
        objects_.put(widget, "P", on);
        const auto points = [](double mm) { return mm / mm_per_pt; };
        HPDF_Array area = objects_.array();
        objects_.put(widget, "Rect", area);
        for (const double at : {blank->x, page.height - blank->y - blank->h, blank->x + blank->w, page.height - blank->y})
            objects_.append_number(area, points(at));
        if (counts_.at(region.name) == 1) {
            describe(widget, region, *blank);
            objects_.append(fields_, widget);
        } else {
            HPDF_Dict field = shared(region, *blank);
            objects_.append(kids_.at(field), widget);
            objects_.put(widget, "Parent", field);
        }
        appearance(widget, *blank);
        objects_.append(annotations(on), widget);
    }

    void finish() {
        HPDF_Dict form = objects_.dict();
        objects_.put(objects_.doc()->catalog, "AcroForm", form);
        objects_.put(form, "Fields", fields_);
        HPDF_Dict resources = objects_.dict(), fonts = objects_.dict(), font = objects_.numbered_dict();
        objects_.put(form, "DR", resources);
        objects_.put(resources, "Font", fonts);
        objects_.put(fonts, "Helv", font);
        objects_.put_name(font, "Type", "Font"); // one of the fourteen that every reader has
        objects_.put_name(font, "Subtype", "Type1");
        objects_.put_name(font, "BaseFont", "Helvetica");
        objects_.put_name(font, "Encoding", "WinAnsiEncoding");
        objects_.put(form, "DA", objects_.words("/Helv 12 Tf 0 g"));
    }

private:
    void describe(HPDF_Dict field, const page::Region& region, const Blank& blank) {
        objects_.put_name(field, "FT", blank.is_tick ? "Btn" : "Tx");
        objects_.put(field, "T", objects_.words(field_name(region.name)));
        objects_.put(field, "TU", objects_.words(region.name)); // what a reader shows, and speaks
        const bool tall = blank.h > lines_from - caption;
        if (blank.is_tick) objects_.put_name(field, "V", "Off");
        if (!blank.is_tick) objects_.put(field, "DA", objects_.words(tall ? "/Helv 11 Tf 0 g" : "/Helv 0 Tf 0 g"));
        if (!blank.is_tick && tall) objects_.put_number(field, "Ff", many_lines);
    }

    // The field of several widgets.
    HPDF_Dict shared(const page::Region& region, const Blank& blank) {
        HPDF_Dict& field = parents_[region.name];
        if (field != nullptr) return field;
        field = objects_.numbered_dict();
        describe(field, region, blank);
        objects_.append(fields_, field);
        HPDF_Array kids = objects_.array();
        objects_.put(field, "Kids", kids);
        kids_[field] = kids;
        return field;
    }

    // One for all blanks of a size.
    HPDF_Dict picture(const Blank& blank, const std::string& operators) {
        HPDF_Dict& form = pictures_[fmt::format("{:.2f} {:.2f} {}", blank.w, blank.h, operators)];
        if (form != nullptr) return form;
        form = objects_.stream(operators);
        objects_.put_name(form, "Type", "XObject");
        objects_.put_name(form, "Subtype", "Form");
        HPDF_Array box = objects_.array();
        objects_.put(form, "BBox", box);
        for (const double at : {0.0, 0.0, blank.w / mm_per_pt, blank.h / mm_per_pt})
            objects_.append_number(box, at);
        return form;
    }

    void appearance(HPDF_Dict widget, const Blank& blank) {
        const std::string empty = "q Q\n"; // an empty stream is refused by some readers
        HPDF_Dict looks = objects_.dict();
        objects_.put(widget, "AP", looks);
        if (!blank.is_tick) {
            objects_.put(looks, "N", picture(blank, empty));
            return;
        }
        HPDF_Dict states = objects_.dict();
        objects_.put(looks, "N", states);
        objects_.put_name(widget, "AS", "Off");
        const double w = blank.w / mm_per_pt, h = blank.h / mm_per_pt;
        objects_.put(states, "Yes",
                     picture(blank, fmt::format("q 2 w {:.2f} {:.2f} m {:.2f} {:.2f} l {:.2f} {:.2f} m {:.2f} {:.2f} l S Q\n", w * 0.18,
                                                h * 0.18, w * 0.82, h * 0.82, w * 0.18, h * 0.82, w * 0.82, h * 0.18)));
        objects_.put(states, "Off", picture(blank, empty));
    }

    HPDF_Array annotations(HPDF_Page on) {
        if (void* there = HPDF_Dict_GetItem(on, "Annots", HPDF_OCLASS_ARRAY); there != nullptr) return static_cast<HPDF_Array>(there);
        HPDF_Array made = objects_.array();
        objects_.put(on, "Annots", made);
        return made;
    }

    PdfObjects& objects_;
    HPDF_Array fields_;
    std::map<std::string, std::size_t> counts_; // of regions, by name
    std::map<std::string, HPDF_Dict> parents_;
    std::map<HPDF_Dict, HPDF_Array> kids_;
    std::map<std::string, HPDF_Dict> pictures_;
};

} // namespace

void write_form(PdfObjects& objects, const page::Document& document, const std::vector<HPDF_Page>& pages) {
    Form form(objects, document);
    for (std::size_t i = 0; i < pages.size(); ++i) {
        for (const page::Region& region : document.pages[i].regions)
            form.add(document.pages[i], pages[i], region);
        objects.put_name(pages[i], "Tabs", "W"); // ISO 32000-2: widgets in their order
    }
    form.finish();
}

} // namespace loomsheet
