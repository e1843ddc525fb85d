#include "circuit/exact_volts.hpp"
#include <cmath>
#include <limits>
#include <optional>

namespace loomsheet::lab {
namespace {

#if __LDBL_MANT_DIG__ >= 113
using Quad = long double;
#else
__extension__ using Quad = __float128;
#endif

Quad size(Quad x) { return x < 0 ? -x : x; }

// matrix · x = right, row by row with the right side as last column.
std::vector<Quad> gauss(std::vector<std::vector<Quad>> rows) {
    const std::size_t count = rows.size();
    for (std::size_t k = 0; k < count; ++k) {
        std::size_t best = k;
        for (std::size_t i = k + 1; i < count; ++i)
            if (size(rows[i][k]) > size(rows[best][k])) best = i;
        std::swap(rows[k], rows[best]);
        for (std::size_t i = k + 1; i < count; ++i) {
            if (rows[i][k] == 0) continue;
            const Quad factor = rows[i][k] / rows[k][k];
            for (std::size_t j = k; j <= count; ++j)
                rows[i][j] -= factor * rows[k][j];
        }
    }
    std::vector<Quad> x(count);
    for (std::size_t k = count; k-- > 0;) {
        Quad sum = rows[k][count];
        for (std::size_t j = k + 1; j < count; ++j)
            sum -= rows[k][j] * x[j];
        x[k] = sum / rows[k][k];
    }
    return x;
}

Exact solve(const Network& network, std::optional<double> red_volts) {
    const std::vector<int> piece = joined(network);
    const bool held = red_volts && network.red != network.black;
    const auto fixed = [&](int node) { return node == network.black || (held && node == network.red); };
    const auto floats = [&](int node) { return piece[node] != piece[network.black] && !(held && piece[node] == piece[network.red]); };
    std::vector<int> row(network.nodes, -1);
    int count = 0;
    for (int node = 0; node < network.nodes; ++node)
        if (!fixed(node) && !floats(node)) row[node] = count++;

    std::vector<Quad> volts(network.nodes, 0);
    if (held) volts[network.red] = *red_volts;
    std::vector<std::vector<Quad>> rows(count, std::vector<Quad>(count + 1, 0));
    const auto add = [&](int node, int other, Quad g, Quad f) { // g (Vnode - Vother) + f leaves the node
        if (row[node] < 0) return;
        std::vector<Quad>& line = rows[row[node]];
        line[row[node]] += g;
        line[count] -= f;
        if (row[other] >= 0)
            line[row[other]] -= g;
        else
            line[count] += g * volts[other];
    };
    const auto values = [](const Resistor& element) {
        const Admittance value = admittance(element); // as rounded there: the elimination is given these numbers
        return std::pair<Quad, Quad>{value.g, value.f};
    };
    for (const Resistor& element : network.elements) {
        if (element.a == element.b || std::isinf(element.ohms)) continue;
        const auto [g, f] = values(element);
        add(element.a, element.b, g, f);
        add(element.b, element.a, g, -f);
    }
    const std::vector<Quad> x = gauss(std::move(rows));
    Exact exact;
    Quad amps = 0;
    for (int node = 0; node < network.nodes; ++node) {
        if (row[node] >= 0) volts[node] = x[row[node]];
        exact.volts.push_back(floats(node) ? std::numeric_limits<double>::quiet_NaN() : static_cast<double>(volts[node]));
    }
    for (const Resistor& element : network.elements) {
        if (!held || element.a == element.b || std::isinf(element.ohms)) continue;
        const auto [g, f] = values(element);
        const Quad flows = g * (volts[element.a] - volts[element.b]) + f;
        if (element.a == network.red) amps += flows;
        if (element.b == network.red) amps -= flows;
    }
    exact.amps = static_cast<double>(amps);
    return exact;
}

} // namespace

Exact exact_held(const Network& network, double red_volts) { return solve(network, red_volts); }
Exact exact_free(const Network& network) { return solve(network, std::nullopt); }

Admittance exact_port(const Network& network) {
    if (const std::vector<int> piece = joined(network); piece[network.red] != piece[network.black]) return {};
    Network passive = network;
    for (Resistor& element : passive.elements)
        element.volts = 0;
    return {exact_held(passive, 1).amps, exact_held(network, 0).amps};
}

} // namespace loomsheet::lab
