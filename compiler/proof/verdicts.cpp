#include "proof/verdicts.hpp"
#include "circuit/fault.hpp"
#include "proof/allow.hpp"
#include "proof/blind.hpp"
#include "proof/witness.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <map>

namespace loomsheet {
namespace {

bool blows(const Plan& plan, const Verdict& verdict) {
    return !verdict.blames.empty() && std::all_of(verdict.blames.begin(), verdict.blames.end(), [&](const PointRef& point) {
        return point.part != none && plan.circuit.parts[point.part].kind == PartKind::fuse;
    });
}

std::string_view it(std::size_t count) { return count == 1 ? "it" : "them"; }

class Verdicts {
public:
    Verdicts(const Plan& plan, const Diagnosis& diagnosis, const Witness& witness, Findings& findings)
        : plan_(plan), circuit_(plan.circuit), diagnosis_(diagnosis), witness_(witness), findings_(findings) {}

    // LS701, LS707: a verdict, or suspects that the plan names, where a fault may end that is not among them. LS708: a
    // way to the end on which a fault is called sound.
    void prove_named() {
        std::map<Taken, Told, ByPlace> stops, ends; // by what led there
        std::vector<Told> unnamed(plan_.verdicts.size()), shorts(plan_.verdicts.size()), sound(plan_.verdicts.size());
        for (std::size_t i = 0; i < diagnosis_.ends.size(); ++i)
            for (std::size_t e = 0; e < diagnosis_.ends[i].endings.size(); ++e) {
                const Ending& ending = diagnosis_.ends[i].endings[e];
                const Candidate& fault = diagnosis_.matrix.faults[i];
                const Judgement judged = diagnosis_.ends[i].judged[e];
                const std::vector<OutcomeSet>& cells = diagnosis_.matrix.cells[i];
                const bool sure =
                    std::all_of(ending.way.begin(), ending.way.end(), [&](const Taken& step) { return is_sure(cells[step.check]); });
                if (judged == Judgement::missed)
                    (ending.kind == EndKind::verdict ? sound[ending.verdict] : ends[ending.last]).add(fault, ending.way, sure);
                if (judged != Judgement::wrong) continue;
                if (ending.kind != EndKind::verdict)
                    stops[ending.last].add(fault, ending.way, sure);
                else
                    (blows(plan_, plan_.verdicts[ending.verdict]) && row_of(fault.fault.kind).is_short ? shorts : unnamed)[ending.verdict]
                        .add(fault, ending.way, sure);
            }
        for (std::size_t v = 0; v < plan_.verdicts.size(); ++v) {
            const Verdict& verdict = plan_.verdicts[v];
            say_unnamed(verdict.at, verdict.label + " is not the only answer", unnamed[v]);
            say_gap(verdict.at, verdict.label, sound[v]);
            if (shorts[v].empty()) continue;
            findings_.add(finding::new_fuse_on_short, verdict.at,
                          fmt::format("{} fits a new fuse, but {} may have blown it: then the new one blows too. With {}", verdict.label,
                                      shorts[v].words(circuit_), instance(shorts[v])),
                          "let the verdict go on with `->` to a check that looks for the short; " + blame_too(shorts[v]));
        }
        for (const auto& [step, told] : stops)
            say_unnamed(plan_.checks[step.check].outcomes[step.outcome].target.at, "the suspects named here leave some out", told);
        for (const auto& [step, told] : ends)
            say_gap(plan_.checks[step.check].outcomes[step.outcome].at, plan_.checks[step.check].label, told);
    }

    // LS702: what is blamed by its name though none of its faults leads here, nor one of what hangs on it. A run takes
    // in what lies on it. Of what fails in more ways than are tried nothing is said.
    void prove_blamed() {
        for (std::size_t v = 0; v < plan_.verdicts.size(); ++v) {
            const std::vector<const Candidate*> ended = ended_at(static_cast<int>(v));
            if (ended.empty()) continue; // LS705
            const Verdict& verdict = plan_.verdicts[v];
            Told cleared;
            std::vector<std::string> idle;
            for (const PointRef& point : verdict.blames) {
                if (fails_otherwise(plan_, static_cast<int>(v), point)) continue;
                if (std::any_of(ended.begin(), ended.end(), [&](const Candidate* fault) { return covers(point, *fault); })) continue;
                bool harmful = false;
                for (std::size_t i = 0; i < diagnosis_.matrix.faults.size(); ++i) {
                    const Candidate& fault = diagnosis_.matrix.faults[i];
                    if (!names(circuit_, point, fault)) continue;
                    harmful = true;
                    cleared.add(fault, diagnosis_.ends[i].endings.empty() ? std::vector<Taken>() : diagnosis_.ends[i].endings.front().way);
                }
                const bool tried = std::any_of(diagnosis_.matrix.harmless.begin(), diagnosis_.matrix.harmless.end(),
                                               [&](const Candidate& fault) { return names(circuit_, point, fault); });
                if (!harmful && tried) idle.push_back(written_point(circuit_, point));
            }
            say_cleared(verdict, cleared);
            say_idle(verdict, idle);
        }
    }

    // LS706: a planted fault that does not end where it is blamed.
    void prove_planted() {
        for (std::size_t i = 0; i < plan_.plants.size(); ++i) {
            const Plant& plant = plan_.plants[i];
            const PlantEnds& ends = diagnosis_.planted[i];
            if (ends.fate == Fate::found) continue;
            const std::string name = plant.title.empty() ? plant.label : plant.title;
            findings_.add(finding::planted_fault_not_found, plant.at,
                          fmt::format("{} ({}) may end {}: {}", name, fault_words(circuit_, plant.fault), end_words(ends),
                                      witness_.way(plant.fault, ends.way)),
                          "see which check on this way cannot see it, or blame it where it ends");
        }
    }

private:
    struct ByPlace {
        bool operator()(const Taken& a, const Taken& b) const { return std::pair(a.check, a.outcome) < std::pair(b.check, b.outcome); }
    };

    // "W3 open: lit says NO, volts passes (12.3 .. 12.9 V)"
    std::string instance(const Told& told) const {
        const Candidate& fault = told.witness();
        const std::string point = suspect_point(circuit_, fault.suspect);
        return fmt::format("{}: {}",
                           fault.fault.kind == FaultKind::added ? fmt::format("{} in {}", fault.fault.words, point)
                                                                : fmt::format("{} {}", point, fault.fault.words),
                           witness_.way(fault.fault, told.way()));
    }
    std::string blame_too(const Told& told) const {
        const std::string points = told.to_blame(circuit_);
        return points.empty() ? "or blame them here too" : fmt::format("or blame {} here too: `blames {}`", it(told.size()), points);
    }

    void say_unnamed(Span at, const std::string& what, const Told& told) {
        if (told.empty()) return;
        findings_.add(finding::verdict_does_not_name_all, at,
                      fmt::format("{}: {} may lead here too and {} not blamed. With {}", what, told.words(circuit_),
                                  told.size() == 1 ? "is" : "are", instance(told)),
                      "put a check before this that tells them apart, such as a drop under load; " + blame_too(told));
    }
    void say_gap(Span at, const std::string& label, const Told& told) {
        if (told.empty()) return;
        findings_.add(finding::gap_in_plan, at,
                      fmt::format("{} may call a car sound that complains: {}. With {}", label, told.words(circuit_), instance(told)),
                      "put a check on this way that they cannot pass, such as a drop under load");
    }

    std::vector<const Candidate*> ended_at(int verdict) const {
        std::vector<const Candidate*> ended;
        for (std::size_t i = 0; i < diagnosis_.ends.size(); ++i)
            for (const Ending& ending : diagnosis_.ends[i].endings)
                if (ending.kind == EndKind::verdict && ending.verdict == verdict) ended.push_back(&diagnosis_.matrix.faults[i]);
        return ended;
    }
    // Who looks at the point finds the fault.
    bool covers(const PointRef& point, const Candidate& fault) const {
        return names(circuit_, point, fault) || belongs(circuit_, {point.part, none, none}, fault.suspect);
    }
    void say_cleared(const Verdict& verdict, const Told& told) {
        if (told.empty()) return;
        findings_.add(finding::verdict_blames_cleared, verdict.at,
                      fmt::format("{} blames {}, but the readings on the way here have cleared {}. With {}", verdict.label,
                                  told.names(circuit_), it(told.size()), instance(told)),
                      fmt::format("take {} out of `blames`, or look at the way that leads here", it(told.size())));
    }
    void say_idle(const Verdict& verdict, const std::vector<std::string>& idle) {
        if (idle.empty()) return;
        findings_.add(
            finding::verdict_blames_cleared, verdict.at,
            fmt::format("{} blames {}, but no fault there causes the complaint on its own", verdict.label, list_words(idle, "and", 5)),
            fmt::format("take {} out of `blames`", it(idle.size())));
    }

    std::string end_words(const PlantEnds& ends) const {
        switch (ends.fate) {
        case Fate::missed: return "with the car called sound";
        case Fate::open: return "at a stop that names nothing";
        default: break;
        }
        const Taken& last = ends.way.back();
        const Target* target = target_of(plan_.checks[last.check], last.outcome);
        const bool named = target && target->kind == TargetKind::verdict && target->index != none;
        return fmt::format("at {}, which does not blame it", named ? plan_.verdicts[target->index].label : "suspects");
    }

    const Plan& plan_;
    const Circuit& circuit_;
    const Diagnosis& diagnosis_;
    const Witness& witness_;
    Findings& findings_;
};

} // namespace

void prove_verdicts(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, Findings& findings) {
    const Witness witness(plan, sound);
    Findings proved;
    Verdicts verdicts(plan, diagnosis, witness, proved);
    verdicts.prove_planted();
    if (!diagnosis.matrix.faults.empty()) { // else nothing is known of the plan
        verdicts.prove_named();
        verdicts.prove_blamed();
        prove_outcomes_used(plan, diagnosis, witness, proved);
        prove_blind(plan, sound, diagnosis, proved);
    }
    apply_allowances(plan, proved, Family::proved);
    findings.add(std::move(proved));
}

} // namespace loomsheet
