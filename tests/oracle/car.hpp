// One car: its values as they were drawn, what is wrong with it, and which fuses have blown.
#pragma once
#include "oracle/loom.hpp"

namespace oracle {

struct Laid { // a branch that only this car has: a short, ohms before a motor
    int a = none, b = none;
    double ohms = 0;
};
// What is wrong, as changes of branches. Nodes from the loom's count on are the car's own.
struct Damage {
    std::vector<std::pair<int, double>> added;  // branch, ohms
    std::vector<std::pair<int, double>> reads;  // branch: these ohms and nothing else
    std::vector<int> open, closed, never;       // branches; contacts and drivers that always or never conduct
    std::vector<int> held_still;                // motors
    std::vector<std::pair<int, bool>> armature; // relay: cannot leave (true) or never reaches the pulled position
    std::vector<int> dead;                      // control units
    std::vector<std::pair<int, double>> weak;   // battery: volts and ohms times
    double weak_ohms = 1;
    std::vector<int> split; // a wire that is touched on its way: its branch, the node on it follows the loom's
    std::vector<Laid> laid;
    std::vector<std::pair<int, int>> moved; // branch: its second end goes to this node
    int own_nodes = 0;
    bool changes_nothing() const {
        return added.empty() && reads.empty() && open.empty() && closed.empty() && never.empty() && held_still.empty() &&
               armature.empty() && dead.empty() && weak.empty() && split.empty() && laid.empty() && moved.empty();
    }
    bool new_shape() const { return own_nodes > 0 || !laid.empty(); } // other nodes or branches than the loom's
};

struct Car {
    Car(const Loom& loom, Dice& dice, const Damage& damage, Dice& hand);
    std::vector<Real> reals;           // by branch of the loom
    std::vector<double> copper;        // ohms of coils without what is added
    std::vector<char> open, closed;    // by branch
    std::vector<char> still;           // by branch: a motor that is held
    std::vector<char> dead;            // by part
    std::vector<signed char> armature; // by part: 1 stays pulled in, -1 never pulls in
    struct Blows {                     // A: at rest, rattling, in the moment that a relay or a control unit takes
        double at = 0, rattling = 0, passing = 0;
    };
    std::vector<Blows> blows;       // by branch of a link
    std::vector<double> sound_ohms; // by branch, before the damage: of coils the turns
    std::vector<char> blown;        // by branch
    Damage damage;
    double split_at = 0.5; // share of the wire before the spot
    // The technician's instruments in this job.
    double meter_gain = 0, clamp_gain = 0, ohms_gain = 0, leads = 0, open_volts = 2, in_line = 0, lamp_watts = 5, beeps_at = 50,
           lamp_lit_at = 0.5;
};

// What a fault of the plan is in the loom, its ohms drawn over their band. Nothing changed: it is not understood, or nothing is there.
Damage damage_of(const Loom& loom, const Fault& fault, Dice& hand);

} // namespace oracle
