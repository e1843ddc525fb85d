#include "sheet/words/words.hpp"

namespace loomsheet {
namespace {

constexpr WordRow word_table[] = {
#define WORD(name, places) {#name, places},
#include "sheet/words/word_list.inc"
#undef WORD
};

} // namespace

std::span<const WordRow> word_rows() { return word_table; }

} // namespace loomsheet
