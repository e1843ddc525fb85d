// A network with an instrument across its port, and the state in which it comes to rest: diodes and filaments first, then
// relays and modules, then fuses.
#pragma once
#include "circuit/elimination.hpp"
#include "circuit/network.hpp"
#include <limits>
#include <span>
#include <vector>

namespace loomsheet {

// What lies between the two leads: i = siemens V + amps flows through it from red to black; a test lamp is a filament. One whose ohms,
// or those of its lamp, are a parameter follows the values that are settled.
struct Instrument {
    double siemens = 0, amps = 0;
    double lamp_ohms = 0, lamp_cold = 0, lamp_volts = 0; // 0: no lamp
    ParameterId ohms = none;
};

// What stands in one of two ways. Indices as in the network.
struct Stand {
    std::vector<char> in;    // relays
    std::vector<char> alive; // modules
    std::vector<char> high;  // inputs that drivers listen to
    std::vector<char> blown; // fuses
    bool operator==(const Stand&) const = default;
};

// Shares of its rating: up to here a fuse surely stays whole, from there on it surely blows. ISO 8820-3: 100 h at 1.1, half an hour at most
// at 1.35.
inline constexpr double fuse_holds_to = 1.1, fuse_blows_at = 1.35;
// What passes in the time that a relay or a module takes leaves it whole up to here. ISO 8820-3: at 3.5 times 0.04 to 0.5 s.
inline constexpr double fuse_passes_to = 3.5;
// What comes again and again blows it within some turns from here on. ISO 8820-3: at 6 times 0.02 to 0.1 s in all.
inline constexpr double fuse_wears_at = 6;
// No current of a car is more than so many times, or less than that part of, what it usually is. From memory.
inline constexpr double widest = 2;

enum class Settling : std::uint8_t { settled, chatters };

class Bench {
public:
    // `red` and `black` are nodes of the network; both the same where nothing is measured.
    Bench(const Network& network, NodeId red, NodeId black, const Instrument& instrument);
    // In the order of elimination of another, whose network has the same nodes, and with its instrument.
    Bench(const Bench& like, const Network& network);
    Bench(const Bench&) = delete;
    Bench& operator=(const Bench&) = delete;

    // To be called when branches of the network are changed in place, all but their ends.
    void renew();
    std::span<const ParameterId> in_use() const { return in_use_; }   // those that branches and the instrument hang on, ascending
    bool is_forked(ParameterId id) const { return forked_[id] != 0; } // several branches have their ohms by it, as a track has
    const std::vector<double>& usual() const { return usual_; }       // values, by parameter

    Stand at_rest() const; // nothing pulled in, nothing alive, all fuses whole
    Stand all_on() const;
    // Settles from `stand`, which becomes the one that is reached. A stand seen twice chatters. With `held` nothing
    // moves but diodes and filaments.
    Settling settle(std::span<const double> values, Stand& stand, bool held = false);
    struct Passed {
        Stand stand;
        double load = 0;    // the greatest of its fuses
        bool blew = false;  // at rest, but for a fuse that blew there
        bool close = false; // something was not far from standing otherwise
    };
    // The stands that the last settling left, in order. What chatters goes round in those since a fuse blew.
    const std::vector<Passed>& way() const { return way_; }

    // From here on it keeps the slack.
    void watch() { slack_ = std::numeric_limits<double>::infinity(); }
    // How near anything came to standing otherwise, in A that would have to be pushed through it.
    double slack() const { return slack_; }
    void weigh_relay(std::size_t relay, double volts);
    void weigh_module(std::size_t module, double volts);
    void weigh_listener(std::size_t listener, double volts);
    double feed(std::size_t module) const;    // V on that of its supply pins which has most; of a dead one 0
    double heard(std::size_t listener) const; // V on that input; 0 where it is open inside
    void weigh_fuse(std::size_t fuse, double load);
    double load(std::size_t fuse) const; // its current as a share of its rating
    double most_load() const;            // of those that are whole
    // Fuses whose load comes near to `limit` when all ohms are low and all volts high, in this stand.
    std::vector<std::size_t> strained(const Stand& stand, double limit);

    // --- of what was settled last
    double port_volts() const { return port_volts_; }
    double instrument_amps() const;
    Admittance port() const { return elimination_.port(); }
    double volts(int branch) const; // from its a to its b; 0 where they float apart
    double amps(int branch) const;  // through it, from a to b
    double node_volts(NodeId node) const { return volts_[node]; }
    std::vector<NodeId> islands() const; // by node: one of its island
    double sum(std::span<const Along> along) const;
    // How far the volts at the port, the current of the instrument, or the sum along branches, move with each parameter in use:
    // V/ohm, V/V, V, A/ohm ...
    void slopes_of_instrument(std::span<const double> values, std::span<double> slopes);
    void slopes_of_port(std::span<const double> values, std::span<double> slopes);
    void slopes_of(std::span<const Along> along, std::span<const double> values, std::span<double> slopes);

    const Network& network() const { return *network_; }
    Instrument& instrument() { return instrument_; }

private:
    Admittance linear(int branch, std::span<const double> values, const Stand& stand) const;
    struct Tangent {
        double amps = 0, siemens = 0;
    };
    Tangent tangent(std::size_t bent, std::span<const double> values, double volts);
    bool is_cold(int branch, std::span<const double> values, double volts) const;
    void lay(int branch, Admittance value);
    void lay_linear(int branch, std::span<const double> values, const Stand& stand);
    void lay_all(std::span<const double> values, const Stand& stand);
    void lay_bent(std::size_t bent, std::span<const double> values, double volts);
    bool solve(std::span<const double> values);
    double share_of(const Along& along) const;
    double balance() const;
    double instrument_siemens() const;
    void slopes(std::span<const double> values, std::span<double> slopes) const;

    const Network* network_;
    Pattern pattern_;
    Elimination elimination_;
    Instrument instrument_;
    std::vector<int> linear_branches_, bent_branches_;         // there at all; the bent: diodes, filaments, motors
    std::vector<int> fuse_of_;                                 // by branch
    std::vector<std::vector<Along>> pulls_;                    // by relay
    std::vector<double> pull_ohms_, supply_ohms_, input_ohms_; // by relay, by module, by listener: V for each A through it, at most
    std::vector<Along> along_;
    std::vector<ParameterId> in_use_;
    std::vector<int> hang_from_, hanging_; // by parameter in use: where the linear branches that hang on it begin in the list
    std::vector<double> usual_, laid_;     // by parameter; laid: those for which the linear branches are laid
    Stand laid_stand_;
    bool none_laid_ = true;
    std::vector<char> forked_; // by parameter
    struct Knee {              // of a filament, the volts up to which it is cold, for the cold share asked last
        double cold = 0, volts = 0;
    };
    std::vector<Knee> knees_;        // by bent branch
    std::vector<double> touched_at_; // the volts at which each bent one has its tangent
    std::vector<int> changed_;       // branches laid anew since the last elimination
    bool all_changed_ = true;
    std::vector<double> volts_, answer_;
    double port_volts_ = 0, slack_ = 0;
    std::vector<Passed> way_;
};

} // namespace loomsheet
