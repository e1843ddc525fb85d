#include "proof/verdicts.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <map>

namespace loomsheet {
namespace {

struct Told { // suspects with the words of their faults
    std::vector<std::pair<Suspect, std::vector<std::string>>> list;
    std::vector<Step> way; // of the first
    void add(const Candidate& fault, const std::vector<Step>& along) {
        if (list.empty()) way = along;
        for (auto& [suspect, words] : list)
            if (suspect == fault.suspect) {
                words.push_back(fault.fault.words);
                return;
            }
        list.emplace_back(fault.suspect, std::vector<std::string>{fault.fault.words});
    }
    // "W1 (open, 10 .. 100 ohm and 2 more), joint G1.+ (open) and 4 more"
    std::string words(const Circuit& circuit) const {
        std::vector<std::string> all;
        for (const auto& [suspect, faults] : list)
            all.push_back(fmt::format("{} ({})", suspect_name(circuit, suspect), list_words(faults, "and", 2)));
        return list_words(all, "and", 5);
    }
};

bool blows(const Plan& plan, const Verdict& verdict) {
    return !verdict.blames.empty() && std::all_of(verdict.blames.begin(), verdict.blames.end(), [&](const PointRef& point) {
        return point.part != none && plan.circuit.parts[point.part].kind == PartKind::fuse;
    });
}

bool is_short(const Fault& fault) {
    return fault.kind == FaultKind::to_ground || fault.kind == FaultKind::reads || fault.kind == FaultKind::stuck_closed ||
           fault.kind == FaultKind::seized;
}

// LS701, LS707: a verdict at which a fault may end that it does not name.
void prove_named(const Plan& plan, const Diagnosis& diagnosis, Findings& findings) {
    std::vector<Told> unnamed(plan.verdicts.size()), shorts(plan.verdicts.size());
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i)
        for (std::size_t e = 0; e < diagnosis.ends[i].endings.size(); ++e) {
            const Ending& ending = diagnosis.ends[i].endings[e];
            if (ending.kind != EndKind::verdict || diagnosis.ends[i].judged[e] != Judgement::wrong) continue;
            const Candidate& fault = diagnosis.matrix.faults[i];
            const bool fuse = blows(plan, plan.verdicts[ending.verdict]) && is_short(fault.fault);
            (fuse ? shorts : unnamed)[ending.verdict].add(fault, ending.way);
        }
    for (std::size_t v = 0; v < plan.verdicts.size(); ++v) {
        const Verdict& verdict = plan.verdicts[v];
        if (!unnamed[v].list.empty())
            findings.add(701, verdict.at,
                         fmt::format("{} may be wrong: {} can end here and is not blamed. For instance: {}", verdict.label,
                                     unnamed[v].words(plan.circuit), way_words(plan, unnamed[v].way)),
                         "blame them too, or add a check before this verdict that tells them apart");
        if (!shorts[v].list.empty())
            findings.add(707, verdict.at,
                         fmt::format("{} fits a new fuse where {} has blown it: the new one blows too", verdict.label,
                                     shorts[v].words(plan.circuit)),
                         "let the verdict go on with `->` to a check that looks for the short");
    }
}

// LS702: what is blamed though every way there has cleared it. LS705: a verdict at which nothing ends.
void prove_blamed(const Plan& plan, const Diagnosis& diagnosis, Findings& findings) {
    std::vector<std::vector<Suspect>> ended(plan.verdicts.size());
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i)
        for (const Ending& ending : diagnosis.ends[i].endings)
            if (ending.kind == EndKind::verdict) ended[ending.verdict].push_back(diagnosis.matrix.faults[i].suspect);
    for (std::size_t v = 0; v < plan.verdicts.size(); ++v) {
        const Verdict& verdict = plan.verdicts[v];
        if (verdict.blames_nothing || (verdict.blames.empty() && verdict.blamed_runs.empty())) continue;
        if (ended[v].empty()) {
            findings.add(705, verdict.at, fmt::format("no fault of the circuit that causes the complaint ends at {}", verdict.label),
                         "look at the limits on the way to it, or take it out");
            continue;
        }
        std::vector<Suspect> blamed; // by any fault of it
        std::vector<std::string> cleared;
        for (const std::vector<Candidate>* list : {&diagnosis.matrix.faults, &diagnosis.matrix.harmless})
            for (const Candidate& fault : *list)
                if (diagnosis.walker->blames(static_cast<int>(v), fault) &&
                    std::find(blamed.begin(), blamed.end(), fault.suspect) == blamed.end())
                    blamed.push_back(fault.suspect);
        for (const Suspect& suspect : blamed)
            if (std::find(ended[v].begin(), ended[v].end(), suspect) == ended[v].end())
                cleared.push_back(suspect_name(plan.circuit, suspect));
        if (!cleared.empty())
            findings.add(702, verdict.at,
                         fmt::format("{} blames {}, and every way here has cleared {}", verdict.label, list_words(cleared, "and", 5),
                                     cleared.size() == 1 ? "it" : "them"),
                         "take it out of `blames`, or look at the way that leads here");
    }
}

// LS703, LS704: outcomes that nothing can have, checks that find nothing.
void prove_outcomes_used(const Plan& plan, const Diagnosis& diagnosis, Findings& findings) {
    std::vector<OutcomeSet> had(plan.checks.size()); // by cars that come to the check
    for (const Step& step : diagnosis.steps)
        if (step.outcome != Step::jumps) had[step.check] |= outcome_bit(step.outcome);
    for (std::size_t c = 0; c < plan.checks.size(); ++c) {
        const Check& check = plan.checks[c];
        if (had[c] == 0 || check.exercise || check.measure == MeasureKind::read || check.measure == MeasureKind::volts_ac) continue;
        if (is_sure(had[c])) {
            findings.add(704, check.at, fmt::format("every way here has proved already what {} looks at: it comes out the same whatever is wrong", check.label),
                         "take it out, or put it before the checks that prove it");
            continue;
        }
        for (std::size_t o = 0; o < check.outcomes.size(); ++o) {
            const Outcome& outcome = check.outcomes[o];
            if ((had[c] & outcome_bit(o)) || outcome.kind == OutcomeKind::pass) continue;
            findings.add(703, outcome.at, fmt::format("no fault and no sound car that comes to {} has this outcome", check.label),
                         "take it out, or look at its limits");
        }
    }
}

// LS708: faults with which the plan may call the car sound.
void prove_no_gap(const Plan& plan, const Diagnosis& diagnosis, Findings& findings) {
    std::map<std::pair<int, int>, Told> gaps; // by where they end
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i)
        for (std::size_t e = 0; e < diagnosis.ends[i].endings.size(); ++e)
            if (diagnosis.ends[i].judged[e] == Judgement::missed) {
                const Ending& ending = diagnosis.ends[i].endings[e];
                gaps[{ending.verdict, ending.kind == EndKind::done ? ending.last.check : none}].add(diagnosis.matrix.faults[i], ending.way);
            }
    for (const auto& [where, told] : gaps)
        findings.add(708, where.first == none ? plan.checks[where.second].at : plan.verdicts[where.first].at,
                     fmt::format("gap: the car may be called sound with {}. For instance: {}", told.words(plan.circuit), way_words(plan, told.way)),
                     "add a check on this way that they cannot pass, such as a drop under load");
}

// LS706: a planted fault that does not end where it is blamed.
void prove_planted(const Plan& plan, const Diagnosis& diagnosis, Findings& findings) {
    for (std::size_t i = 0; i < plan.plants.size(); ++i) {
        const Plant& plant = plan.plants[i];
        const PlantEnds& ends = diagnosis.planted[i];
        if (ends.fate == Fate::found) continue;
        findings.add(706, plant.at,
                     fmt::format("{} may end {}: {}", plant.title.empty() ? plant.label : plant.title,
                                 ends.fate == Fate::wrong    ? "at a verdict that does not blame it"
                                 : ends.fate == Fate::missed ? "undetected"
                                                             : "at a stop that names nothing",
                                 way_words(plan, ends.way)),
                     "see which check on this way cannot see it");
    }
}

std::string percent(double share) { return fmt::format("{:.0f} %", share * 100); }

} // namespace

void prove_verdicts(const Plan& plan, const Diagnosis& diagnosis, Findings& findings) {
    prove_named(plan, diagnosis, findings);
    prove_blamed(plan, diagnosis, findings);
    prove_outcomes_used(plan, diagnosis, findings);
    prove_no_gap(plan, diagnosis, findings);
    prove_planted(plan, diagnosis, findings);
}

std::string diagnosis_summary(const Diagnosis& diagnosis) {
    const Figures& f = diagnosis.figures;
    std::string text = fmt::format("Of all that can cause the complaint, as often as it happens, this plan surely finds {}", percent(f.found));
    if (f.wrong > 0) text += fmt::format("; with {} it may blame something else", percent(f.wrong));
    if (f.missed > 0) text += fmt::format("; {} it may call sound", percent(f.missed));
    if (f.open > 0) text += fmt::format("; with {} it may stop with no verdict", percent(f.open));
    text += fmt::format(".\nOf what it finds, {} is told down to one part, {} to two, {} to three.\n", percent(f.to_one), percent(f.to_two), percent(f.to_three));
    text += fmt::format("On average {:.1f} checks and {:.0f} min to the end; at most {} checks and {:.0f} min. {} faults were tried, {} others do not cause the complaint.\n",
                        f.checks, f.minutes, f.most_checks, f.most_minutes, diagnosis.matrix.faults.size(), diagnosis.matrix.harmless.size());
    return text;
}

} // namespace loomsheet
