// What earlier findings have left out of a plan. A rule that looks for what is missing must not name what was left out.
#pragma once
#include "proof/statements.hpp"
#include "source/diagnostic.hpp"
#include <vector>

namespace loomsheet {

struct Doubt {
    bool circuit = false;                      // statements of the circuit are lost: say nothing about missing wires
    bool steps = false;                        // outcomes, checks or verdicts are lost: say nothing about what cannot be reached
    std::vector<bool> parts, checks, verdicts; // something in its statement was left out
    std::vector<bool> tangled;                 // checks in which something stands twice: most likely two checks, the head of one is lost
    std::vector<Span> lost_labels;             // labels of checks and verdicts that are none: typing slips, mostly
};
// From the errors of the stages before. A plan that is broken with no error to explain it is doubted as a whole.
Doubt doubt_of(const Plan& plan, const Findings& found);

} // namespace loomsheet
