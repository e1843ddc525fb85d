// A circuit in one set-up as branches with values: what the solver works on. Branch i is edge i of the graph; what a fault
// or an instrument adds comes after.
#pragma once
#include "circuit/elimination.hpp"
#include "circuit/graph.hpp"
#include "circuit/parameters.hpp"
#include <string>
#include <vector>

namespace loomsheet {

// How the current of a branch hangs on its volts.
enum class Law : std::uint8_t {
    absent,   // nothing there
    ohmic,    // V / R
    source,   // (V - E) / R
    contact,  // ohmic when its relay stands so
    driver,   // ohmic when its module is alive, and hears that it is called where it listens
    supplied, // (V - E) / R when its module is alive
    diode,    // nothing, or (V - Vf) / R
    filament, // cold, then growing slower than the volts
    motor,    // held still, then turning
};

struct NetBranch {
    Law law = Law::absent;
    ParameterId ohms = none;   // in use
    ParameterId second = none; // V of a source or a diode; cold share of a filament; ohms of a motor that stands still
    ParameterId share = none;  // of a track: the part of `ohms` that lies here
    bool share_turned = false; // the other part
    ParameterId plus = none;   // ohms that a fault adds in series
    double volts = 0;          // at which `ohms` holds: filament, motor
    int device = none;         // contact: the relay; driver and supplied: the module
    bool when_in = false;      // contact: closed when pulled in
    int listens = none;        // driver: the input that calls it; none: the set-up has called it
    bool when_high = false;    // and by which level
    PartId part = none;
    bool operator==(const NetBranch&) const = default;
};

struct Relay {
    PartId part = none;
    std::vector<int> coils;             // branches
    std::vector<double> usual_ohms;     // by coil, of sound ones
    double pulls_in = 0, drops_out = 0; // V of pull, see `pull_of`
};
struct Module {
    PartId part = none;
    std::vector<int> supplies; // branches, from supply pin to ground
    double needs = 0;          // V
};
// An input of a module, by which one of its drivers is called.
struct Listener {
    PartId part = none;
    PinId pin = none;
    int branch = none;        // from the pin to ground, inside
    double high = 0, low = 0; // V: from `high` it surely reads high, up to `low` low; between them as it did before
};
struct FuseLink {
    PartId part = none;
    int branch = none;
    double rating = 0; // A
};

struct Charged { // a battery whose volts while the engine runs come from an alternator of the plan
    int branch = none;
    ParameterId at_rest = none; // V without it
    std::vector<int> by;        // the branches of the alternators
};

struct Network {
    Graph graph;
    std::vector<Branch> ends; // by branch
    std::vector<NetBranch> branches;
    std::vector<Parameter> parameters; // those of the circuit, then what only this set-up has
    std::vector<Relay> relays;
    std::vector<Module> modules;
    std::vector<Listener> listeners;
    std::vector<FuseLink> fuses;
    std::vector<Charged> charged;
    std::vector<NodeId> unknown; // nodes whose volts are beyond the model, such as the signal of a Hall sensor
    double system_volts = 12;
    ParameterId added = none; // as of the circuit

    int nodes() const { return static_cast<int>(graph.nodes.size()); }
    int add(NodeId a, NodeId b, NetBranch branch);
    ParameterId add(Parameter parameter);
};

std::vector<double> usual_values(const Network& network); // by parameter
// What pulls a relay, as V on its coils: the volts that surely pull in hold for any sound coil, so that those along its own copper
// count; turns that are shorted are lost with their ohms, and ohms that a fault adds have no turns. Several coils have the same turns:
// their volts count by 1 / ohms, so that as many on all of them pull as much. It lets go at its volts on the coil with the most ohms
// alone, the one that holds. From memory: such are the windings of a starter's solenoid.
std::vector<Along> pull_of(const Network& network, const Relay& relay);

// `setup` has its loads placed (see `setup_of`).
Network build_network(const Circuit& circuit, const Parameters& parameters, const Setup& setup);

} // namespace loomsheet
