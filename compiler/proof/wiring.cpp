#include "proof/families.hpp"
#include "proof/rules.hpp"

namespace loomsheet {

void prove_wiring(const Plan& plan, const Doubt& doubt, Findings& findings) {
    Nets nets(plan, doubt);
    prove_wire_ends(nets, doubt, findings);
    if (nets.has_source()) prove_no_short(nets, findings);
    if (!doubt.circuit) {
        std::vector<OpenEnd> open = open_ends(nets, doubt);
        if (nets.has_source()) prove_ways(nets, open, findings);
        std::size_t excused = nets.lost_wires.size(); // each may have been meant for one of them
        for (OpenEnd& end : open) {
            if (end.told || end.finding.code == 0 || nets.is_shared(end.finding.at)) continue;
            if (excused > 0)
                --excused;
            else
                findings.add(std::move(end.finding));
        }
    }
    if (!nets.has_source()) return;
    prove_fused(nets, findings);
    prove_fuse_sizes(nets, findings);
    prove_fuse_loads(plan, nets, findings);
}

} // namespace loomsheet
