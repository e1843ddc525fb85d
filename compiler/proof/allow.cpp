#include "proof/allow.hpp"
#include "proof/statements.hpp"
#include "source/catalogue.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <set>

namespace loomsheet {
namespace {

using UsedAllows = std::set<const Allow*>;

const std::vector<Allow>* allows_of(const Plan& plan, const StatementPlace& place) {
    switch (place.kind) {
    case StatementKind::part: return &plan.circuit.parts[place.index].allows;
    case StatementKind::wire: return &plan.circuit.wires[place.index].allows;
    case StatementKind::check: return &plan.checks[place.index].allows;
    case StatementKind::verdict: return &plan.verdicts[place.index].allows;
    default: return nullptr;
    }
}

bool accepts(const std::vector<Allow>& allows, int code, UsedAllows& used) {
    bool accepted = false;
    for (const Allow& allow : allows)
        if (allow.code == code) accepted = true, used.insert(&allow);
    return accepted;
}

void report_unused(const std::vector<Allow>& allows, const UsedAllows& used, Family family, Findings& findings) {
    for (const Allow& allow : allows) {
        if ((finding::family(allow.code) == finding::proof) != (family == Family::proved)) continue;
        const CatalogueRow* row = find_in_catalogue(allow.code);
        if (used.count(&allow) == 1 || row == nullptr || row->severity == Severity::error) continue; // the last two were found before
        findings.add(finding::allowance_not_needed, allow.at,
                     fmt::format("nothing here needs `allow {}` ({})", code_name(allow.code), row->title), "take it out");
    }
}

} // namespace

void apply_allowances(const Plan& plan, Findings& findings, Family family) {
    UsedAllows used;
    const StatementPlaces places(plan);
    std::erase_if(findings.list(), [&](const Diagnostic& finding) {
        if (severity_of(finding) == Severity::error) return false;
        const StatementPlace* place = places.before(finding.at);
        const std::vector<Allow>* own = place ? allows_of(plan, *place) : nullptr;
        const bool by_statement = own && accepts(*own, finding.code, used);
        const bool by_plan = accepts(plan.allows, finding.code, used);
        return by_statement || by_plan;
    });
    if (findings.has_errors()) return; // the warning may come when they are mended
    report_unused(plan.allows, used, family, findings);
    for (const Part& part : plan.circuit.parts)
        report_unused(part.allows, used, family, findings);
    for (const Wire& wire : plan.circuit.wires)
        report_unused(wire.allows, used, family, findings);
    for (const Check& check : plan.checks)
        report_unused(check.allows, used, family, findings);
    for (const Verdict& verdict : plan.verdicts)
        report_unused(verdict.allows, used, family, findings);
}

} // namespace loomsheet
