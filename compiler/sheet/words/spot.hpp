// A point to probe as a person finds it: what it is called, which metal the tip touches, where that is.
#pragma once
#include "model/plan.hpp"
#include "sheet/words/words.hpp"
#include <string>
#include <vector>

namespace loomsheet {

enum class View : std::uint8_t { wire_side, mating_face };

struct Spot {
    std::string name;          // "X21.1", "G1.−", "body"
    Word metal{};              // "wire side", "from the front", "post", "bare metal": short, read while probing
    std::string place;         // "Fan motor plug, plugged in, behind the radiator"
    std::string mark;          // what stands on the cavity, such as "54G"
    std::vector<WireId> wires; // whose colours stand at the point
    PartId connector = none;   // whose cavities are seen
    PartId socket = none;      // of this part, which is taken out
    PinId cavity = none;
    View view = View::wire_side;
};

// `near` is the part that the other lead is on: "bare metal of the body, near Fan relay".
Spot spot_of(const Wording& say, const Circuit& circuit, const Setup& setup, const PointRef& point, PartId near);

// Whether the set-up has this connector unplugged (by its name, its other half, or the part it sits on).
bool is_apart(const Circuit& circuit, const Setup& setup, PartId connector);
bool is_pulled(const Setup& setup, PartId part);

// The part whose metal the tip touches; none for the body.
PartId part_of(const Circuit& circuit, const PointRef& point);
// The panels that hide what this check probes, unplugs, pulls, bridges or loads; each once, in order.
std::vector<PanelId> panels_for(const Circuit& circuit, const Check& check);

} // namespace loomsheet
