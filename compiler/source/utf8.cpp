#include "source/utf8.hpp"
#include <algorithm>
#include <iterator>

namespace loomsheet {

namespace {
constexpr bool continues(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80; }

struct Shape { // of a sequence, from its first byte
    std::size_t bytes;
    char32_t smallest; // what a longer sequence than needed would fall below
};
constexpr Shape shape_of(unsigned char first) {
    if (first < 0x80) return {1, 0};
    if (first >= 0xC2 && first < 0xE0) return {2, 0x80};
    if (first >= 0xE0 && first < 0xF0) return {3, 0x800};
    if (first >= 0xF0 && first < 0xF5) return {4, 0x10000};
    return {0, 0};
}

struct Range {
    char32_t first, last;
};
constexpr bool operator<(const Range& range, char32_t code) { return range.last < code; }
template <std::size_t size>
bool holds(const Range (&ranges)[size], char32_t code) {
    const auto at = std::lower_bound(std::begin(ranges), std::end(ranges), code);
    return at != std::end(ranges) && at->first <= code;
}

// East_Asian_Width W and F (Unicode 14, UAX 11), neighbours joined over code points that are not assigned.
constexpr Range wide[] = {
    {0x1100, 0x115F},   {0x231A, 0x231B},   {0x2329, 0x232A},   {0x23E9, 0x23EC},   {0x23F0, 0x23F0},   {0x23F3, 0x23F3},
    {0x25FD, 0x25FE},   {0x2614, 0x2615},   {0x2648, 0x2653},   {0x267F, 0x267F},   {0x2693, 0x2693},   {0x26A1, 0x26A1},
    {0x26AA, 0x26AB},   {0x26BD, 0x26BE},   {0x26D4, 0x26D4},   {0x26EA, 0x26EA},   {0x26FD, 0x26FD},   {0x2705, 0x2705},
    {0x270A, 0x270B},   {0x274C, 0x274C},   {0x2753, 0x2755},   {0x2757, 0x2757},   {0x2795, 0x2797},   {0x2B1B, 0x2B1C},
    {0x2B50, 0x2B50},   {0x2E80, 0x303E},   {0x3041, 0x3247},   {0x3250, 0x4DBF},   {0x4E00, 0xA4C6},   {0xA960, 0xA97C},
    {0xAC00, 0xD7A3},   {0xF900, 0xFAD9},   {0xFE10, 0xFE19},   {0xFE30, 0xFE6B},   {0xFF01, 0xFF60},   {0xFFE0, 0xFFE6},
    {0x16FE0, 0x1B2FB}, {0x1F300, 0x1F320}, {0x1F32D, 0x1F335}, {0x1F337, 0x1F37C}, {0x1F3A0, 0x1F3CA}, {0x1F3E0, 0x1F3F0},
    {0x1F400, 0x1F43E}, {0x1F442, 0x1F4FC}, {0x1F4FF, 0x1F53D}, {0x1F550, 0x1F567}, {0x1F5FB, 0x1F64F}, {0x1F680, 0x1F6C5},
    {0x1F90C, 0x1F93A}, {0x1F93C, 0x1F945}, {0x1F947, 0x1F9FF}, {0x1FA70, 0x1FAF6}, {0x20000, 0x3134A},
};
// General categories Mn, Me and Cf (Unicode 14) of Latin, Greek, Cyrillic, Hebrew, Arabic, kana, and the marks of all
// scripts.
constexpr Range without_width[] = {
    {0x300, 0x36F},   {0x483, 0x489},   {0x591, 0x5BD},   {0x5BF, 0x5BF},   {0x5C1, 0x5C2},     {0x5C4, 0x5C5},
    {0x5C7, 0x5C7},   {0x610, 0x61A},   {0x61C, 0x61C},   {0x64B, 0x65F},   {0x670, 0x670},     {0x6D6, 0x6DC},
    {0x6DF, 0x6E4},   {0x6E7, 0x6E8},   {0x6EA, 0x6ED},   {0x1AB0, 0x1ACE}, {0x1DC0, 0x1DFF},   {0x200B, 0x200F},
    {0x202A, 0x202E}, {0x2060, 0x206F}, {0x20D0, 0x20F0}, {0x2DE0, 0x2DFF}, {0x302A, 0x302D},   {0x3099, 0x309A},
    {0xFB1E, 0xFB1E}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0xFEFF, 0xFEFF}, {0xE0001, 0xE01EF},
};
constexpr bool turns_direction(char32_t code) { return (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069); }
} // namespace

Character character_at(std::string_view text, std::size_t offset) {
    if (offset >= text.size()) return {};
    constexpr Character bad{0xFFFD, 1, false};
    const auto first = static_cast<unsigned char>(text[offset]);
    const Shape shape = shape_of(first);
    if (shape.bytes == 1) return {first, 1, true};
    if (shape.bytes == 0 || text.size() - offset < shape.bytes) return bad;
    char32_t code = first & (0xFFU >> (shape.bytes + 1));
    for (std::size_t i = 1; i < shape.bytes; ++i) {
        if (!continues(text[offset + i])) return bad;
        code = (code << 6) | (static_cast<unsigned char>(text[offset + i]) & 0x3FU);
    }
    const bool surrogate = code >= 0xD800 && code < 0xE000;
    if (code < shape.smallest || surrogate || code > 0x10FFFF) return bad;
    return {code, shape.bytes, true};
}

std::size_t character_begin(std::string_view text, std::size_t offset) {
    for (std::size_t back = 0; back < 4 && back <= offset; ++back)
        if (offset - back < text.size() && !continues(text[offset - back])) return offset - back;
    return offset;
}

std::size_t count_characters(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char byte) { return !continues(byte); }));
}

int columns_of(char32_t code) {
    if (code < 0x300) return 1;
    if (turns_direction(code)) return 1; // shown as U+FFFD
    if (holds(without_width, code)) return 0;
    return holds(wide, code) ? 2 : 1;
}

void append_printable(std::string& out, const Character& character, std::string_view as_typed) {
    if (character.code < 0x20) {
        out += "\xE2\x90";
        out += static_cast<char>(0x80 + character.code);
    } else if (character.code == 0x7F) {
        out += "\xE2\x90\xA1";
    } else if (!character.good || (character.code >= 0x80 && character.code < 0xA0) || turns_direction(character.code)) {
        out += "\xEF\xBF\xBD";
    } else {
        out += as_typed;
    }
}

std::string printable(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    for (std::size_t at = 0; at < text.size();) {
        const Character character = character_at(text, at);
        append_printable(out, character, text.substr(at, character.bytes));
        at += character.bytes;
    }
    return out;
}

} // namespace loomsheet
