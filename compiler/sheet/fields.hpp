// A row of frames to write in: head of the job, sign-off.
#pragma once
#include "sheet/draft.hpp"
#include "sheet/words.hpp"

namespace loomsheet {

struct FieldSpec {
    Word caption;
    double columns; // of twelve
    std::string unit;
    std::string filled; // printed in it already
};
// A text filled in wraps and makes the row higher. `name` starts the names of the regions.
Piece field_row(Draft& draft, const std::vector<FieldSpec>& specs, const std::string& name);

} // namespace loomsheet
