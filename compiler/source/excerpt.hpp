// The part of a line that is shown under a finding, as it stands on a terminal.
#pragma once
#include "source/text.hpp"

namespace loomsheet {

struct Excerpt {
    std::string line;       // as typed; tabs as blanks, what cannot be shown as a picture of it; "…" where it is cut
    std::size_t before = 0; // columns from its left end to the place
    std::size_t marked = 1; // columns to underline, at least 1
};
// Only the first line of a place that runs over several. Never more than some 110 columns, cut around the place.
Excerpt excerpt_of(const SourceFile& file, Span at);

} // namespace loomsheet
