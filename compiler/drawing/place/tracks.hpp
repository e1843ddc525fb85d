// Channel routing between two layers: the bar of each net gets a track, so that few wires cross and none lies on
// another.
#pragma once
#include "drawing/place/columns.hpp"

namespace loomsheet::drawing {

struct Tracks {
    std::vector<int> of; // by net of the channel: from 0 at the top; none where the wire runs straight
    int count = 0;
    std::vector<Apart> apart; // verticals that lie on one another in any order of the tracks
};
Tracks lay_tracks(const Scheme& scheme, const Columns& columns, const std::vector<Net>& channel);

} // namespace loomsheet::drawing
