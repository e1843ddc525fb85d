#include "page/face_file.hpp"
#include <array>
#include <bit>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fmt/format.h>
#include <string_view>
#include <vector>

namespace loomsheet {

namespace {

std::vector<std::string> font_folders() {
    std::vector<std::string> folders;
    if (const char* own = std::getenv("LOOMSHEET_FONTS")) {
        std::string_view rest = own;
        while (!rest.empty()) {
            const std::string_view one = rest.substr(0, rest.find(':'));
            if (!one.empty()) folders.emplace_back(one);
            rest.remove_prefix(std::min(rest.size(), one.size() + 1));
        }
        return folders;
    }
    for (const char* usual : {"/usr/share/fonts/truetype/liberation", "/usr/share/fonts/truetype/liberation2",
                              "/usr/share/fonts/truetype/dejavu", "/usr/share/fonts/truetype/droid", "/usr/local/share/fonts"}) {
        folders.emplace_back(usual);
    }
    return folders;
}

struct Bytes {
    const unsigned char* data;
    std::size_t size;
    std::uint32_t u16(std::size_t at) const { return data[at] * 0x100u + data[at + 1]; }
    std::uint32_t u32(std::size_t at) const { return u16(at) * 0x10000u + u16(at + 2); }
    Bytes part(std::size_t at, std::size_t length) const { return {data + at, length}; }
};

// The sum of all 32-bit words, the last one padded with zeros. Whole fonts are summed, so whole words are read.
std::uint32_t checksum(Bytes table) {
    std::uint32_t sum = 0;
    std::size_t at = 0;
    for (; at + 4 <= table.size; at += 4) {
        std::uint32_t word = 0;
        std::memcpy(&word, table.data + at, 4);
        sum += std::endian::native == std::endian::little ? __builtin_bswap32(word) : word;
    }
    for (std::uint32_t shift = 24; at < table.size; ++at, shift -= 8)
        sum += std::uint32_t{table.data[at]} << shift;
    return sum;
}

// A table as the directory of the file lists it; no bytes when it is not listed.
struct Table {
    Bytes bytes{nullptr, 0};
    std::string flaw;
};

constexpr std::size_t directory_at = 12, record_size = 16, head_size = 54, head_adjustment_at = 8;

Table find_table(Bytes file, const char* name, std::size_t least) {
    const hb_tag_t tag = hb_tag_from_string(name, 4);
    for (std::size_t i = 0; i < file.u16(4); ++i) {
        const Bytes record = file.part(directory_at + i * record_size, record_size);
        if (record.u32(0) != tag) continue;
        const std::size_t at = record.u32(8), length = record.u32(12);
        if (at > file.size || length > file.size - at || length < least) break;
        const Bytes table = file.part(at, length);
        const std::uint32_t own = tag == HB_TAG('h', 'e', 'a', 'd') ? table.u32(head_adjustment_at) : 0;
        if (checksum(table) - own == record.u32(4)) return {table, {}};
        return {{nullptr, 0}, fmt::format("its table {} does not agree with its checksum", name)};
    }
    return {{nullptr, 0}, fmt::format("its table {} is missing or cut off", name)};
}

// What is wrong with all but the outlines; empty when they are sound.
std::string flaw_of_measures(Bytes file) {
    if (file.size < directory_at) return "it is too short";
    if (const std::uint32_t kind = file.u32(0); kind != 0x00010000 && kind != HB_TAG('t', 'r', 'u', 'e')) {
        return "it holds no TrueType outlines";
    }
    if (file.size < directory_at + file.u16(4) * record_size) return "its list of tables is cut off";

    const Table head = find_table(file, "head", head_size), maxp = find_table(file, "maxp", 6);
    const Table hhea = find_table(file, "hhea", 36), hmtx = find_table(file, "hmtx", 4);
    const Table loca = find_table(file, "loca", 4), cmap = find_table(file, "cmap", 4);
    for (const Table& table : {head, maxp, hhea, hmtx, loca, cmap}) {
        if (!table.flaw.empty()) return table.flaw;
    }
    const std::size_t glyphs = maxp.bytes.u16(4), widths = hhea.bytes.u16(34);
    const std::size_t units = head.bytes.u16(18), loca_entry = head.bytes.u16(50) == 0 ? 2 : 4;
    if (units < 16 || units > 16384) return fmt::format("its em of {} units is none", units);
    if (glyphs == 0) return "it has no glyphs";
    if (widths == 0 || widths > glyphs || hmtx.bytes.size < 4 * widths + 2 * (glyphs - widths)) {
        return "it does not have a width for each glyph";
    }
    if (loca.bytes.size < (glyphs + 1) * loca_entry) return "it does not have an outline for each glyph";
    return {};
}

Bytes bytes_of(hb_blob_t* blob) {
    unsigned size = 0;
    const char* data = hb_blob_get_data(blob, &size);
    return {reinterpret_cast<const unsigned char*>(data), size};
}

std::string in_words(const std::string& path, const std::string& flaw) {
    if (flaw.empty()) return {};
    return fmt::format("The font file {} is damaged: {}. Install its package again.", path, flaw);
}

using Blob = std::unique_ptr<hb_blob_t, decltype(&hb_blob_destroy)>;

} // namespace

std::string find_font_file(const std::string& name) {
    for (const std::string& folder : font_folders()) {
        std::error_code ignored; // a folder that cannot be read holds nothing for us
        std::string path = folder + "/" + name;
        if (std::filesystem::is_regular_file(path, ignored)) return path;
    }
    return {};
}

std::string font_folders_in_words() { return fmt::format("{}", fmt::join(font_folders(), ", ")); }

FontFace open_font_file(const std::string& path) {
    const Blob blob(hb_blob_create_from_file_or_fail(path.c_str()), &hb_blob_destroy);
    if (!blob) return {nullptr, fmt::format("The font file {} cannot be read.", path)};
    FontFace opened;
    opened.error = in_words(path, flaw_of_measures(bytes_of(blob.get())));
    if (!opened.error.empty()) return opened;
    opened.face.reset(hb_face_create(blob.get(), 0));
    hb_face_make_immutable(opened.face.get());
    return opened;
}

std::string flaw_of_outlines(hb_face_t* face, const std::string& path) {
    const Blob blob(hb_face_reference_blob(face), &hb_blob_destroy);
    return in_words(path, find_table(bytes_of(blob.get()), "glyf", 1).flaw);
}

} // namespace loomsheet
