// The wiring of a plan as its rules see it: the car at rest, what hangs on the supply, and what on ground.
#pragma once
#include "circuit/graph.hpp"
#include <vector>

namespace loomsheet {

// Something that needs a way to a supply and a way back to ground.
struct Consumer {
    PartId part = none;
    int element = none;                 // none: a module as a whole
    std::vector<NodeId> plus, minus;    // the part's own metals
    std::vector<PinId> plus_pins, minus_pins;
    bool either_way = true;             // it works whichever end is fed
};

struct Nets {
    explicit Nets(const Plan& plan);
    // Takes a wire out, or puts it back, and works out anew what hangs where.
    void cut(WireId wire);
    void restore(WireId wire);

    const Circuit& circuit;
    Graph graph;
    std::vector<NodeId> plus, minus;    // battery posts; minus: those that are not the + of another battery in series
    Reach hot, cold;                    // by conductors only, from + and from -
    Reach fed, grounded;                // by contacts and drivers too, as far as the other net's conductors
    std::vector<bool> wired;            // by node: a wire ends here
    std::vector<Consumer> consumers;

    bool has_source() const { return !plus.empty(); }
    // A wire end where no wire ends; splices and ground points are none.
    bool loose(NodeId node) const;
    bool bolted(PinId pin) const;
    bool joined(PinId pin) const; // by a wire, a splice or a bolt; also a pin inside an assembly
    // A pin of which the plan does not say what is behind it (an open socket, a module's own affair): a way may end there.
    bool beyond_the_plan(NodeId node) const;

private:
    void lay();
    void find_consumers();
    std::vector<bool> known_, open_;    // by node: an element ends here; a wired cavity of an open socket or of a module's own
};

} // namespace loomsheet
