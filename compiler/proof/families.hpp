// The rules of each family, one function each; rules.hpp says which file calls them.
#pragma once
#include "proof/arrows.hpp"
#include "proof/doubt.hpp"
#include "proof/nets.hpp"
#include "source/diagnostic.hpp"

namespace loomsheet {

// LS306 to LS311, LS313, LS314: what single checks and verdicts say.
void prove_outcomes(const Plan& plan, const PlanMap& map, const Doubt& doubt, Findings& findings);

// A pin at which something should go on and does not. When a missing way to ground or to the supply ends there, or
// would be whole if it were joined, that is said instead and the end counts as told. A free output has no finding (code
// 0).
struct OpenEnd {
    PinId pin = none;
    Diagnostic finding;
    bool told = false;
};

// LS401, LS402. Marks the open ends that it speaks of, and takes out of `nets` the lost wires that explain a missing
// way.
void prove_ways(Nets& nets, std::vector<OpenEnd>& open, Findings& findings);
// How many ways to a supply or to ground are missing.
std::size_t count_missing_ways(const Nets& nets);
// LS403, LS405: the pins and cavities where a wire is missing.
std::vector<OpenEnd> open_ends(const Nets& nets, const Doubt& doubt);
// LS404, LS410: wires that do not fit where they end.
void prove_wire_ends(const Nets& nets, const Doubt& doubt, Findings& findings);
// LS406. Takes the wire to blame out of `nets`, so that the other rules see the rest.
void prove_no_short(Nets& nets, Findings& findings);
// LS407, LS408, LS409: what the fuses protect, and what they carry.
void prove_fused(const Nets& nets, Findings& findings);
void prove_fuse_sizes(const Nets& nets, Findings& findings);
void prove_fuse_loads(const Plan& plan, const Nets& nets, Findings& findings);

// LS503 to LS507, LS513: where the tips go.
void prove_probing(const Plan& plan, const Doubt& doubt, Findings& findings);

} // namespace loomsheet
