// A connector as one looks at it: the half, the view and the lock named, the probed cavity filled. A plan's `face 2 x
// 4` counts from the upper left on the mating face of the half it is declared on; every other view is turned from that.
#pragma once
#include "page/pen.hpp"
#include "sheet/words/spot.hpp"
#include "sheet/words/words.hpp"

namespace loomsheet {

struct Housing {
    PartId connector = none;
    View view = View::wire_side;
    struct Probe {
        PinId cavity = none;
        Word lead = Word::red; // its sign stands under the cavity when both leads are on this connector
        bool solid = false;
    };
    std::vector<Probe> probed; // one or two
    bool brief = false;        // little room: the lock is not said again where it is drawn
};

// Whether the view shows cavity 1 at the upper right.
bool is_mirrored(const Part& connector, View view);
// Draws it `width` wide and some `height` high at most from y down and its captions below; returns where it ends.
// Without a face in the plan only the captions are printed.
double housing(const Wording& say, Pen& pen, const Circuit& circuit, const Housing& seen, double x, double y, double width, double height);

} // namespace loomsheet
