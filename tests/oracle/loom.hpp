// The circuit of a plan as nodes and branches, everything in its place: what can conduct, by which law, with which values.
#pragma once
#include "oracle/usual.hpp"
#include <functional>
#include <set>

namespace oracle {

enum class Law { ohms, source, filament, motor, diode };
struct Real {         // of one branch in one car
    double ohms = 0;  // of a motor held still, a filament cold, inside a source, beside a diode's volts
    double volts = 0; // of a source, a diode; of a motor or filament those at which it draws `amps`
    double amps = 0;
};

// How the car stands: all that is not named is normal.
struct Setting {
    std::string key = "off";
    bool asleep = false, engine = false, understood = true;
    std::set<int> unplugged, pulled, disconnected, on; // parts, parts, pins, pins
    std::map<int, std::string> position;               // by part
    std::map<int, double> temperature;                 // by part, degC
    std::vector<Item> bridges, loads;
    bool holds(const std::optional<When>& when) const;
    bool untouched() const { return unplugged.empty() && pulled.empty() && disconnected.empty() && bridges.empty() && loads.empty(); }
};
Setting setting_of(const Setup& setup);

enum class Gate {
    always,
    joint,   // gone when its plug is off, its part pulled, its clamp off
    link,    // a fuse: until it blows
    contact, // of a switch or a relay
    driver,  // of a control unit
    fed,     // while the control unit lives
    given,   // a source or a draw under a condition
};
struct Branch {
    int a = none, b = none;
    Law law = Law::ohms;
    Gate gate = Gate::always;
    int part = none, element = none, wire = none;
    std::vector<int> pins; // of a joint: by either name
    bool make = true;      // contact: closed when the relay has pulled in, or as the switch stands
    int choice = none;     // given: which of the part's list; -2 - n: of what it draws
    // What a run is made of: wires, joints, bolts, fuses, contacts in whatever position.
    bool carries() const {
        return wire != none || gate == Gate::joint || gate == Gate::link || gate == Gate::contact ||
               (gate == Gate::always && element == none && part != none && law == Law::ohms);
    }
    std::function<Real(Dice&)> real;
    std::function<double(const Real&, const Setting&)> ohms_there; // where they hang on how the car stands; may be empty
};

class Loom {
public:
    Loom(const Plan& plan, const Usual& usual);
    const Plan& plan;
    const Usual& usual;
    std::vector<Branch> branches;
    int nodes = 0;

    int wire_side(int pin) const { return wire_side_[pin]; }
    int part_side(int pin) const { return part_side_[pin]; }
    int body() const { return metal_.at("body"); }
    int supply(int module) const { return rails_.at(module).first; }
    int ground(int module) const { return rails_.at(module).second; }
    int node(const Point& at) const;                                 // where a lead touches; none where none can
    int joint(int pin) const;                                        // its branch; none where there is none
    double needs(int part) const;                                    // V: motor, horn ..., control unit; a lamp's are of its filament
    double filament_lit(const Branch& filament, double volts) const; // share of its volts
    const std::vector<int>& of_part(int part) const { return by_part_[part]; }
    struct Heard {
        int pin = none;   // of the input; none: the switch moves none, and the output follows the hand on it
        bool high = true; // how it reads when the switch is operated
    };
    Heard heard(int module, int output) const {
        const auto at = heard_.find({module, output});
        return at == heard_.end() ? Heard{} : at->second;
    }
    double square(int pin) const; // mm² of the thickest wire there

private:
    std::vector<int> wire_side_, part_side_;
    std::map<std::string, int> metal_;
    std::map<int, std::pair<int, int>> rails_;
    std::map<std::pair<int, int>, Heard> heard_; // by part and element
    std::vector<std::vector<int>> by_part_;

    int new_node() { return nodes++; }
    int metal(const std::string& name);
    void lay_points();
    void lay_joints();
    void lay_wires();
    void lay_part(int part);
    void lay_element(int part, int element);
    void lay_sensor(int part, int element, int a, int b, int c);
    void lay_battery(int part);
    void lay_module(int part);
    void lay_case(int pin);
    void listen();
    Branch& lay(int a, int b, int part, int element = none);
    void merge(std::vector<int>& of);
};

} // namespace oracle
