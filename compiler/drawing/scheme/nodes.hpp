// The nodes of a scheme, and the ports at which the wires of each pin end.
#pragma once
#include "drawing/scheme/scheme.hpp"

namespace loomsheet::drawing {

struct End { // of a wire: a node and its port
    int node = none, port = 0;
    bool operator==(const End&) const = default;
};
struct SchemeSource { // what a scheme is made of
    const Circuit& circuit;
    const std::vector<double>& volts;
    const Probes& probes;
    const Measure& measure;
    const Extract& extract;
};
inline constexpr double same_volts = 1e-9; // what differs by less is at one height

class NodeMaker {
public:
    // Both outlive it. Makes a node for each part, splice and in-line pair, and for each pin that goes on elsewhere.
    NodeMaker(const SchemeSource& from, Scheme& scheme);
    // Of a pin that is not a ground: none where nothing of it is shown.
    End end_at(PinId pin) const { return end_of_[pin]; }
    // Likewise, with a symbol for each wire that goes to ground; neighbours are joined once their order is known.
    End end_of(PinId pin);
    End add_ground(PinId pin, PartId part);
    End add_page_mark(PinId pin, const std::string& words, bool from);

private:
    PartKind kind_of(PinId pin) const { return from_.circuit.parts[from_.circuit.pins[pin].part].kind; }
    void find_wired();
    void make_node(PartId part);
    void make_points_of_other_pages();
    bool is_partly_shown(const Part& part) const;
    void add_part(PartId part);
    void add_point(PinId pin, PartId part);
    void add_pair(PartId half);
    void add_loose_cavities(PartId plug);
    std::vector<int> checks_at(PinId pin, PinId other) const;
    Port named_port(PinId pin, bool top) const;

    const SchemeSource& from_;
    Scheme& scheme_;
    std::vector<char> wired_; // by pin
    std::vector<End> end_of_; // by pin
};

} // namespace loomsheet::drawing
