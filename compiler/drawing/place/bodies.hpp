// How far each node reaches and where its columns stand within it, as the search of an order reckons: quickly, some
// thousand times a drawing.
#pragma once
#include "drawing/place/blocks.hpp"
#include "drawing/scheme/measures.hpp"

namespace loomsheet::drawing {

struct Body {
    double left = 0, right = 0; // from the node's own x, with all words
    std::vector<double> offset; // by column: from the node's own x
};
class Bodies {
public:
    // `layered` outlives it; its parts may be mirrored.
    Bodies(const Ruler& ruler, Layered& layered);
    // A box's pins follow what they lead to; a part is mirrored where more of its wires then run straight. `place` is
    // each block's in the order.
    void arrange_ports(const Blocks& blocks, const Neighbours& neighbours, const std::vector<int>& place);
    const Body& operator[](int node) const { return bodies_[node]; }
    // The columns of boxes from left to right, in the order of their offsets.
    void number_pins();

private:
    double words_pitch(int node, int a, int b) const;
    void place_columns_of(int node);
    void take_reach(int node);
    void arrange_pins(int node, const std::vector<double>& aim);
    void mirror_where_straighter(int node, const std::vector<double>& aim);

    std::vector<Node>& nodes_;
    std::vector<Sizes> sizes_, mirrored_sizes_;
    std::vector<int> wide_; // nodes of several columns
    std::vector<Body> bodies_;
    std::vector<double> aim_; // by port of the node that is arranged; none: -1
};
// A second column is right of its first: such a part is not mirrored.
bool can_mirror(const Node& node);
void mirror(Node& node);

} // namespace loomsheet::drawing
