// A circuit as its pages see it: which wires meet at a pin, and which pins of a part belong to one element.
#pragma once
#include "model/circuit.hpp"
#include <vector>

namespace loomsheet::drawing {

struct Strand {              // an element of a part, or of one inside it
    std::vector<PinId> pins; // those of the part itself
    PinId key = none;        // that which the fewest elements share
};
class Strands {
public:
    explicit Strands(const Circuit& circuit); // outlives it

    const Circuit& circuit() const { return circuit_; }
    // The pin at which an end of a wire meets others: that of the part under a plug.
    PinId joint_of(WireId wire, bool from) const;
    const std::vector<WireId>& wires_at(PinId joint) const { return at_[joint]; }
    bool is_wired(PartId part) const;
    // So many wired pins that its elements may stand on several pages.
    bool is_divisible(PartId part) const;
    std::vector<Strand> of(PartId part) const;
    // Whether only one element of its part uses a pin.
    static bool is_own(const std::vector<Strand>& strands, PinId pin);

private:
    const Circuit& circuit_;
    std::vector<std::vector<WireId>> at_; // by joint
};

} // namespace loomsheet::drawing
