#include "proof/families.hpp"
#include "proof/rules.hpp"

namespace loomsheet {

void prove_wiring(const Plan& plan, Findings& findings) {
    Nets nets(plan);
    prove_wire_ends(nets, findings);
    if (nets.has_source()) prove_no_short(nets, findings);
    if (!plan.broken) { // else what is missing may stand in a line that was not understood
        std::vector<OpenEnd> open = open_ends(nets);
        if (nets.has_source()) prove_ways(nets, open, findings);
        for (OpenEnd& end : open)
            if (!end.told) findings.add(std::move(end.finding));
    }
    if (!nets.has_source()) return;
    prove_fused(nets, findings);
    prove_fuse_sizes(nets, findings);
    prove_fuse_loads(plan, nets, findings);
}

} // namespace loomsheet
