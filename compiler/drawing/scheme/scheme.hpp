// A circuit as nodes with ports, joined by edges that all lead down: what the layout works on. Made from the circuit
// and its volts; knows no millimetres but those of texts.
#pragma once
#include "drawing/scheme/grid.hpp"
#include "drawing/scheme/picture.hpp"
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace loomsheet::drawing {

enum class NodeKind : std::uint8_t {
    part,   // its grid, in an outline where it has several columns
    box,    // a labelled box with its pins
    cavity, // a pin of an in-line pair
    ground,
    point, // where wires meet: a splice, a pin with several wires
    turn,  // where a wire turns round
    to_page,
    from_page, // a wire, or a splice, that goes on elsewhere
    dummy,     // a wire that passes a row
};

struct Port {
    PinId pin = none; // none: a point's
    bool top = true;
    int column = 0;
    std::string name, inside; // beside the wire, in the box
    bool plug = false;
    std::vector<int> checks; // numbers of those that probe here
    double volts = 0;
    int label = none; // the edge whose colour and size stand here
};

// A port with nothing written beside it.
Port bare_port(bool top, PinId pin = none, double volts = 0);
// A line of a title.
Words title_line(const Measure& measure, Type type, const std::string& text);

struct Node {
    NodeKind kind = NodeKind::point;
    PartId part = none;
    std::vector<Port> ports;
    int columns = 1;
    Grid grid;
    std::vector<Words> title; // lines, without places
    bool outlined = false, rail = false, mirrored = false;
    bool incoming = false; // of a page's mark below its wire: the current comes from there
    bool topmost = false;  // a point with nothing above it: its name stands just over its bar
    // --- made by the layout
    int layer = 0;
    int first = none; // its first column among all
};

struct Edge {
    int from = none, to = none; // nodes
    int from_port = 0, to_port = 0;
    WireId wire = none;
    bool thick = false;      // the rail
    std::vector<int> checks; // that clamp the wire
};

struct Scheme {
    std::vector<Node> nodes;
    std::vector<Edge> edges;
    std::vector<std::vector<int>> parted; // in-line pairs: the nodes of each, by pair, to lie in one layer

    bool is_point(int node) const { return nodes[node].kind == NodeKind::point || nodes[node].kind == NodeKind::turn; }
    int add(Node node); // its index
    int add_turn(bool rail);
};

// Which checks probe where, by their printed numbers.
struct Probes {
    std::map<PinId, std::vector<int>> pins;
    std::map<WireId, std::vector<int>> wires;
};

// What is printed where a drawing goes on: "to circuit page 2" of "2".
struct Phrases {
    std::function<std::string(const std::string&pages)> to, from;
    std::string part; // of a module of which a page shows only some pins
};
// What a page shows: the parts and wires of `parts` and `wires` only (by id, nonzero); empty vectors mean all.
struct Extract {
    std::vector<char> parts, wires;
    // Pins whose current comes from, or goes on to, another page, and what to print there.
    std::map<PinId, std::string> from, to;
    std::string part_words;

    bool has_part(PartId part) const { return parts.empty() || parts[part]; }
    bool has_wire(const Circuit& circuit, WireId wire) const; // one whose ends are both known
};

Scheme make_scheme(const Circuit& circuit, const std::vector<double>& volts, const Probes& probes, const Measure& measure,
                   const Extract& extract = {});

} // namespace loomsheet::drawing
