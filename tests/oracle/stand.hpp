// A car in a set-up, with or without an instrument: solved, and settled from rest.
#pragma once
#include "oracle/car.hpp"
#include "oracle/elimination.hpp"
#include <memory>

namespace oracle {

enum class Tool { nothing, voltmeter, ohmmeter, ammeter, testlamp };
struct Probe {
    Tool tool = Tool::nothing;
    int red = none, black = none; // nodes of the loom
    int instead_of = none;        // an ammeter: the wire's branch, or the link, that it lies in place of
};

// How the relays and the control units are, by part, and what the inputs of those read, by pin.
struct States_of {
    std::vector<char> pulled, alive, high;
    bool operator==(const States_of&) const = default;
};
struct Solved {
    std::vector<double> volts; // by node
    States_of states;
};
struct Rest {
    Solved now;
    std::vector<Solved> cycle; // more than one: it never comes to rest
    bool chatters() const { return cycle.size() > 1; }
};

class Stand {
public:
    Stand(const Loom& loom, const Setting& setting, const Probe& probe, const Damage& shape);
    // From all relays off and all control units dead. Fuses that carry too much blow, the worst first, and stay so in the car.
    Rest settle(Car& car, bool fuses_blow = true);
    // Only the volts, all states held as they are.
    void solve(const Car& car, const States_of& states, std::vector<double>& volts);
    double amperes(const Car& car, const States_of& states, const std::vector<double>& volts, int branch) const; // of the loom, a to b
    double instrument_amperes(const Car& car, const std::vector<double>& volts) const;
    // Whether metal joins two nodes, the instrument apart.
    bool joined(const Car& car, const States_of& states, const std::vector<double>& volts, int a, int b) const;
    bool conducts(const Car& car, const States_of& states, int branch) const; // if it is there
    bool there(int branch) const { return there_[branch]; }                   // in this set-up
    bool there_part(int part) const;
    const Setting& setting() const { return setting_; }
    // V at an input of a control unit, of those that count as all of it.
    double level(const Car& car, const std::vector<double>& volts, int module, int input) const;

private:
    std::pair<int, int> ends(const Car& car, int branch) const;
    struct Lead { // a branch that this stand adds
        int a, b;
        Law law;
        enum class Of { split, laid, bridge, load, tool } of;
        std::size_t index;
    };
    const Loom& loom_;
    Setting setting_;
    Probe probe_;
    std::vector<char> there_; // by branch of the loom
    std::vector<int> own_;    // branches of the loom that are there
    std::vector<Lead> leads_;
    std::unique_ptr<Elimination> elimination_;
    std::vector<double> siemens_, entering_, guess_;
    double probe_volts_ = 0;

    void choose_given(int part, const std::vector<Draw>& list, bool draws);
    bool driver_on(const Car& car, const States_of& states, const Branch& driver) const;
    bool switch_closed(const Branch& contact) const;
    Real lead_real(const Car& car, const Lead& lead) const;
    Real real_of(const Car& car, int branch) const;
    States_of next(const Car& car, const States_of& states, const std::vector<double>& volts) const;
    bool pulls(const Car& car, int relay, bool in, const States_of& states, const std::vector<double>& volts) const;
    int worst_fuse(const Car& car, const Solved& at, double Car::Blows::*by, double& strain) const;
};

// A at these volts across it, and what the next volt adds.
struct Flow {
    double amps, siemens;
};
Flow flow(Law law, const Real& real, double volts, bool held);

} // namespace oracle
