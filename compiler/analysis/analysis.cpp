#include "analysis/analysis.hpp"
#include "analysis/read.hpp"
#include "model/build.hpp"
#include "model/digest.hpp"
#include "proof/allow.hpp"
#include "proof/computed.hpp"
#include "proof/readings.hpp"
#include "proof/rules.hpp"
#include "proof/verdicts.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

// Whether there is a plan to judge. The rules know what errors of form and names have left out of it, and say nothing about what may
// stand there; where a whole file is missing, or nothing was understood, there is none.
bool can_be_judged(const Text& text, const Plan& plan, Findings& findings) {
    if (findings.has_errors() && text.trees.back().statements.empty()) return false;
    if (plan.id.empty() && !plan.broken)
        findings.add(finding::no_plan, text.start, "the file has no plan",
                     "begin with the head of a plan: plan HORN-01 \"Horn is silent\"");
    const auto file_is_missing = [](const Diagnostic& finding) { return finding::family(finding.code) == finding::files; };
    return std::none_of(findings.list().begin(), findings.list().end(), file_is_missing);
}

} // namespace

Analysis analyse(Sources& sources, Disk& disk, const Request& request, Kept& kept, const Stop& stop) {
    Analysis made;
    Findings& findings = made.findings;
    const Text text = read_text(sources, disk, request.path, request.fault, findings); // LS0xx, LS1xx
    made.unreadable = text.unreadable;
    if (!made.unreadable.empty()) return made;

    Plan written = build(sources, text.trees, findings, text.fault ? &*text.fault : nullptr); // LS2xx, LS501, LS508, LS901
    const bool judged = can_be_judged(text, written, findings);
    if (judged) prove_form(written, findings); // LS3xx to LS5xx
    const auto plan = std::make_shared<Plan>(std::move(written));
    made.plan = plan;

    const bool sound = judged && made.usable() && !plan->broken;
    const std::string meaning = sound ? told_to_the_meter(*plan) : std::string();
    if (sound) {
        made.sound = std::make_shared<const Predictor>(plan->circuit, system_volts(*plan));
        made.prediction = kept.predictions.of(meaning, [&] { return predict(*plan, *made.sound, stop); });
        prove_readings(*plan, *made.sound, *made.prediction, findings); // LS6xx
        prove_put_in(*plan, *made.sound, findings);                     // LS310, LS710, LS711
        // Limits that the plan leaves out: of the plan, and of its prediction.
        Prediction completed = *made.prediction;
        fill_limits(*plan, completed);
        made.prediction = std::make_shared<const Prediction>(std::move(completed));
    }
    if (judged) apply_allowances(*plan, findings, Family::compiled);

    if (sound && made.usable() && request.until != Until::predicted) {
        const auto matrix = kept.matrices.of(meaning, [&] { return fault_matrix(*plan, *made.sound, *made.prediction, stop); });
        made.diagnosis = std::make_shared<const Diagnosis>(diagnose(*plan, *made.sound, *matrix));
        if (request.until == Until::proved) prove_verdicts(*plan, *made.sound, *made.diagnosis, made.proof_findings); // LS7xx
    }
    findings.sort();
    made.proof_findings.sort();
    return made;
}

Analysis analyse(Sources& sources, Disk& disk, const Request& request) {
    Kept nothing;
    return analyse(sources, disk, request, nothing);
}

} // namespace loomsheet
