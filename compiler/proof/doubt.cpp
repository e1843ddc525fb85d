#include "proof/doubt.hpp"
#include "proof/arrows.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

// Findings after which a whole statement is missing from the plan: files, lines that are no statement, lost heads,
// names declared twice.
bool loses_a_statement(int code) {
    return finding::family(code) == finding::files || code == finding::not_a_statement || code == finding::indented_without_statement ||
           code == finding::statement_without_name || code == finding::second_plan_head || code == finding::reserved_word ||
           code == finding::declared_twice;
}
bool is_of_form(int code) { return finding::family(code) == finding::form; }

void doubt_family(Doubt& doubt, const StatementPlace* place) {
    if (place == nullptr) return;
    const bool step = place->kind == StatementKind::check || place->kind == StatementKind::verdict;
    (step ? doubt.steps : doubt.circuit) = true;
}

} // namespace

Doubt doubt_of(const Plan& plan, const Findings& found) {
    Doubt doubt;
    doubt.parts.resize(plan.circuit.parts.size());
    doubt.checks.resize(plan.checks.size());
    doubt.tangled.resize(plan.checks.size());
    doubt.verdicts.resize(plan.verdicts.size());
    if (plan.broken && !found.has_errors()) doubt.circuit = doubt.steps = true;
    const StatementPlaces places(plan);
    for (const Diagnostic& finding : found.list()) {
        if (severity_of(finding) != Severity::error) continue;
        const StatementPlace* here = places.before(finding.at);
        if (loses_a_statement(finding.code)) { // what it was shows in its neighbours
            doubt_family(doubt, here);
            doubt_family(doubt, places.after(finding.at));
            continue;
        }
        if (finding.code == finding::unknown_label) doubt.lost_labels.push_back(finding.at);
        if (here == nullptr) continue;
        switch (here->kind) {
        case StatementKind::part: doubt.parts[here->index] = true; break;
        case StatementKind::check: {
            if (!is_of_form(finding.code)) break;
            const Check& check = plan.checks[here->index];
            doubt.checks[here->index] = true;
            if (finding.code == finding::phrase_given_twice) doubt.tangled[here->index] = true;
            if (!has_outcome(check, OutcomeKind::pass) || !has_outcome(check, OutcomeKind::fail)) doubt.steps = true;
            break;
        }
        case StatementKind::verdict: {
            const Verdict& verdict = plan.verdicts[here->index];
            doubt.verdicts[here->index] = true;
            if (is_of_form(finding.code) && verdict.after.empty() && verdict.then.index == none) doubt.steps = true;
            break;
        }
        default: break;
        }
    }
    for (const Wire& wire : plan.circuit.wires) // a lost end is looked at where the other end is
        if (wire.from == none && wire.to == none) doubt.circuit = true;
    return doubt;
}

} // namespace loomsheet
