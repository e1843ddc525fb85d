#include "circuit/random_networks.hpp"
#include <algorithm>
#include <cmath>
#include <numeric>

namespace loomsheet::lab {

Admittance admittance(const Resistor& element) {
    if (std::isinf(element.ohms)) return {};
    return {1 / element.ohms, -element.volts / element.ohms};
}

std::vector<Branch> branches(const Network& network) {
    std::vector<Branch> result;
    for (const Resistor& element : network.elements)
        result.push_back({element.a, element.b});
    return result;
}

void set_all(Elimination& elimination, const Network& network) {
    for (std::size_t i = 0; i < network.elements.size(); ++i)
        elimination.set(static_cast<int>(i), admittance(network.elements[i]));
}

double Dice::spread(double low, double high) { return low * std::pow(high / low, unit()); }

namespace {

class Loom {
public:
    Loom(int nodes, std::uint32_t seed) : wanted_(nodes), dice_(seed) {}

    Network make() {
        const int body = node(), supply = node(), engine = node(), chassis = node();
        link(supply, body, dice_.spread(0.005, 0.05), 12.6); // battery, with its ground cable
        link(supply, engine, dice_.spread(0.02, 0.2), 14.2); // alternator
        link(engine, body, dice_.spread(0.0002, 0.002));
        link(chassis, body, dice_.spread(0.0002, 0.002));
        const int grounds[] = {body, body, body, engine, chassis};
        std::vector<int> boxes;
        for (int i = 0; i < 1 + wanted_ / 60; ++i)
            boxes.push_back(series(supply, {wire()}));
        std::vector<int> loaded;
        while (network_.nodes + 10 < wanted_) {
            const int start = boxes[dice_.below(static_cast<int>(boxes.size()))];
            const int splice = series(start, {dice_.spread(0.002, 0.05), wire(), contact()}); // a fuse first
            const int ground = series(grounds[dice_.below(5)], {contact(), wire()});
            for (int arm = 1 + dice_.below(3); arm > 0 && network_.nodes + 4 < wanted_; --arm) {
                const int before = series(splice, {wire(), contact()});
                const int after = series(ground, {contact(), wire()});
                link(before, after, dice_.spread(0.3, 100)); // the load
                loaded.push_back(before), loaded.push_back(after);
            }
        }
        while (network_.nodes < wanted_) // stubs: sense wires with nothing at their ends
            loaded.push_back(series(dice_.below(network_.nodes), {wire()}));
        const auto any = [&] { return loaded[dice_.below(static_cast<int>(loaded.size()))]; };
        for (int i = 0; i < 1 + wanted_ / 100; ++i) { // a few loops of their own
            const int a = any(), b = any();
            if (a != b) link(a, b, dice_.spread(50, 5000));
        }
        for (int i = 0; i < 2; ++i)
            link(any(), body, 1e7); // meters
        network_.red = any(), network_.black = body;
        return network_;
    }

private:
    int node() { return network_.nodes++; }
    void link(int a, int b, double ohms, double volts = 0) { network_.elements.push_back({a, b, ohms, volts}); }
    int series(int from, std::initializer_list<double> ohms) {
        for (const double each : ohms) {
            const int next = node();
            link(from, next, each);
            from = next;
        }
        return from;
    }
    double wire() { return dice_.spread(0.002, 0.1); }
    double contact() { return dice_.spread(0.001, 0.01); }

    int wanted_;
    Dice dice_;
    Network network_;
};

} // namespace

Network vehicle_network(int nodes, std::uint32_t seed) { return Loom(nodes, seed).make(); }

Network wild_network(int nodes, int elements, std::uint32_t seed) {
    Dice dice(seed);
    Network network{nodes, {}, dice.below(nodes), dice.below(nodes)};
    for (int i = 0; i < elements; ++i)
        network.elements.push_back(
            {dice.below(nodes), dice.below(nodes), dice.spread(1e-5, 1e7), dice.chance(0.25) ? dice.spread(0.1, 100) - 20 : 0});
    return network;
}

void disturb(Resistor& element, const Resistor& sound, Dice& dice) {
    element = sound;
    switch (dice.below(4)) {
    case 0: element.ohms = open_ohms; break;
    case 1: element.ohms += dice.spread(0.01, 1000); break;
    case 2: element.ohms = std::min(element.ohms, 0.01); break;
    default: break;
    }
}

std::vector<int> joined(const Network& network) {
    std::vector<int> root(network.nodes);
    std::iota(root.begin(), root.end(), 0);
    bool again = true;
    while (again) { // the lower name spreads until nothing changes
        again = false;
        for (const Resistor& element : network.elements) {
            if (std::isinf(element.ohms) || root[element.a] == root[element.b]) continue;
            root[element.a] = root[element.b] = std::min(root[element.a], root[element.b]);
            again = true;
        }
    }
    return root;
}

} // namespace loomsheet::lab
