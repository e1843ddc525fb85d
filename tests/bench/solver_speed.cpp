// How long one fault and one reading take: one branch of a loom is changed, the volts at the port are read, the branch
// is as it was. Elimination beside ngspice and beside sparse Cholesky refactorisation, on looms of 40 to 1000 nodes.
// Medians over rounds; a round is every fault of a loom once. All are checked to read the same.
#include "circuit/elimination.hpp"
#include "circuit/ngspice.hpp"
#include "circuit/random_networks.hpp"
#include <Eigen/CholmodSupport>
#include <Eigen/SparseCholesky>
#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fmt/format.h>

using namespace loomsheet;
using namespace loomsheet::lab;

namespace {

constexpr std::array sizes = {40, 100, 300, 1000};
constexpr int looms = 5; // of each size

// A fault that all can do in place: 10 ohm more in an element.
double burnt(const Resistor& element) { return element.ohms + 10; }

struct OneWay { // elimination, redone on the way of the changed branch; and as it was
    explicit OneWay(const Network& given)
        : network(given), pattern(given.nodes, branches(given), given.red, given.black), elimination(pattern) {
        set_all(elimination, network);
        elimination.eliminate();
        for (const Resistor& element : network.elements) {
            sound.push_back(admittance(element));
            faulty.push_back(admittance({element.a, element.b, burnt(element), element.volts}));
        }
    }
    void put(int element, Admittance value) {
        elimination.set(element, value);
        elimination.update({&element, 1});
    }
    double volts() const { return -elimination.port().f / elimination.port().g; }
    double read(int element) {
        put(element, faulty[element]);
        const double result = volts();
        put(element, sound[element]);
        return result;
    }
    const Network& network;
    Pattern pattern;
    Elimination elimination;
    std::vector<Admittance> sound, faulty;
};

struct Whole : OneWay { // all nodes anew
    using OneWay::OneWay;
    double read(int element) {
        elimination.set(element, faulty[element]);
        elimination.eliminate();
        elimination.set(element, sound[element]); // the next one sees it
        return volts();
    }
};

struct Anew { // the pattern, too
    explicit Anew(const Network& given) : network(given) {}
    double read(int element) {
        Network changed = network;
        changed.elements[element].ohms = burnt(changed.elements[element]);
        const Pattern pattern(changed.nodes, branches(changed), changed.red, changed.black);
        Elimination elimination(pattern);
        set_all(elimination, changed);
        elimination.eliminate();
        return -elimination.port().f / elimination.port().g;
    }
    const Network& network;
};

// Only red's volts are saved, and each plot is thrown away: else ngspice spends its time on its plots.
struct Spice {
    explicit Spice(const Network& given) : network(given), ngspice(Ngspice::get()) {
        std::vector<std::string> lines = netlist(network, std::vector<char>(network.nodes), std::nullopt);
        lines.insert(lines.end() - 1, fmt::format(".save v(n{})", network.red));
        ngspice.load(lines);
    }
    double result() {
        const double volts = ngspice.volts(network.red).value_or(NAN);
        ngspice.command("destroy all");
        return volts;
    }
    const Network& network;
    Ngspice& ngspice;
};

struct SpiceAlter : Spice {
    using Spice::Spice;
    double read(int element) {
        ngspice.command(fmt::format("alter r{} = {:.17g}", element, burnt(network.elements[element])));
        ngspice.command("op");
        ngspice.command(fmt::format("alter r{} = {:.17g}", element, network.elements[element].ohms));
        return result();
    }
};

struct SpiceSweep : Spice { // a sweep of one point sets the element and puts it back
    using Spice::Spice;
    double read(int element) {
        const double ohms = burnt(network.elements[element]);
        ngspice.command(fmt::format("dc r{} {:.17g} {:.17g} 1", element, ohms, ohms));
        return result();
    }
};

template <typename Factor>
struct Cholesky { // the pattern analysed once, numbers changed in place
    explicit Cholesky(const Network& given) : network(given), matrix(given.nodes, given.nodes) {
        std::vector<Eigen::Triplet<double>> entries{{network.black, network.black, 1.0}}; // black stands alone at 0 V
        for (int node = 0; node < network.nodes; ++node)
            entries.emplace_back(node, node, 0.0);
        for (const Resistor& element : network.elements)
            entries.emplace_back(std::max(element.a, element.b), std::min(element.a, element.b), 0.0);
        matrix.setFromTriplets(entries.begin(), entries.end());
        amps = Eigen::VectorXd::Zero(network.nodes);
        for (const Resistor& element : network.elements)
            add(element, element.ohms, 1);
        factor.analyzePattern(matrix);
    }
    void add(const Resistor& element, double ohms, double sign) {
        const auto [g, f] = admittance({element.a, element.b, ohms, element.volts});
        const bool a = element.a != network.black, b = element.b != network.black;
        if (a) matrix.coeffRef(element.a, element.a) += sign * g, amps[element.a] -= sign * f;
        if (b) matrix.coeffRef(element.b, element.b) += sign * g, amps[element.b] += sign * f;
        if (a && b) matrix.coeffRef(std::max(element.a, element.b), std::min(element.a, element.b)) -= sign * g;
    }
    double read(int element) {
        const Resistor& changed = network.elements[element];
        add(changed, changed.ohms, -1), add(changed, burnt(changed), 1);
        factor.factorize(matrix);
        const double volts = factor.solve(amps)[network.red];
        add(changed, burnt(changed), -1), add(changed, changed.ohms, 1);
        return volts;
    }
    const Network& network;
    Eigen::SparseMatrix<double> matrix; // its lower half
    Eigen::VectorXd amps;
    Factor factor;
};

// Median microseconds a fault and reading.
template <typename Way>
double microseconds(const std::vector<Network>& networks, int rounds) {
    std::vector<double> taken;
    for (const Network& network : networks) {
        OneWay reference(network);
        Way way(network);
        const auto count = static_cast<int>(network.elements.size());
        for (int element = 0; element < count; ++element) {
            const double expected = reference.read(element), got = way.read(element);
            if (!(std::abs(got - expected) <= 1e-6)) {
                fmt::print(stderr, "readings differ: {} and {}\n", expected, got);
                std::exit(1);
            }
        }
        for (int round = 0; round < rounds; ++round) {
            volatile double keep = 0;
            const auto start = std::chrono::steady_clock::now();
            for (int element = 0; element < count; ++element)
                keep = keep + way.read(element);
            const std::chrono::duration<double, std::micro> time = std::chrono::steady_clock::now() - start;
            taken.push_back(time.count() / count);
        }
    }
    std::sort(taken.begin(), taken.end());
    return taken[taken.size() / 2];
}

using Row = std::array<double, sizes.size()>;

// Of the straight line through the logarithms: time grows as nodes to this power.
double exponent(const Row& row) {
    double x = 0, y = 0, xx = 0, xy = 0;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        const double a = std::log(sizes[i]), b = std::log(row[i]);
        x += a, y += b, xx += a * a, xy += a * b;
    }
    const auto count = static_cast<double>(sizes.size());
    return (count * xy - x * y) / (count * xx - x * x);
}

} // namespace

int main() {
    std::array<std::vector<Network>, sizes.size()> networks;
    for (std::size_t i = 0; i < sizes.size(); ++i)
        for (std::uint32_t seed = 1; seed <= looms; ++seed)
            networks[i].push_back(vehicle_network(sizes[i], seed));

    fmt::print("  {:<38}", "microseconds a fault and reading");
    for (const int size : sizes)
        fmt::print("{:>9}", size);
    fmt::print(" nodes   grows as nodes to the\n");
    const auto measure = [&]<typename Way>(const char* name, int rounds, Way*) {
        Row row;
        for (std::size_t i = 0; i < sizes.size(); ++i)
            row[i] = microseconds<Way>(networks[i], rounds);
        fmt::print("  {:<38}", name);
        for (const double each : row)
            fmt::print("{:>9.2f}", each);
        fmt::print("         {:.2f}\n", exponent(row));
        std::fflush(stdout);
        return row;
    };
    const Row ours = measure("elimination, the way of the branch", 41, static_cast<OneWay*>(nullptr));
    measure("elimination, all nodes", 11, static_cast<Whole*>(nullptr));
    measure("elimination, its pattern made anew", 1, static_cast<Anew*>(nullptr));
    const Row alter = measure("ngspice, alter and op", 1, static_cast<SpiceAlter*>(nullptr));
    const Row sweep = measure("ngspice, dc of one point", 1, static_cast<SpiceSweep*>(nullptr));
    const Row eigen =
        measure("Eigen SimplicialLDLT", 3, static_cast<Cholesky<Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>>>*>(nullptr));
    const Row cholmod =
        measure("CHOLMOD simplicial LDLT", 3, static_cast<Cholesky<Eigen::CholmodSimplicialLDLT<Eigen::SparseMatrix<double>>>*>(nullptr));
    const auto times = [&](const char* name, const Row& a, const Row& b) {
        fmt::print("  {:<38}", name);
        for (std::size_t i = 0; i < sizes.size(); ++i)
            fmt::print("{:>9.0f}", std::min(a[i], b[i]) / ours[i]);
        fmt::print("\n");
    };
    times("ngspice at its best takes so many times", alter, sweep);
    times("sparse Cholesky takes so many times", eigen, cholmod);
    return 0;
}
