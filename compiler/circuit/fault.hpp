// One thing that is wrong, put into a network: what `plant` can say, as changed branches.
#pragma once
#include "circuit/network.hpp"
#include <optional>
#include <string>

namespace loomsheet {

// Changes the branches that the fault touches; a short adds one. False where it changes nothing: this set-up has
// nothing of what the fault names (its plug is off, its fuse is pulled), or has it so already (a contact that is
// closed).
bool put_in(const Circuit& circuit, const Fault& fault, Network& network);
// The branches that it changes; empty for shorts and swaps, which lay new ones.
std::vector<int> touched(const Circuit& circuit, const Fault& fault, const Network& network);
// Between which nodes a short lays a branch; none where it lays none, and for all other faults.
std::optional<Branch> laid(const Circuit& circuit, const Fault& fault, const Network& network);
// "joint X30.1 2.2 ohm"
std::string fault_words(const Circuit& circuit, const Fault& fault);

} // namespace loomsheet
