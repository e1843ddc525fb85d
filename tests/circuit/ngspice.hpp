// ngspice, a simulator written by others, as the shared library: for tests and benchmarks only, the product never links
// it. It is one for the whole process and holds one circuit at a time.
#pragma once
#include "circuit/random_networks.hpp"
#include <optional>
#include <string>
#include <vector>

namespace loomsheet::lab {

// The network as a SPICE netlist, line by line: black is node 0, node i is n<i>, element i is r<i> with its battery
// v<i> behind it. Open elements, and nodes where `left_out` is set, are not in it. `red_volts` holds red on an ideal
// source.
std::vector<std::string> netlist(const Network& network, const std::vector<char>& left_out, std::optional<double> red_volts);

class Ngspice {
public:
    static Ngspice& get();
    // Takes a circuit in place of the one before.
    void load(std::vector<std::string> netlist);
    // One line of its command language, such as "op" or "alter r3 = 0.5".
    void command(const std::string& line);
    // After "op": the volts of node i, or nothing if it has none.
    std::optional<double> volts(int node) const;
    // Errors and warnings since the last load.
    const std::string& complaints() const { return complaints_; }

private:
    Ngspice();
    static int said(char* text, int, void* self);
    std::string complaints_;
    bool loaded_ = false;
};

} // namespace loomsheet::lab
