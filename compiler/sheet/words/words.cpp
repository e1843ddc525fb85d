#include "sheet/words/words.hpp"
#include "sheet/words/wording.hpp"

namespace loomsheet {
namespace {

constexpr WordRow word_table[] = {
#define WORD(name, places) {#name, places},
#include "sheet/words/word_list.inc"
#undef WORD
};

constinit thread_local const Wording* spoken = nullptr;

} // namespace

std::span<const WordRow> word_rows() { return word_table; }

Speaking::Speaking(const Wording& wording) : before_(spoken) { spoken = &wording; }
Speaking::~Speaking() { spoken = before_; }

std::string_view text_of(Word word) {
    const Wording& wording = spoken ? *spoken : english();
    return wording.texts[static_cast<std::size_t>(word)];
}

} // namespace loomsheet
