// Volts of a network of conductances and currents: node after node is taken out, its neighbours joined instead (star to mesh). Nothing is
// subtracted, so ohms from 10 µohm to 10 Mohm stand beside one another, and an island that hangs on nothing shows as a pivot of exactly 0.
#pragma once
#include <utility>
#include <vector>

namespace oracle {

class Elimination {
public:
    // Between which nodes there may be a branch.
    Elimination(int nodes, const std::vector<std::pair<int, int>>& branches);
    // Siemens by branch (0: open), amperes that enter by node. Each island's volts count from one of its own nodes.
    void solve(const std::vector<double>& siemens, const std::vector<double>& amperes, std::vector<double>& volts);

private:
    struct Neighbour {
        int slot, node;
    };
    struct Join {
        int first, second, slot;
    };
    struct Step {
        int node;
        std::size_t neighbours, joins; // ends in the lists below
    };
    std::vector<int> slot_of_; // by branch; -1 from a node to itself
    std::vector<Step> steps_;
    std::vector<Neighbour> neighbours_;
    std::vector<Join> joins_;
    std::vector<double> slots_, entering_, pivots_;
};

} // namespace oracle
