// A line of a table of readings: the number of the check, its points, what it reads, and one thing more.
#pragma once
#include "sheet/layout/context.hpp"

namespace loomsheet {

struct ReadingLine {
    std::string number, points, reads, more;
    bool marked = false; // the number stands in a solid tab
};
Box reading_line(LayoutContext& context, Span at, const ReadingLine& line);
// "X21.1 to X21.2", with the name of the row before it.
std::string points_told(const Wording& say, const Plan& plan, const Check& check, const Row& row);

} // namespace loomsheet
