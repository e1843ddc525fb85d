#include "proof/allow.hpp"
#include "proof/statements.hpp"
#include "source/catalogue.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

std::vector<Allow>* allows_of(Plan& plan, const StatementPlace& place) {
    switch (place.kind) {
    case StatementKind::part: return &plan.circuit.parts[place.index].allows;
    case StatementKind::wire: return &plan.circuit.wires[place.index].allows;
    case StatementKind::check: return &plan.checks[place.index].allows;
    case StatementKind::verdict: return &plan.verdicts[place.index].allows;
    default: return nullptr;
    }
}

bool accepts(std::vector<Allow>& allows, int code) {
    bool accepted = false;
    for (Allow& allow : allows)
        if (allow.code == code) allow.used = accepted = true;
    return accepted;
}

void report_unused(const std::vector<Allow>& allows, Family family, Findings& findings) {
    for (const Allow& allow : allows) {
        if ((allow.code / 100 == 7) != (family == Family::proved)) continue;
        const CatalogueRow* row = find_in_catalogue(allow.code);
        if (allow.used || row == nullptr || row->severity == Severity::error)
            continue; // the last two were found before
        findings.add(312, allow.at,
                     fmt::format("nothing here needs `allow {}` ({})", code_name(allow.code), row->title),
                     "take it out");
    }
}

} // namespace

void apply_allowances(Plan& plan, Findings& findings, Family family) {
    const StatementPlaces places(plan);
    std::erase_if(findings.list(), [&](const Diagnostic& finding) {
        if (severity_of(finding) == Severity::error) return false;
        const StatementPlace* place = places.before(finding.at);
        std::vector<Allow>* own = place ? allows_of(plan, *place) : nullptr;
        const bool by_statement = own && accepts(*own, finding.code);
        const bool by_plan = accepts(plan.allows, finding.code);
        return by_statement || by_plan;
    });
    if (findings.has_errors()) return; // the warning may come when they are mended
    report_unused(plan.allows, family, findings);
    for (const Part& part : plan.circuit.parts)
        report_unused(part.allows, family, findings);
    for (const Wire& wire : plan.circuit.wires)
        report_unused(wire.allows, family, findings);
    for (const Check& check : plan.checks)
        report_unused(check.allows, family, findings);
    for (const Verdict& verdict : plan.verdicts)
        report_unused(verdict.allows, family, findings);
}

} // namespace loomsheet
