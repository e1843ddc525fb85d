// What an alternator does to a battery.
#pragma once
#include "circuit/network.hpp"

namespace loomsheet {

// Gives each battery of `network.charged` its volts at rest that no alternator is joined to any more, on both sides, by metal: with
// what is absent from the network, and without these fuses. To be called when a fault is in.
void settle_charging(Network& network, const std::vector<PartId>& blown);

} // namespace loomsheet
