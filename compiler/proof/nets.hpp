// The wiring of a plan as its rules see it: the car at rest, what hangs on the supply, and what on ground.
#pragma once
#include "circuit/graph.hpp"
#include "proof/doubt.hpp"
#include <vector>

namespace loomsheet {

// Something that needs a way to a supply and a way back to ground.
struct Consumer {
    PartId part = none;
    int element = none;              // none: a module as a whole
    std::vector<NodeId> plus, minus; // the part's own metals
    std::vector<PinId> plus_pins, minus_pins;
    bool either_way = true; // it works whichever end is fed
};

struct Nets {
    Nets(const Plan& plan, const Doubt& doubt);
    // Takes a wire out, or puts it back, and works out anew what hangs where.
    void cut(WireId wire);
    void restore(WireId wire);

    const Circuit& circuit;
    Graph graph;
    std::vector<NodeId> plus, minus; // battery posts; minus: those that are not the + of another battery in series
    Reach hot, cold;                 // by conductors only, from + and from -
    Reach fed, grounded;             // by contacts and drivers too, as far as the other net's conductors
    std::vector<bool> wired;         // by node: a wire ends here
    std::vector<Consumer> consumers;
    std::vector<NodeId> lost_wires; // wires one of whose ends was left out: where the other ends

    bool has_source() const { return !plus.empty(); }
    bool has_lost_plug() const { return lost_plug_; } // a connector of which it is not known what it plugs into
    // A wire end where no wire ends; splices and ground points are none.
    bool loose(NodeId node) const;
    bool bolted(PinId pin) const;
    bool joined(PinId pin) const; // by a wire, a splice or a bolt; also a pin inside an assembly
    // Written in a file that other plans use too: what is left open there may be theirs.
    bool is_shared(Span at) const { return at.file != own_file_; }
    // A pin of which the plan does not say what is behind it (an open socket, a module's own affair): a way may end
    // there.
    bool beyond_the_plan(NodeId node) const;

private:
    void lay();
    void mark_ends(const Doubt& doubt);
    void find_consumers(const Doubt& doubt);
    std::vector<bool> known_; // by node of a part: what is behind it is known
    std::vector<bool> open_;  // by node of wire ends: it leads out of the plan, or to what was left out
    bool lost_plug_ = false;
    std::uint32_t own_file_;
};

} // namespace loomsheet
