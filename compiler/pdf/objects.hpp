// libharu's own objects (dictionaries, arrays, streams), each call checked: what fails throws PdfTrouble, and the
// document is dead from then on. An object that was added to another belongs to it.
#pragma once
#include <cstdint>
#include <hpdf.h>
#include <memory>
#include <string>
#include <string_view>

extern "C" {
#include <hpdf_doc.h>
#include <hpdf_info.h>
#include <hpdf_objects.h>
#include <hpdf_pages.h>
}

namespace loomsheet {

class PdfObjects {
public:
    PdfObjects();
    HPDF_Doc doc() const { return doc_.get(); }
    HPDF_Dict dict();
    HPDF_Dict numbered_dict();                // an object with a number of its own, to be referred to
    HPDF_Dict stream(std::string_view bytes); // numbered, compressed when it is worth it
    HPDF_Array array();
    void* words(std::string_view utf8); // a text string, as UTF-16 where it is not ASCII
    void put(HPDF_Dict dict, const char* key, void* object);
    void put_name(HPDF_Dict dict, const char* key, std::string_view name);
    void put_number(HPDF_Dict dict, const char* key, std::int32_t number);
    void append(HPDF_Array array, void* object);
    void append_number(HPDF_Array array, double number);
    void fill(HPDF_Dict stream, std::string_view bytes);
    // The finished file.
    std::string save();
    // Passes on what libharu made; throws when it made nothing or said no.
    template <class T>
    T* made(T* object) {
        if (object == nullptr) fail();
        return object;
    }
    void done(HPDF_STATUS status) {
        if (status != HPDF_OK) fail();
    }

private:
    struct Drop {
        void operator()(HPDF_Doc doc) const { HPDF_Free(doc); }
    };
    std::unique_ptr<HPDF_Doc_Rec, Drop> doc_;
    [[noreturn]] void fail() const;
};

} // namespace loomsheet
