#include "proof/rules.hpp"
#include "proof/allow.hpp"

namespace loomsheet {

Findings prove(Plan& plan, Findings found) {
    const Doubt doubt = doubt_of(plan, found);
    prove_flow(plan, doubt, found);
    prove_wiring(plan, doubt, found);
    prove_setup(plan, doubt, found);
    apply_allowances(plan, found);
    found.sort();
    return found;
}

} // namespace loomsheet
