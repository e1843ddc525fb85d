#include "faults/candidates.hpp"
#include "model/inside.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

// How often things fail against each other, and how: common practice, no source.
constexpr UsualShare shares[] = {
    {"lamp", 6}, {"ground", 3}, {"joint", 2}, {"motor", 2}, {"relay", 2}, {"sensor", 2}, {"battery", 2}, {"all else", 1}, {"module", 0.3},
};

constexpr TriedFault tried[] = {
    {thing::wire, FaultKind::open, 0.4, "open"},
    {thing::wire, FaultKind::added, 0.4, ""},
    {thing::wire, FaultKind::to_ground, 0.2, "touches ground"},
    {thing::joint, FaultKind::open, 0.5, "open"},
    {thing::joint, FaultKind::added, 0.5, ""},
    {thing::ground, FaultKind::open, 0.5, "open"},
    {thing::ground, FaultKind::added, 0.5, ""},
    {thing::fuse, FaultKind::blown, 1, "blown"},
    {thing::battery, FaultKind::weak, 1, "weak"},
    {thing::module, FaultKind::open, 0.5, "dead"},
    {thing::driver, FaultKind::stuck_open, 0.25, "never on"},
    {thing::driver, FaultKind::stuck_closed, 0.125, "always on"},
    {thing::input, FaultKind::open, 0.125, "open inside"},
    {thing::motor, FaultKind::seized, 0.25, "seized"},
    {thing::motor, FaultKind::worn, 0.25, "worn"},
    {thing::contact, FaultKind::stuck_open, 0.25, "stuck open"},
    {thing::contact, FaultKind::stuck_closed, 0.125, "stuck closed"},
    {thing::contact, FaultKind::added, 0.25, ""},
    {thing::diode, FaultKind::open, 0.25, "open"},
    {thing::winding, FaultKind::open, 0.5, "open"},
    {thing::winding, FaultKind::reads, 0.125, "shorted inside"},
};
constexpr double bands[] = {0.003, 0.01, 0.03, 0.1, 0.3, 1, 3, 10, 100, 1e3, 1e4}; // ohm, from each to the next
constexpr std::size_t band_count = std::size(bands) - 1;

double usual_share(std::string_view what) {
    for (const UsualShare& row : shares)
        if (row.what == what) return row.times;
    return 1;
}

class Lister {
public:
    explicit Lister(const Circuit& circuit) : circuit_(circuit) {}

    std::vector<Candidate> list() {
        PointRef at;
        at.metal = Metal::whole;
        for (at.wire = 0; at.wire < static_cast<WireId>(circuit_.wires.size()); ++at.wire) {
            const Wire& wire = circuit_.wires[at.wire];
            if (wire.from != none && wire.to != none) add(thing::wire, {none, at.wire, none}, usual_share("wire") * wire.likely, at);
        }
        const Graph graph = build_graph(circuit_);
        for (const Edge& edge : graph.edges)
            if (edge.kind == EdgeKind::joint) add_joint(edge.pin);
        for (PartId part = 0; part < static_cast<PartId>(circuit_.parts.size()); ++part)
            add_part(part);
        return std::move(list_);
    }

private:
    void add(Things what, const Suspect& suspect, double likely, const PointRef& at) {
        for (const TriedFault& row : tried) {
            if ((row.of & what) == 0) continue;
            Candidate made;
            made.suspect = suspect, made.likely = likely * row.share;
            made.fault.at_point = at, made.fault.kind = row.kind, made.fault.words = row.words;
            if (row.kind == FaultKind::added) {
                add_bands(made);
                continue;
            }
            if (row.kind == FaultKind::reads) made.fault.value = ohms_between(shorted_inside_ohms, shorted_inside_ohms);
            list_.push_back(std::move(made));
        }
    }
    void add_bands(Candidate made) {
        made.likely /= static_cast<double>(band_count);
        for (std::size_t i = 0; i < band_count; ++i) {
            made.fault.value = ohms_between(bands[i], bands[i + 1]);
            made.fault.words = ohms_words(bands[i], bands[i + 1]);
            list_.push_back(made);
        }
    }

    void add_joint(PinId pin) {
        PointRef at;
        at.pin = pin, at.part = circuit_.pins[pin].part, at.metal = Metal::joint;
        add(thing::joint, {none, none, pin}, usual_share("joint") * circuit_.parts[at.part].likely, at);
    }

    void add_part(PartId id) {
        const Part& part = circuit_.parts[id];
        const Suspect suspect{id, none, none};
        PointRef whole;
        whole.part = id, whole.metal = Metal::whole;
        const double likely = usual_share(kind_word(part.kind)) * part.likely;
        add(row_of(part.kind).as_a_whole, suspect, likely, whole);
        for (const PlaceInside& place : places_inside(part)) {
            whole.pins = place.pins;
            add(place.what, suspect, likely, whole);
        }
    }

    const Circuit& circuit_;
    std::vector<Candidate> list_;
};

} // namespace

std::vector<Candidate> all_faults(const Circuit& circuit) { return Lister(circuit).list(); }
std::span<const TriedFault> tried_faults() { return tried; }
std::span<const UsualShare> usual_shares() { return shares; }
std::span<const double> ohm_bands() { return bands; }

std::string ohms_words(double low, double high) {
    constexpr double rounding = 1 + 1e-9;
    if (high < 0.1 / rounding) return fmt::format("{:.4g} .. {:.4g} mohm", low * 1e3, high * 1e3);
    if (high < 1e3 * rounding) return fmt::format("{:.4g} .. {:.4g} ohm", low, high);
    if (low > 1e3 / rounding) return fmt::format("{:.4g} .. {:.4g} kohm", low / 1e3, high / 1e3);
    return fmt::format("{:.4g} ohm .. {:.4g} kohm", low, high / 1e3);
}

std::string suspect_point(const Circuit& circuit, const Suspect& suspect) {
    if (suspect.wire != none) return circuit.wires[suspect.wire].id;
    if (suspect.joint != none) return "joint " + circuit.pin_name(suspect.joint);
    return circuit.parts[suspect.part].id;
}
std::string suspect_name(const Circuit& circuit, const Suspect& suspect) {
    return suspect.part == none ? suspect_point(circuit, suspect) : circuit.part_name(suspect.part);
}

bool names(const Circuit& circuit, const PointRef& point, const Candidate& candidate) {
    const Suspect& suspect = candidate.suspect;
    if (point.wire != none) return suspect.wire == point.wire;
    if (!point.pins.empty()) {
        if (suspect.part != point.part) return false;
        const std::vector<PinId>& pins = candidate.fault.at_point.pins; // of a whole part: that element too is in it
        return std::all_of(pins.begin(), pins.end(),
                           [&](PinId pin) { return std::find(point.pins.begin(), point.pins.end(), pin) != point.pins.end(); }) &&
               !pins.empty();
    }
    if (point.pin == none) { // all of a part, and what is in it; of a plug, all of its joints
        if (point.part == none) return false;
        if (suspect.part == point.part) return true;
        if (suspect.part != none && circuit.parts[suspect.part].assembly == point.part) return true;
        const PartId of = suspect.joint == none ? PartId{none} : circuit.pins[suspect.joint].part;
        return of != none && of == point.part && circuit.parts[of].kind == PartKind::connector;
    }
    if (point.metal == Metal::joint)
        return suspect.joint != none && (suspect.joint == point.pin || suspect.joint == circuit.mate(point.pin));
    const PartKind kind = circuit.parts[point.part].kind;
    if (kind == PartKind::ground || kind == PartKind::splice) return suspect.part == point.part;
    return false; // a crimp alone: the wire as a whole is not named
}

bool belongs(const Circuit& circuit, const Suspect& suspect, const Suspect& other) {
    if (suspect.part == none) return false;
    if (other.joint != none)
        return circuit.pins[other.joint].part == suspect.part ||
               (circuit.mate(other.joint) != none && circuit.pins[circuit.mate(other.joint)].part == suspect.part);
    if (other.wire == none || circuit.parts[suspect.part].kind != PartKind::ground) return false;
    const Wire& wire = circuit.wires[other.wire];
    return circuit.pins[wire.from].part == suspect.part || circuit.pins[wire.to].part == suspect.part;
}

} // namespace loomsheet
