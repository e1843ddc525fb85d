#include "sheet/face_utf8.hpp"
#include <array>
#include <cstddef>

namespace loomsheet {

char32_t take_character(std::string_view& rest) {
    struct Lead {
        unsigned mask, value;
        std::size_t length;
        char32_t least;
    };
    static constexpr std::array<Lead, 4> leads{
        {{0x80, 0x00, 1, 0}, {0xE0, 0xC0, 2, 0x80}, {0xF0, 0xE0, 3, 0x800}, {0xF8, 0xF0, 4, 0x10000}}};
    const auto first = static_cast<unsigned char>(rest.front());
    for (const Lead& lead : leads) {
        if ((first & lead.mask) != lead.value) continue;
        char32_t character = first & ~lead.mask & 0xFFu;
        bool sound = rest.size() >= lead.length;
        for (std::size_t i = 1; sound && i < lead.length; ++i) {
            const auto byte = static_cast<unsigned char>(rest[i]);
            sound = (byte & 0xC0u) == 0x80u;
            character = (character << 6) | (byte & 0x3Fu);
        }
        const bool surrogate = character >= 0xD800 && character <= 0xDFFF;
        if (!sound || character < lead.least || character > 0x10FFFF || surrogate) break;
        rest.remove_prefix(lead.length);
        return character;
    }
    rest.remove_prefix(1);
    return replacement_character;
}

} // namespace loomsheet
