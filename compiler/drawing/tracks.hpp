// The bars between two layers: which lies above which, so that few wires cross and none lies on another.
#pragma once
#include "drawing/columns.hpp"

namespace loomsheet::drawing {

struct Tracks {
    std::vector<int> of; // by net of the channel: from 0 at the top; none where the wire runs straight
    int count = 0;
    long crossings = 0;
    std::vector<Apart> apart; // what lies on one another in any order
};
Tracks lay_tracks(const Scheme& scheme, const Columns& columns, const std::vector<Net>& channel);

} // namespace loomsheet::drawing
