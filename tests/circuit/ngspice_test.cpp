// Volts of whole circuits against ngspice. A tree of wires, loads and joints with a few loops is the case that matters;
// the ones by hand are those of the workshop.
#include "circuit/ngspice.hpp"
#include <cmath>
#include <doctest/doctest.h>

using namespace loomsheet;
using namespace loomsheet::lab;

namespace {

struct Tally {
    int states = 0, compared = 0, floating = 0;
    double worst = 0; // relative, or in volts below 1 V
};

void compare(const Network& network, const Elimination& elimination, std::optional<double> held, Tally& tally) {
    // What floats is found by union here, and left out of the netlist: to ngspice it is a singular matrix.
    const std::vector<int> piece = joined(network);
    std::vector<char> floats(network.nodes);
    for (int node = 0; node < network.nodes; ++node)
        floats[node] = piece[node] != piece[network.black] && !(held && piece[node] == piece[network.red]);

    const Admittance port = elimination.port();
    CHECK((port.g == 0) == (network.red == network.black || piece[network.red] != piece[network.black]));
    std::vector<double> ours(network.nodes);
    elimination.solve(held ? *held : port.g == 0 ? 0 : -port.f / port.g, ours);

    Ngspice& ngspice = Ngspice::get();
    ngspice.load(netlist(network, floats, held));
    ngspice.command("op");
    CHECK(ngspice.complaints() == "");
    ++tally.states;
    for (int node = 0; node < network.nodes; ++node) {
        tally.floating += floats[node];
        if (floats[node] || node == network.black) continue;
        const std::optional<double> theirs = ngspice.volts(node);
        CAPTURE(node);
        REQUIRE(theirs.has_value());
        const double off = std::abs(ours[node] - *theirs);
        CHECK(off <= std::max(1e-6, 1e-6 * std::abs(*theirs)));
        ++tally.compared;
        tally.worst = std::max(tally.worst, off / std::max(1.0, std::abs(*theirs)));
    }
}

struct Kept {
    explicit Kept(const Network& network) : pattern(network.nodes, branches(network), network.red, network.black), elimination(pattern) {
        set_all(elimination, network);
        elimination.eliminate();
    }
    Pattern pattern;
    Elimination elimination;
};

// Node 0 is the body, 1 the battery's post; 12.6 V behind 20 mohm.
constexpr Resistor battery{1, 0, 0.02, 12.6};

struct Drawn {
    const char* name;
    int nodes, red;
    std::vector<Resistor> elements;
};

const std::vector<Drawn> by_hand = {
    {"battery alone", 2, 1, {battery}},
    {"lamp on fuse and ground wire", 5, 2, {battery, {1, 2, 0.005}, {2, 3, 0.03}, {3, 4, 2.6}, {4, 0, 0.02}}},
    {"drop across a bad ground", 5, 4, {battery, {1, 2, 0.005}, {2, 3, 0.03}, {3, 4, 2.6}, {4, 0, 1.7}}},
    {"open ground, meter on the lamp", 4, 3, {battery, {1, 2, 0.03}, {2, 3, 2.6}, {3, 0, 1e7}}},
    {"open feed: what is behind the lamp stays at the body", 4, 2, {battery, {1, 2, open_ohms}, {2, 3, 2.6}, {3, 0, 0.02}}},
    {"both open: the lamp floats", 4, 2, {battery, {1, 2, open_ohms}, {2, 3, 2.6}, {3, 0, open_ohms}}},
    {"trailer without ground: lamps feed back through each other",
     6,
     5,
     {battery, {1, 2, 0.05}, {2, 5, 6.9}, {3, 5, 29}, {4, 5, 6.9}, {3, 0, 12}, {4, 0, 40}}},
    {"alternator and battery", 3, 2, {battery, {2, 0, 0.05, 14.4}, {2, 1, 0.004}, {1, 0, 0.8}}},
    {"jump start, weak battery", 4, 3, {{1, 0, 0.3, 10.2}, {2, 0, 0.01, 12.8}, {2, 3, 0.004}, {3, 1, 0.006}, {1, 0, 0.09}}},
    {"batteries against each other", 3, 2, {battery, {2, 1, 0.02, -12.4}, {2, 0, 5}}},
    {"24 V of two", 3, 2, {battery, {2, 1, 0.02, 12.5}, {2, 0, 3}}},
    {"bus of two ends of 120 ohm", 4, 2, {{2, 0, 30, 3.5}, {3, 0, 30, 1.5}, {2, 3, 120}, {2, 3, 120}}},
    {"bus with one end open", 4, 2, {{2, 0, 30, 3.5}, {3, 0, 30, 1.5}, {2, 3, 120}, {2, 3, open_ohms}}},
    {"coolant sensor on its pull-up, a joint of 5 ohm", 5, 4, {battery, {2, 0, 0.1, 5}, {2, 3, 2200}, {3, 4, 5}, {4, 0, 2500}}},
    {"pedal: two tracks turned against each other",
     6,
     3,
     {{2, 0, 0.1, 5}, {2, 3, 400}, {3, 0, 800}, {2, 4, 900}, {4, 5, 300}, {5, 0, 0.05}, {3, 4, 1e7}}},
    {"blower with its chain of resistors",
     6,
     5,
     {battery, {1, 2, 0.01}, {2, 3, 1.3}, {3, 4, 0.7}, {4, 5, 0.3}, {2, 5, open_ohms}, {5, 0, 0.55}}},
    {"headlamp relay: coil and contact",
     7,
     4,
     {battery, {1, 2, 0.01}, {2, 3, 85}, {3, 0, 0.3}, {2, 4, 0.005}, {4, 5, 0.02}, {5, 6, 2.6}, {6, 0, 0.01}}},
    {"one of two grounds burnt", 5, 3, {battery, {1, 2, 0.02}, {2, 3, 0.6}, {3, 4, 0.002}, {4, 0, 0.002}, {3, 0, 4}}},
    {"engine strap open: the starter's ground through a cable",
     5,
     3,
     {battery, {1, 2, 0.001}, {2, 3, 0.012}, {3, 0, open_ohms}, {3, 4, 0.35}, {4, 0, 0.05}}},
    {"bridge near balance, meter across",
     5,
     2,
     {battery, {1, 2, 100}, {2, 0, 100}, {1, 3, 100}, {3, 0, 100.01}, {2, 3, 1e7}, {3, 4, 0.01}}},
    {"a loop of straps of 10 uohm", 5, 4, {battery, {1, 2, 0.5}, {2, 3, 1e-5}, {3, 4, 1e-5}, {4, 2, 1e-5}, {4, 0, 1e-5}}},
};

} // namespace

TEST_CASE("circuits by hand, against ngspice") {
    CHECK(by_hand.size() >= 15);
    Tally tally;
    for (const Drawn& drawn : by_hand) {
        CAPTURE(drawn.name);
        const Network network{drawn.nodes, drawn.elements, drawn.red, 0};
        const Kept kept(network);
        compare(network, kept.elimination, std::nullopt, tally);
        compare(network, kept.elimination, 5.0, tally);
    }
    MESSAGE(tally.states << " states, " << tally.compared << " volts compared, " << tally.floating << " floating left aside, off by "
                         << tally.worst << " at most");
    CHECK(tally.compared > 100);
    CHECK(tally.floating > 0);
}

TEST_CASE("looms with faults, against ngspice") {
    Tally tally;
    for (std::uint32_t seed = 1; seed <= 100; ++seed) {
        CAPTURE(seed);
        const Network sound = vehicle_network(20 + static_cast<int>(seed % 50), seed);
        Network network = sound;
        Kept kept(sound);
        Dice dice(seed + 500);
        for (int state = 0; state < 4; ++state) { // sound first, then three more faults in each
            CAPTURE(state);
            const std::optional<double> held = state == 3 ? std::optional(dice.unit() * 15) : std::nullopt;
            compare(network, kept.elimination, held, tally);
            int faults[3];
            for (int& fault : faults) {
                fault = dice.below(static_cast<int>(sound.elements.size()));
                disturb(network.elements[fault], sound.elements[fault], dice);
                kept.elimination.set(fault, admittance(network.elements[fault]));
            }
            kept.elimination.update(faults);
        }
    }
    MESSAGE(tally.states << " states, " << tally.compared << " volts compared, " << tally.floating << " floating left aside, off by "
                         << tally.worst << " at most");
    CHECK(tally.states >= 200);
    CHECK(tally.compared > 2000);
    CHECK(tally.floating > 0);
}
