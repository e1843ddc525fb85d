#include "proof/rules.hpp"

namespace loomsheet {

void prove_form(const Plan& plan, Findings& findings) {
    const Doubt doubt = doubt_of(plan, findings);
    prove_flow(plan, doubt, findings);
    prove_wiring(plan, doubt, findings);
    prove_setup(plan, doubt, findings);
}

} // namespace loomsheet
