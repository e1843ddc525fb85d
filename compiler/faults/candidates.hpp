// Everything that can be wrong with a circuit, one fault at a time, and what is repaired for it.
#pragma once
#include "circuit/fault.hpp"
#include "model/plan.hpp"
#include <span>
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
std::string suspect_name(const Circuit& circuit, const Suspect& suspect);  // "W8", "joint X30.1", "K5 (Fan relay)"
std::string suspect_point(const Circuit& circuit, const Suspect& suspect); // as `blames` writes it: "W8", "joint X30.1", "K5"

struct Candidate {
    Fault fault;
    Suspect suspect;
    double likely = 1; // against the others: by kind, common practice, no source; times the `likely` of the plan
};

// What is tried, and how often it is that. The faults of one thing share what befalls its part, wire or joint; an element that a
// part has twice counts twice.
struct TriedFault {
    Things of;
    FaultKind kind;
    double share;
    std::string_view words; // empty: ohms are added, in bands
};
std::span<const TriedFault> tried_faults();
struct UsualShare {        // how much oftener it fails than a wire does
    std::string_view what; // the word of its kind, or "joint"; all else is 1
    double times;
};
std::span<const UsualShare> usual_shares();
std::span<const double> ohm_bands(); // the ends of the bands, ohm
// "3 .. 30 mohm", "0.03 .. 1 ohm", "3 ohm .. 10 kohm"
std::string ohms_words(double low, double high);

// Every part, wire, joint and ground with the faults of its kind. Added ohms come in bands: a fault whose value has its ±
// stands for all of them.
std::vector<Candidate> all_faults(const Circuit& circuit);

// Whether what a point names is this suspect, or what holds it: K5 is all of the relay, K5.30/87 one element, M1 all that is in the
// assembly, X30 all joints of the plug, joint X30.1 one, W8 the wire with its crimps. A crimp alone, X31.1, is not a wire.
bool names(const Circuit& circuit, const PointRef& point, const Candidate& candidate);
// Whether the other hangs on this part, so that who looks at the part sees it too: a joint of its, or a wire that is bolted to this
// ground point.
bool belongs(const Circuit& circuit, const Suspect& part, const Suspect& other);

} // namespace loomsheet
