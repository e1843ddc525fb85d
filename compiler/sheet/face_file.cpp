#include "sheet/face_file.hpp"
#include <array>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>
#include <map>
#include <optional>
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
    }
    for (const char* usual : {"/usr/share/fonts/truetype/liberation", "/usr/share/fonts/truetype/liberation2",
                              "/usr/share/fonts/truetype/dejavu", "/usr/local/share/fonts"}) {
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

// The sum of all 32-bit words, the last one filled up with zeros.
std::uint32_t checksum(Bytes table) {
    std::uint32_t sum = 0;
    std::size_t at = 0;
    for (; at + 4 <= table.size; at += 4)
        sum += table.u32(at);
    for (std::uint32_t shift = 24; at < table.size; ++at, shift -= 8)
        sum += std::uint32_t{table.data[at]} << shift;
    return sum;
}

constexpr std::size_t directory_at = 12, record_size = 16, head_size = 54, head_adjustment_at = 8;

// What is wrong with the file; empty when it is sound.
std::string flaw(Bytes file) {
    if (file.size < directory_at) return "it is too short";
    if (const std::uint32_t kind = file.u32(0); kind != 0x00010000 && kind != HB_TAG('t', 'r', 'u', 'e')) {
        return "it holds no TrueType outlines";
    }
    const std::size_t count = file.u16(4);
    if (file.size < directory_at + count * record_size) return "its list of tables is cut off";

    std::map<hb_tag_t, Bytes> tables;
    for (std::size_t i = 0; i < count; ++i) {
        const Bytes record = file.part(directory_at + i * record_size, record_size);
        const hb_tag_t tag = record.u32(0);
        const std::string name{HB_UNTAG(tag)};
        const std::size_t at = record.u32(8), length = record.u32(12);
        if (at > file.size || length > file.size - at) return fmt::format("its table {} is cut off", name);
        const Bytes table = file.part(at, length);
        std::uint32_t sum = checksum(table);
        if (tag == HB_TAG('h', 'e', 'a', 'd')) {
            if (length < head_size) return "its table head is cut off";
            sum -= table.u32(head_adjustment_at);
        }
        if (sum != record.u32(4)) return fmt::format("its table {} does not agree with its checksum", name);
        tables.insert_or_assign(tag, table);
    }
    const auto size_of = [&](const char* name) {
        const auto found = tables.find(hb_tag_from_string(name, 4));
        return found == tables.end() ? 0 : found->second.size;
    };
    struct Need {
        const char* table;
        std::size_t least;
    };
    for (const auto& [name, least] : {Need{"head", head_size}, Need{"hhea", 36}, Need{"maxp", 6}, Need{"hmtx", 4},
                                      Need{"loca", 4}, Need{"glyf", 1}, Need{"cmap", 4}}) {
        if (size_of(name) < least) return fmt::format("its table {} is missing or cut off", name);
    }
    const Bytes head = tables.at(HB_TAG('h', 'e', 'a', 'd'));
    const std::size_t glyphs = tables.at(HB_TAG('m', 'a', 'x', 'p')).u16(4);
    const std::size_t widths = tables.at(HB_TAG('h', 'h', 'e', 'a')).u16(34);
    const std::size_t units = head.u16(18), loca_entry = head.u16(50) == 0 ? 2 : 4;
    if (units < 16 || units > 16384) return fmt::format("its em of {} units is none", units);
    if (glyphs == 0) return "it has no glyphs";
    if (widths == 0 || widths > glyphs || size_of("hmtx") < 4 * widths + 2 * (glyphs - widths)) {
        return "it does not have a width for each glyph";
    }
    if (size_of("loca") < (glyphs + 1) * loca_entry) return "it does not have an outline for each glyph";
    return {};
}

} // namespace

std::string find_font_file(const std::string& name) {
    for (const std::string& folder : font_folders()) {
        std::error_code ignored; // a folder that cannot be read holds nothing for us
        const std::string path = folder + "/" + name;
        if (std::filesystem::is_regular_file(path, ignored)) return path;
    }
    return {};
}

std::string font_folders_in_words() { return fmt::format("{}", fmt::join(font_folders(), ", ")); }

FontFace open_font_file(const std::string& path) {
    const std::unique_ptr<hb_blob_t, decltype(&hb_blob_destroy)> blob(hb_blob_create_from_file_or_fail(path.c_str()),
                                                                      &hb_blob_destroy);
    if (!blob) return {nullptr, fmt::format("The font file {} cannot be read.", path)};
    unsigned size = 0;
    const char* data = hb_blob_get_data(blob.get(), &size);
    if (const std::string found = flaw({reinterpret_cast<const unsigned char*>(data), size}); !found.empty()) {
        return {nullptr, fmt::format("The font file {} is damaged: {}. Install its package again.", path, found)};
    }
    FontFace opened;
    opened.face.reset(hb_face_create(blob.get(), 0));
    hb_face_make_immutable(opened.face.get());
    return opened;
}

} // namespace loomsheet
