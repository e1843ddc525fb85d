// What each page of a drawing shows, and where it says that a wire, a splice or an element goes on elsewhere.
#pragma once
#include "drawing/paging.hpp"

namespace loomsheet::drawing {

// `pages` are their groups put together.
std::vector<Extract> extracts_of(const Strands& strands, const std::vector<double>& volts, const std::vector<Group>& pages,
                                 const Phrases& phrases);

} // namespace loomsheet::drawing
