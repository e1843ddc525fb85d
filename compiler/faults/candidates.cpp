#include "faults/candidates.hpp"
#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace loomsheet {
namespace {

// How often one of a kind fails against the others: common practice, no source.
double usual_share(PartKind kind) {
    switch (kind) {
    case PartKind::lamp: return 6;
    case PartKind::ground: return 3;
    case PartKind::motor:
    case PartKind::relay:
    case PartKind::sensor:
    case PartKind::battery: return 2;
    case PartKind::module: return 0.3;
    default: return 1;
    }
}
constexpr double joint_share = 2, wire_share = 1; // a joint fails oftener than a wire

// Ohms that corrosion adds, in bands that together leave no gap.
struct Band {
    double low, high;
    std::string_view words;
};
constexpr Band bands[] = {
    {0.003, 0.01, "3 .. 10 mohm"},  {0.01, 0.03, "10 .. 30 mohm"}, {0.03, 0.1, "30 .. 100 mohm"},
    {0.1, 0.3, "0.1 .. 0.3 ohm"},   {0.3, 1, "0.3 .. 1 ohm"},      {1, 3, "1 .. 3 ohm"},
    {3, 10, "3 .. 10 ohm"},         {10, 100, "10 .. 100 ohm"},    {100, 1000, "100 .. 1000 ohm"},
    {1e3, 1e4, "1 .. 10 kohm"},
};

Quantity ohms(double low, double high) {
    Quantity made;
    made.si = (low + high) / 2, made.plus_minus = (high - low) / 2;
    made.unit = find_unit("ohm");
    return made;
}

class Lister {
public:
    explicit Lister(const Circuit& circuit) : circuit_(circuit) {}

    std::vector<Candidate> list() {
        for (WireId wire = 0; wire < static_cast<WireId>(circuit_.wires.size()); ++wire)
            add_wire(wire);
        const Graph graph = build_graph(circuit_);
        for (const Edge& edge : graph.edges)
            if (edge.kind == EdgeKind::joint) add_joint(edge.pin);
        for (PartId part = 0; part < static_cast<PartId>(circuit_.parts.size()); ++part)
            add_part(part);
        return std::move(list_);
    }

private:
    void add(const Suspect& suspect, double likely, PointRef at, FaultKind kind, std::string words, MaybeQuantity value = {}) {
        Candidate made;
        made.suspect = suspect, made.likely = likely;
        made.fault.at_point = std::move(at), made.fault.kind = kind, made.fault.words = std::move(words);
        made.fault.value = std::move(value);
        list_.push_back(std::move(made));
    }
    // Half of what befalls a joint is an open one, half is spread over the bands.
    void add_resistance(const Suspect& suspect, double likely, const PointRef& at) {
        add(suspect, likely / 2, at, FaultKind::open, "open");
        for (const Band& band : bands)
            add(suspect, likely / 2 / static_cast<double>(std::size(bands)), at, FaultKind::added, std::string(band.words),
                ohms(band.low, band.high));
    }

    void add_wire(WireId id) {
        const Wire& wire = circuit_.wires[id];
        if (wire.from == none || wire.to == none) return;
        const Suspect suspect{none, id, none};
        PointRef at;
        at.wire = id, at.metal = Metal::whole;
        const double likely = wire_share * wire.likely;
        add_resistance(suspect, likely * 0.8, at);
        add(suspect, likely * 0.2, at, FaultKind::to_ground, "touches ground");
    }

    void add_joint(PinId pin) {
        PointRef at;
        at.pin = pin, at.part = circuit_.pins[pin].part, at.metal = Metal::joint;
        add_resistance({none, none, pin}, joint_share * circuit_.parts[at.part].likely, at);
    }

    void add_part(PartId id) {
        const Part& part = circuit_.parts[id];
        const Suspect suspect{id, none, none};
        PointRef whole;
        whole.part = id, whole.metal = Metal::whole;
        const double likely = usual_share(part.kind) * part.likely;
        switch (part.kind) {
        case PartKind::ground: return add_resistance(suspect, likely, whole);
        case PartKind::fuse:
        case PartKind::breaker: return add(suspect, likely, whole, FaultKind::blown, "blown");
        case PartKind::battery: return add(suspect, likely, whole, FaultKind::weak, "weak");
        case PartKind::module: add(suspect, likely / 2, whole, FaultKind::open, "open"); break;
        case PartKind::motor:
            add(suspect, likely / 4, whole, FaultKind::seized, "seized");
            add(suspect, likely / 4, whole, FaultKind::worn, "worn");
            break;
        default: break;
        }
        for (const Element& element : part.elements)
            add_element(suspect, likely, element);
    }

    void add_element(const Suspect& suspect, double likely, const Element& element) {
        PointRef at;
        at.part = suspect.part, at.metal = Metal::whole;
        for (const PinId pin : {element.a, element.b, element.c})
            if (pin != none) at.pins.push_back(pin);
        switch (element.kind) {
        case ElementKind::contact:
            for (const PinId other : {element.b, element.c}) {
                if (other == none) continue;
                at.pins = {element.a, other};
                add(suspect, likely / 4, at, FaultKind::stuck_open, "stuck open");
                add(suspect, likely / 8, at, FaultKind::stuck_closed, "stuck closed");
                for (const Band& band : bands)
                    add(suspect, likely / 4 / static_cast<double>(std::size(bands)), at, FaultKind::added, std::string(band.words),
                        ohms(band.low, band.high));
            }
            return;
        case ElementKind::module_output:
            at.pins = {element.a};
            add(suspect, likely / 4, at, FaultKind::stuck_open, "stuck open");
            add(suspect, likely / 8, at, FaultKind::stuck_closed, "stuck closed");
            return;
        case ElementKind::diode:
        case ElementKind::hall: return add(suspect, likely / 4, at, FaultKind::open, "open");
        case ElementKind::pull_up:
        case ElementKind::module_gives:
        case ElementKind::input: at.pins = {element.a}; return add(suspect, likely / 8, at, FaultKind::open, "open");
        case ElementKind::source:
        case ElementKind::link: return;
        default:
            add(suspect, likely / 2, at, FaultKind::open, "open");
            add(suspect, likely / 8, at, FaultKind::reads, "shorted inside", ohms(0.05, 0.05));
        }
    }

    const Circuit& circuit_;
    std::vector<Candidate> list_;
};

} // namespace

std::vector<Candidate> all_faults(const Circuit& circuit) { return Lister(circuit).list(); }

std::string suspect_name(const Circuit& circuit, const Suspect& suspect) {
    if (suspect.wire != none) return circuit.wires[suspect.wire].id;
    if (suspect.joint != none) return "joint " + circuit.pin_name(suspect.joint);
    return circuit.part_name(suspect.part);
}

bool names(const Circuit& circuit, const PointRef& point, const Candidate& candidate) {
    const Suspect& suspect = candidate.suspect;
    if (point.wire != none) return suspect.wire == point.wire;
    if (!point.pins.empty()) {
        if (suspect.part != point.part) return false;
        const std::vector<PinId>& pins = candidate.fault.at_point.pins; // of a whole part: that element too is in it
        return std::all_of(pins.begin(), pins.end(), [&](PinId pin) {
            return std::find(point.pins.begin(), point.pins.end(), pin) != point.pins.end();
        }) && !pins.empty();
    }
    if (point.pin == none) { // all of a part, and what is in it; of a plug, all of its joints
        if (point.part == none) return false;
        if (suspect.part == point.part) return true;
        if (suspect.part != none && circuit.parts[suspect.part].assembly == point.part) return true;
        const PartId of = suspect.joint == none ? PartId{none} : circuit.pins[suspect.joint].part;
        return of != none && of == point.part && circuit.parts[of].kind == PartKind::connector;
    }
    if (point.metal == Metal::joint) return suspect.joint != none && (suspect.joint == point.pin || suspect.joint == circuit.mate(point.pin));
    const PartKind kind = circuit.parts[point.part].kind;
    if (kind == PartKind::ground || kind == PartKind::splice) return suspect.part == point.part;
    return false; // a crimp alone: the wire as a whole is not named
}

std::vector<Suspect> suspects_between(const Circuit& circuit, const Graph& at_rest, const PointRef& from, const PointRef& to) {
    std::vector<Suspect> suspects;
    const auto node_of = [&](const PointRef& point) {
        NodeId node = at_rest.node_of(point);
        if (node == none && point.pin != none) node = at_rest.wire_end[point.pin];
        if (node == none && point.part != none && !circuit.parts[point.part].pins.empty())
            node = at_rest.wire_end[circuit.parts[point.part].pins.front()];
        return node;
    };
    const NodeId a = node_of(from), b = node_of(to);
    if (a == none || b == none) return suspects;
    const Admit along = [](const Edge& edge, NodeId, NodeId) { return is_conductor(edge) || edge.kind == EdgeKind::contact; };
    const NodeId start[] = {a};
    const Reach way = reach(at_rest, start, along, b);
    if (!way.has(b)) return suspects;
    for (const int index : way.way(at_rest, b)) {
        const Edge& edge = at_rest.edges[index];
        if (edge.kind == EdgeKind::wire)
            suspects.push_back({none, edge.wire, none});
        else if (edge.kind == EdgeKind::joint)
            suspects.push_back({none, none, edge.pin});
        else if (edge.part != none)
            suspects.push_back({edge.part, none, none});
    }
    // A run that ends in a point takes in the joint there.
    for (const PointRef* end : {&from, &to})
        if (end->metal == Metal::joint) suspects.push_back({none, none, end->pin});
    return suspects;
}

} // namespace loomsheet
