// A resistive network reduced to what is seen between two of its nodes, the port: node after node is replaced by the
// mesh of its neighbours (star-mesh transformation), and nothing is ever subtracted from a conductance. That is the
// elimination of Grassmann, Taksar and Heyman, Operations Research 33 (1985): each result has a small relative error
// however far the conductances lie apart, and what floats shows as a conductance of exactly zero.
//
// A branch from a to b carries i = g (Va - Vb) + f: `g` siemens and `f` amperes, the current that its EMF drives
// through a short. A battery of E volts with its + at a has f = -g E. An open branch has g = f = 0.
#pragma once
#include <cstdint>
#include <span>
#include <vector>

namespace loomsheet {

struct Branch {
    int a = -1, b = -1;
    bool operator==(const Branch&) const = default;
};
struct Admittance {
    double g = 0, f = 0;
};
enum class Share : std::uint8_t {
    volts,
    own_volts, // only those along its own ohms, not along what a fault adds: for a bench to know
    amps,      // the amperes through it: likewise
};
struct Along { // the volts along a branch, times a weight
    int branch = -1;
    double weight = 1;
    Share share = Share::volts;
};

// The order of elimination and the places of all fill: made once for a network, whatever its values. Nodes of least
// degree first, among them those with the flattest tree below, so that a change of one branch has a short way to the
// port.
class Pattern {
public:
    // `red` and `black` are the port; they may be one node. A branch of a node to itself does nothing.
    Pattern(int nodes, std::span<const Branch> branches, int red, int black);
    // In the order of another, of the same nodes, whatever the branches.
    Pattern(const Pattern& like, std::span<const Branch> branches);

    int nodes() const { return static_cast<int>(order_.size()); }
    int branches() const { return static_cast<int>(slot_.size()); }
    int red() const { return red_; }
    int black() const { return black_; }
    // Nodes eliminated on the way from a branch to the port.
    int way_of(int branch) const;

private:
    friend class Elimination;
    void choose_order(std::span<const Branch> branches);
    void find_fill(std::span<const Branch> branches);
    void lay_fronts(std::span<const Branch> branches);

    // The front of a node: its entries to the neighbours that are still there, then one for each pair of them.
    struct Front {
        int entries = 0, neighbours = 0; // where they begin
        int degree = 0;                  // how many neighbours
        int parent = -1;                 // the neighbour that goes first
        int children = 0, child_count = 0;
        int targets = 0; // where its pairs' places in the parent's front are listed
    };
    int red_, black_;
    std::vector<int> order_, place_;  // node by place, place by node
    std::vector<int> joined_, alone_; // places with neighbours, and without any
    std::vector<Front> fronts_;       // by place
    std::vector<int> neighbours_, children_, targets_;
    std::vector<int> slot_;                   // by branch: its entry, or -1
    std::vector<int> first_;                  // by branch: the place of the end that goes first
    std::vector<char> turned_;                // by branch: whether b goes first
    std::vector<int> in_entry_, branch_list_; // by entry: where its branches stand in the list
    int entries_ = 0;
    std::vector<std::vector<int>> below_; // by place, while the order is chosen
};

class Elimination {
public:
    explicit Elimination(const Pattern& pattern);

    void set(int branch, Admittance value) { given_[branch] = value; }
    Admittance value(int branch) const { return given_[branch]; }
    // Eliminates all nodes but the port.
    void eliminate();
    // The same after `set` of these branches only, all else being as it was: redoes their ways to the port.
    void update(std::span<const int> branches);
    // What is seen between red and black: i = g (Vred - Vblack) + f flows from red to black inside the network.
    // g == 0 exactly when nothing joins them.
    Admittance port() const;
    // The volts of all nodes with black at 0 V and red held at `red_volts`. An island that is joined to neither has a
    // zero of its own. `passive` leaves all EMFs out.
    void solve(double red_volts, std::span<double> volts, bool passive = false) const;
    // The volts of all nodes with all EMFs out, `siemens` across the port, and as many amperes as their weights put in along
    // these branches: by reciprocity, how far the sum of the volts along them moves for an ampere anywhere.
    void answer(std::span<const Along> along, double siemens, std::span<double> volts);
    // For each node the one whose zero it shares: two nodes float apart when theirs differ.
    void islands(std::span<int> island) const;

private:
    void eliminate_node(int place);
    void mark(int branch);
    template <class Amps>
    void back(double red_volts, std::span<double> volts, const Amps& amps) const;
    const Pattern* pattern_;
    std::vector<Admittance> given_, entry_;
    std::vector<double> pivot_; // by place
    std::vector<char> marked_;
    std::vector<int> path_;
    std::vector<double> put_in_; // by entry: the f of `answer`
};

} // namespace loomsheet
