// A measurement set up: the network with its instrument, ready to be asked.
#pragma once
#include "circuit/fault.hpp"
#include "circuit/stands.hpp"
#include <memory>
#include <string>

namespace loomsheet {

struct Setting {
    std::unique_ptr<Network> network; // the bench works on it where it stands
    std::unique_ptr<Bench> bench;
    Term term;                  // without its stand
    Stand from;                 // at rest, but for the fuses that were blown before
    std::vector<Stand> or_from; // other fuses were, in other cars
    NodeId red = none, black = none;
    bool dead = false;  // nothing is there through which a current could be measured
    std::string beyond; // what is not modelled; empty when all is
    std::vector<Stand> beginnings() const {
        std::vector<Stand> list{from};
        list.insert(list.end(), or_from.begin(), or_from.end());
        return list;
    }
};

// `red` and `black` of the row; amps and clamp have one point. With `ohms_volts` an ohmmeter of that open voltage.
Setting set_up(const Circuit& circuit, const Parameters& parameters, const Setup& setup, MeasureKind measure, const Row& row,
               const Fault* fault, const std::vector<PartId>& blown, double ohms_volts);
// Nothing measured: for what is looked at.
Setting set_up(const Circuit& circuit, const Parameters& parameters, const Setup& setup, const Fault* fault,
               const std::vector<PartId>& blown);

inline constexpr double ohms_test_amps = 1e-3; // an ohmmeter through a short

} // namespace loomsheet
