#include "pdf/objects.hpp"
#include "page/face_utf8.hpp"
#include "pdf/trouble.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <zlib.h>

namespace loomsheet {

namespace {

void keep_quiet(HPDF_STATUS, HPDF_STATUS, void*) {} // errors are read from the results of the calls

// libharu would compress by itself, but at zlib's usual level only, which takes twice as long for 4 % less.
std::string deflated(std::string_view bytes) {
    constexpr int level = 1;
    uLongf size = compressBound(bytes.size());
    std::string made(size, '\0');
    if (compress2(reinterpret_cast<Bytef*>(made.data()), &size, reinterpret_cast<const Bytef*>(bytes.data()), bytes.size(), level) != Z_OK)
        throw PdfTrouble("zlib could not compress a part of the document.");
    made.resize(size);
    return made;
}

HPDF_STATUS name_filter(HPDF_Dict, HPDF_Stream out) { return HPDF_Stream_WriteStr(out, "/Filter /FlateDecode\n"); }

} // namespace

PdfObjects::PdfObjects() : doc_(HPDF_New(keep_quiet, nullptr)) {
    if (!doc_) throw PdfTrouble("libharu could not begin a document.");
}

void PdfObjects::fail() const {
    throw PdfTrouble(fmt::format("libharu gave up on the document (its error 0x{:04X}).", HPDF_GetError(doc_.get())));
}

HPDF_Dict PdfObjects::dict() { return made(HPDF_Dict_New(doc_->mmgr)); }

HPDF_Dict PdfObjects::numbered_dict() {
    HPDF_Dict object = dict();
    done(HPDF_Xref_Add(doc_->xref, object));
    return object;
}

HPDF_Dict PdfObjects::stream(std::string_view bytes) {
    HPDF_Dict object = made(HPDF_DictStream_New(doc_->mmgr, doc_->xref));
    fill(object, bytes);
    return object;
}

void PdfObjects::fill(HPDF_Dict stream, std::string_view bytes) {
    constexpr std::size_t worth_compressing = 512;
    const std::string smaller = bytes.size() >= worth_compressing ? deflated(bytes) : std::string{};
    if (!smaller.empty()) {
        stream->write_fn = name_filter;
        bytes = smaller;
    }
    done(HPDF_Stream_Write(stream->stream, reinterpret_cast<const HPDF_BYTE*>(bytes.data()), static_cast<HPDF_UINT>(bytes.size())));
}

HPDF_Array PdfObjects::array() { return made(HPDF_Array_New(doc_->mmgr)); }

void* PdfObjects::words(std::string_view utf8) {
    if (std::all_of(utf8.begin(), utf8.end(), [](char c) { return c >= ' ' && c <= '~'; })) {
        return made(HPDF_String_New(doc_->mmgr, std::string(utf8).c_str(), nullptr));
    }
    std::string utf16;
    const auto unit = [&](char32_t half) {
        utf16 += static_cast<char>(half >> 8);
        utf16 += static_cast<char>(half & 0xFF);
    };
    unit(0xFEFF);
    while (!utf8.empty()) {
        const char32_t character = take_character(utf8);
        if (character > 0xFFFF) {
            unit(0xD800 + ((character - 0x10000) >> 10));
            unit(0xDC00 + ((character - 0x10000) & 0x3FF));
        } else if (!is_unseen(character)) {
            unit(character);
        }
    }
    return made(HPDF_Binary_New(doc_->mmgr, reinterpret_cast<HPDF_BYTE*>(utf16.data()), static_cast<HPDF_UINT>(utf16.size())));
}

void PdfObjects::put(HPDF_Dict dict, const char* key, void* object) { done(HPDF_Dict_Add(dict, key, object)); }

void PdfObjects::put_name(HPDF_Dict dict, const char* key, std::string_view name) {
    done(HPDF_Dict_AddName(dict, key, std::string(name).c_str()));
}

void PdfObjects::put_number(HPDF_Dict dict, const char* key, std::int32_t number) { done(HPDF_Dict_AddNumber(dict, key, number)); }

void PdfObjects::append(HPDF_Array array, void* object) { done(HPDF_Array_Add(array, object)); }

void PdfObjects::append_number(HPDF_Array array, double number) {
    if (number == std::floor(number)) {
        done(HPDF_Array_AddNumber(array, static_cast<HPDF_INT32>(number)));
    } else {
        done(HPDF_Array_AddReal(array, static_cast<HPDF_REAL>(number)));
    }
}

std::string PdfObjects::save() {
    done(HPDF_SaveToStream(doc_.get()));
    std::string bytes(HPDF_GetStreamSize(doc_.get()), '\0');
    auto size = static_cast<HPDF_UINT32>(bytes.size());
    done(HPDF_ReadFromStream(doc_.get(), reinterpret_cast<HPDF_BYTE*>(bytes.data()), &size));
    done(HPDF_GetError(doc_.get()));
    return bytes;
}

} // namespace loomsheet
