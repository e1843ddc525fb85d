// A circuit that is too large for one page, shared out by function: what hangs together without grounds, the battery,
// splices of many wires and large modules stays on one page. No wire is cut: what goes on elsewhere is a splice or a
// pin, marked with the page.
#pragma once
#include "drawing/scheme.hpp"
#include <functional>

namespace loomsheet::drawing {

// Wires, and parts without any, that are drawn together; in the order in which they are declared.
struct Group {
    std::vector<WireId> wires;
    std::vector<PartId> parts;
};
class Paging {
public:
    Paging(const Circuit& circuit, const std::vector<double>& volts);

    std::vector<Group> groups() const;
    // One group that alone is too large, in pieces that hang together at less.
    std::vector<Group> pieces_of(const Group& group) const;
    // What each page shows; `pages` are its groups put together.
    std::vector<Extract> extracts(const std::vector<Group>& pages, const Phrases& phrases) const;

private:
    std::vector<Group> glue(const std::vector<WireId>& wires, bool by_parts) const;
    struct Strand { // an element of a part
        std::vector<PinId> pins;
        PinId key = none;
        std::vector<int> shared; // by pin: how many elements use it
    };
    std::vector<Strand> strands_of(PartId part) const;
    bool is_divisible(PartId part) const;
    PinId joint_of(WireId wire, bool from) const; // the pin of the part under a plug
    const Circuit& circuit_;
    const std::vector<double>& volts_;
    std::vector<std::vector<WireId>> at_; // by joint
};

} // namespace loomsheet::drawing
