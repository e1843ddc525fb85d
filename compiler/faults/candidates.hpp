// Everything that can be wrong with a circuit, one fault at a time, and what is repaired for it.
#pragma once
#include "circuit/fault.hpp"
#include "model/plan.hpp"
#include <string>
#include <vector>

namespace loomsheet {

// What is changed or mended as one thing: a part, a wire with its crimps, the joint at a pin.
struct Suspect {
    PartId part = none;
    WireId wire = none;
    PinId joint = none; // named by this pin, as its edge is
    bool operator==(const Suspect&) const = default;
};
std::string suspect_name(const Circuit& circuit, const Suspect& suspect); // "W8", "joint X30.1", "K5 (Fan relay)"

struct Candidate {
    Fault fault;
    Suspect suspect;
    double likely = 1; // against the others: by kind, common practice, no source; times the `likely` of the plan
};

// Every part, wire, joint and ground with the faults of its kind. Added ohms come in bands: a fault whose value has its ±
// stands for all of them.
std::vector<Candidate> all_faults(const Circuit& circuit);

// Whether what a point names is (part of) this suspect: K5 is all of the relay, K5.30/87 one element, joint X30.1 a joint, W8 and
// X31.1 the wire with its crimps.
bool names(const Circuit& circuit, const PointRef& point, const Candidate& candidate);
// All suspects on the way between two points: wires, contacts, fuses, closed contacts.
std::vector<Suspect> suspects_between(const Circuit& circuit, const Graph& at_rest, const PointRef& from, const PointRef& to);

} // namespace loomsheet
