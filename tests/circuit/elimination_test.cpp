// What is seen at a port: by hand, against dense Gauss in 113 bits, and redone for one branch.
#include "circuit/elimination.hpp"
#include "circuit/exact_volts.hpp"
#include "circuit/random_networks.hpp"
#include <algorithm>
#include <cmath>
#include <doctest/doctest.h>
#include <numeric>

using namespace loomsheet;
using namespace loomsheet::lab;

namespace {

struct Solved {
    explicit Solved(const Network& given)
        : network(given), pattern(given.nodes, branches(given), given.red, given.black), elimination(pattern) {
        set_all(elimination, network);
        elimination.eliminate();
    }
    Solved(const Solved&) = delete;
    Solved& operator=(const Solved&) = delete;

    double ohms() const { return 1 / elimination.port().g; }
    // Red left to itself.
    double free_volts() const { return -elimination.port().f / elimination.port().g; }
    std::vector<double> volts(double red_volts, bool passive = false) const {
        std::vector<double> result(network.nodes);
        elimination.solve(red_volts, result, passive);
        return result;
    }
    std::vector<int> islands() const {
        std::vector<int> result(network.nodes);
        elimination.islands(result);
        return result;
    }

    Network network;
    Pattern pattern;
    Elimination elimination;
};

Network chain(int nodes, double ohms) {
    Network network{nodes, {}, 0, nodes - 1};
    for (int i = 0; i + 1 < nodes; ++i)
        network.elements.push_back({i, i + 1, ohms});
    return network;
}

double off(double got, double expected) { return std::abs(got - expected) / std::abs(expected); }

// The network of a case, with what must be seen at its port.
struct Case {
    const char* name;
    Network network;
    double ohms, free_volts;
};

// The sum of currents at a node, measured by the currents that its volts would drive through its branches to zero.
double kirchhoff(const Network& network, const std::vector<double>& volts, int node) {
    double sum = 0, scale = 0;
    for (const Resistor& element : network.elements) {
        if (element.a == element.b || (element.a != node && element.b != node)) continue;
        const Admittance value = admittance(element);
        const double amps = value.g * (volts[element.a] - volts[element.b]) + value.f;
        sum += element.a == node ? amps : -amps;
        scale += value.g * (std::abs(volts[element.a]) + std::abs(volts[element.b])) + std::abs(value.f);
    }
    return scale == 0 ? 0 : std::abs(sum) / scale;
}

} // namespace

TEST_CASE("hand cases: ohms and volts at the port") {
    // Series and parallel by Ohm; the bridge by its two node equations; two batteries by Millman's theorem.
    const std::vector<Case> cases = {
        {"one", {2, {{0, 1, 4}}, 0, 1}, 4, 0},
        {"series", {4, {{0, 2, 1}, {2, 3, 2}, {3, 1, 3}}, 0, 1}, 6, 0},
        {"parallel", {2, {{0, 1, 3}, {1, 0, 6}}, 0, 1}, 2, 0},
        {"bridge", {4, {{0, 2, 1}, {2, 1, 2}, {0, 3, 3}, {3, 1, 4}, {2, 3, 5}}, 0, 1}, 155.0 / 74, 0},
        {"balanced bridge", {4, {{0, 2, 1}, {2, 1, 2}, {0, 3, 2}, {3, 1, 4}, {2, 3, 5}}, 0, 1}, 2, 0},
        {"battery", {2, {{0, 1, 0.02, 12.6}}, 0, 1}, 0.02, 12.6},
        {"battery turned", {2, {{1, 0, 0.02, 12.6}}, 0, 1}, 0.02, -12.6},
        {"battery, port turned", {2, {{0, 1, 0.02, 12.6}}, 1, 0}, 0.02, -12.6},
        {"two in parallel", {2, {{0, 1, 0.01, 12.6}, {0, 1, 0.1, 14.2}}, 0, 1}, 1 / 110.0, 1402 / 110.0},
        {"two in series", {3, {{0, 2, 1, 6}, {2, 1, 2, 1.5}}, 0, 1}, 3, 7.5},
        {"two against each other", {3, {{0, 2, 1, 6}, {1, 2, 2, 1.5}}, 0, 1}, 3, 4.5},
        {"divider", {3, {{2, 1, 1, 12}, {2, 0, 2}, {0, 1, 3}}, 0, 1}, 1.5, 6},
        {"lamp through two joints", {4, {{2, 1, 0.05, 12.5}, {2, 0, 0.95}, {0, 3, 3}, {3, 1, 1}}, 0, 1}, 0.8, 10},
        {"open beside", {3, {{0, 1, 4}, {0, 2, open_ohms}, {2, 1, 1}}, 0, 1}, 4, 0},
        {"a piece apart beside", {4, {{0, 1, 4}, {2, 3, 1, 9}}, 0, 1}, 4, 0},
        {"a branch to itself", {2, {{0, 1, 4}, {0, 0, 1, 9}, {1, 1, 1}}, 0, 1}, 4, 0},
        {"a stub", {3, {{0, 1, 4}, {0, 2, 1e-5, 9}}, 0, 1}, 4, 0},
    };
    for (const Case& test : cases) {
        CAPTURE(test.name);
        const Solved solved(test.network);
        CHECK(off(solved.ohms(), test.ohms) <= 1e-15);
        CHECK(std::abs(solved.free_volts() - test.free_volts) <= 4e-15);
    }
}

TEST_CASE("volts inside, red held: by hand") {
    // 12 V through 1 and 3 ohm onto a lamp of 2 ohm: 2 A.
    const Solved solved({4, {{2, 0, 1, 12}, {2, 3, 3}, {3, 1, 2}}, 0, 1});
    const std::vector<double> live = solved.volts(0);
    CHECK(std::abs(live[2] - 10) <= 1e-14);
    CHECK(std::abs(live[3] - 4) <= 1e-14);
    CHECK(std::abs(solved.elimination.port().f - 2) <= 1e-15);
    const std::vector<double> passive = solved.volts(6, true);
    CHECK(std::abs(passive[2] - 5) <= 1e-14);
    CHECK(std::abs(passive[3] - 2) <= 1e-14);
}

TEST_CASE("what floats is exactly zero, and has a zero of its own") {
    Network network{6, {{0, 2, 1e-5}, {2, 3, open_ohms}, {3, 1, 1e7}, {4, 5, 1e-5, 12}}, 0, 1};
    Solved solved(network);
    CHECK(solved.elimination.port().g == 0);
    CHECK(solved.elimination.port().f == 0);
    std::vector<int> islands = solved.islands();
    CHECK(islands[0] == islands[2]);
    CHECK(islands[1] == islands[3]);
    CHECK(islands[4] == islands[5]);
    CHECK(islands[0] != islands[1]);
    CHECK(islands[0] != islands[4]);
    CHECK(islands[1] != islands[4]);
    const std::vector<double> volts = solved.volts(5);
    CHECK(volts[2] == 5);
    CHECK(volts[3] == 0);
    CHECK(std::abs(volts[4] - volts[5] - 12) <= 1e-14);

    // The gap is closed, and opened again.
    const int gap[] = {1};
    solved.elimination.set(1, {1e-9, 0});
    solved.elimination.update(gap);
    CHECK(off(solved.ohms(), 1e-5 + 1e9 + 1e7) <= 1e-15);
    islands = solved.islands();
    CHECK(islands[0] == islands[1]);
    CHECK(islands[0] != islands[4]);
    solved.elimination.set(1, {});
    solved.elimination.update(gap);
    CHECK(solved.elimination.port().g == 0);
}

TEST_CASE("networks that are hardly any") {
    for (const auto& port : {std::pair{0, 0}, std::pair{0, 1}, std::pair{1, 0}})
        for (const bool joined_up : {false, true}) {
            const int red = port.first, black = port.second;
            Network network{red + black == 0 ? 1 : 2, {}, red, black};
            if (joined_up) network.elements.push_back({red, black, 2, 12});
            CAPTURE(red);
            CAPTURE(black);
            CAPTURE(joined_up);
            const Solved solved(network);
            const bool seen = joined_up && red != black;
            CHECK(solved.elimination.port().g == (seen ? 0.5 : 0));
            CHECK(solved.elimination.port().f == (seen ? -6 : 0));
            const std::vector<double> volts = solved.volts(3);
            CHECK(volts[black] == 0);
            CHECK(volts[red] == (red == black ? 0 : 3));
            CHECK((solved.islands()[red] == solved.islands()[black]) == (seen || red == black));
        }
    // Red on black in a network that has more: nothing is seen, the volts are there.
    const Solved shorted({3, {{0, 1, 1, 12}, {1, 2, 2}, {2, 0, 3}}, 2, 2});
    CHECK(shorted.elimination.port().g == 0);
    CHECK(std::abs(shorted.volts(7)[0] - 6) <= 1e-14);
    CHECK(std::abs(shorted.volts(7)[1] - -4) <= 1e-14);
    CHECK(shorted.volts(7)[2] == 0);
}

TEST_CASE("a chain of 3000 nodes") {
    Solved solved(chain(3000, 0.01));
    CHECK(off(solved.ohms(), 29.99) <= 1e-13);
    const std::vector<double> volts = solved.volts(2999);
    for (int i = 0; i < 3000; ++i)
        CHECK(std::abs(volts[i] - (2999 - i)) <= 1e-9);
    // A chain lies flat: one changed branch has a short way, wherever it is.
    for (int i = 0; i < 2999; ++i)
        CHECK(solved.pattern.way_of(i) <= 40);
    const int cut[] = {1234};
    solved.elimination.set(1234, {});
    solved.elimination.update(cut);
    CHECK(solved.elimination.port().g == 0);
    solved.elimination.set(1234, {1 / 1.01, 0});
    solved.elimination.update(cut);
    CHECK(off(solved.ohms(), 30.99) <= 1e-13);
}

TEST_CASE("a star of 500 arms") {
    // All arms but two end at black: the hub goes last of all, whatever it is called.
    Network network{502, {}, 1, 0};
    for (int arm = 2; arm < 502; ++arm) {
        network.elements.push_back({arm, 0, 500});
        network.elements.push_back({1, arm, 499.5});
    }
    Solved solved(network);
    CHECK(off(solved.ohms(), 1.999) <= 1e-13);
    // And with the hub in the middle.
    Network middle{501, {}, 1, 2};
    for (int arm = 1; arm < 501; ++arm)
        middle.elements.push_back({0, arm, 1.0 * arm, arm % 2 ? 5.0 : 0.0});
    const Solved star(middle);
    CHECK(off(star.ohms(), 3) <= 1e-14);
    CHECK(std::abs(star.free_volts() - -5) <= 1e-13);
    for (int i = 0; i < 500; ++i)
        CHECK(star.pattern.way_of(i) <= 4);
}

TEST_CASE("wild networks from 10 uohm to 10 Mohm: ohms to twelve digits, and what floats") {
    int seen = 0, floating = 0;
    double worst = 0, worst_volts = 0;
    for (std::uint32_t seed = 1; seed <= 400; ++seed) {
        CAPTURE(seed);
        const int nodes = 2 + static_cast<int>(seed % 29);
        Network network = wild_network(nodes, nodes * 5 / 4, seed);
        Dice dice(seed + 9000);
        for (Resistor& element : network.elements)
            if (dice.chance(0.05)) element.ohms = open_ohms;
        if (network.red == network.black) network.red = (network.black + 1) % nodes;
        const Solved solved(network);
        const std::vector<int> pieces = joined(network), islands = solved.islands();
        for (int i = 0; i < nodes; ++i)
            for (int j = 0; j < i; ++j)
                CHECK((pieces[i] == pieces[j]) == (islands[i] == islands[j]));

        const Admittance expected = exact_port(network), got = solved.elimination.port();
        if (expected.g == 0) {
            ++floating;
            CHECK(got.g == 0);
            CHECK(got.f == 0);
        } else {
            ++seen;
            worst = std::max(worst, off(got.g, expected.g));
            worst_volts = std::max(worst_volts, std::abs(got.f / got.g - expected.f / expected.g));
        }
        const std::vector<double> volts = solved.volts(5);
        const Exact held = exact_held(network, 5);
        for (int i = 0; i < nodes; ++i)
            if (!std::isnan(held.volts[i])) worst_volts = std::max(worst_volts, std::abs(volts[i] - held.volts[i]));
    }
    MESSAGE(seen << " ports, conductance off by " << worst << " at most; volts by " << worst_volts << "; " << floating << " float");
    CHECK(seen > 150);
    CHECK(floating > 50);
    CHECK(worst <= 1e-12);
    CHECK(worst_volts <= 1e-10); // batteries of up to 80 V
}

TEST_CASE("looms: ohms, volts and Kirchhoff") {
    double worst = 0, worst_volts = 0, worst_sum = 0;
    int nodes = 0;
    for (std::uint32_t seed = 1; seed <= 20; ++seed) {
        CAPTURE(seed);
        const Network network = vehicle_network(30 + static_cast<int>(seed) * 3, seed);
        const Solved solved(network);
        const Admittance expected = exact_port(network), got = solved.elimination.port();
        REQUIRE(expected.g > 0);
        worst = std::max(worst, off(got.g, expected.g));
        const double free = solved.free_volts();
        const std::vector<double> volts = solved.volts(free);
        const Exact exact = exact_free(network);
        for (int i = 0; i < network.nodes; ++i) {
            worst_volts = std::max(worst_volts, std::abs(volts[i] - exact.volts[i]));
            worst_sum = std::max(worst_sum, kirchhoff(network, volts, i));
            ++nodes;
        }
    }
    MESSAGE(nodes << " nodes, ohms off by " << worst << " at most, volts by " << worst_volts << ", sums of currents by " << worst_sum);
    CHECK(worst <= 1e-12);
    CHECK(worst_volts <= 1e-12);
    CHECK(worst_sum <= 1e-14);
}

TEST_CASE("where elimination by subtraction loses its digits") {
    // A good joint of 10 uohm at either end of a bad one of 10 Mohm. In double, node equations give the far node a
    // diagonal of 1e5 + 1e-7 siemens, and the 1e-7 is all that counts.
    const Network network{5, {{0, 2, 1e-5}, {2, 3, 1e-5}, {3, 4, 1e7}, {4, 1, 1e-5}}, 0, 1};
    double diagonal[] = {0, 0, 0, 0, 0}; // the chain 0 2 3 4 1 from red, by Cholesky's steps without roots
    const int order[] = {0, 2, 3, 4};
    for (const Resistor& element : network.elements)
        diagonal[element.a] += 1 / element.ohms, diagonal[element.b] += 1 / element.ohms;
    // Black is the zero, red is eliminated last.
    double left = diagonal[4];
    for (int i = 3; i > 0; --i) {
        const double g = 1 / network.elements[i - 1].ohms;
        left = diagonal[order[i - 1]] - g * g / left;
    }
    const double expected = exact_port(network).g;
    CHECK(off(expected, 1 / (1e7 + 3e-5)) <= 1e-15);
    CHECK(off(left, expected) > 1e-6);
    CHECK(off(Solved(network).elimination.port().g, expected) <= 1e-15);
}

TEST_CASE("redoing the ways of changed branches gives the bits of doing all anew") {
    int opened = 0, ports = 0;
    for (std::uint32_t seed = 1; seed <= 30; ++seed) {
        CAPTURE(seed);
        const bool loom = seed % 2;
        const Network sound = loom ? vehicle_network(60, seed) : wild_network(25, 40, seed);
        Dice dice(seed + 100);
        Solved kept(sound);
        const Admittance first = kept.elimination.port();
        Network network = sound;
        std::vector<int> changed;
        const auto count = static_cast<int>(sound.elements.size());
        for (int round = 0; round < 60; ++round) {
            changed.clear();
            for (int i = dice.below(4); i >= 0; --i) {
                const int element = dice.below(count);
                changed.push_back(element);
                disturb(network.elements[element], sound.elements[element], dice);
                opened += std::isinf(network.elements[element].ohms);
                kept.elimination.set(element, admittance(network.elements[element]));
            }
            kept.elimination.update(changed);
            const Solved anew(network);
            CHECK(kept.elimination.port().g == anew.elimination.port().g);
            CHECK(kept.elimination.port().f == anew.elimination.port().f);
            CHECK(kept.volts(5) == anew.volts(5));
            CHECK(kept.islands() == anew.islands());
            ports += anew.elimination.port().g != 0;
        }
        changed.resize(count);
        std::iota(changed.begin(), changed.end(), 0);
        set_all(kept.elimination, sound);
        kept.elimination.update(changed);
        CHECK(kept.elimination.port().g == first.g);
        CHECK(kept.elimination.port().f == first.f);
    }
    CHECK(opened > 500);
    CHECK(ports > 500);
}

TEST_CASE("a changed branch of a node to itself changes nothing") {
    Solved solved({2, {{0, 1, 4}, {0, 0, 1}}, 0, 1});
    const int loop[] = {1};
    CHECK(solved.pattern.way_of(1) == 0);
    solved.elimination.set(1, {5, 7});
    solved.elimination.update(loop);
    CHECK(solved.elimination.port().g == 0.25);
    CHECK(solved.elimination.port().f == 0);
}
