// States and faults that cannot be put into the circuit: LS310 of states that are not computed, LS710, LS711.
#include "circuit/fault.hpp"
#include "faults/planted.hpp"
#include "proof/reading_table.hpp"
#include "proof/rules.hpp"
#include <fmt/format.h>

namespace loomsheet {
namespace {

void prove_looks(const Check& check, const Predictor& sound, Findings& findings) {
    if (check.measure != MeasureKind::look) return;
    const Setup setup = setup_of(check);
    std::vector<const States*> asked{&check.look_states};
    for (const Outcome& outcome : check.outcomes)
        asked.push_back(&outcome.states);
    for (const States* states : asked) {
        const std::string why = sound.not_computed(setup, *states);
        if (why.empty()) continue;
        findings.add(finding::look_proves_nothing, states->list.front().at, fmt::format("'{}' proves nothing: {}", check.label, why),
                     "name a motor, a lamp, a relay or another part whose state follows from the circuit, in a set-up in which nothing "
                     "switches on and off all the time");
        return;
    }
}

void prove_complaint(const Plan& plan, const Predictor& sound, Findings& findings) {
    if (const std::string why = sound.not_computed(plan.complaint_with, plan.complaint_states); !why.empty()) {
        findings.add(finding::look_proves_nothing, plan.complaint_states.list.front().at,
                     fmt::format("the complaint tells no fault from another: {}", why),
                     "name a motor, a lamp or another part whose state follows from the circuit, in a set-up in which nothing switches on "
                     "and off all the time");
        return;
    }
    if (plan.complaint_points && plan.complaint_limit) {
        const Reading reading = sound.read(plan.complaint_with, plan.complaint_measure, *plan.complaint_points);
        Reading usual = reading; // what the tolerances leave over is a matter of luck
        usual.low = usual.high = usual.value;
        if (fit_of(usual, *plan.complaint_limit, plan.complaint_measure) == Fit::passes)
            findings.add(finding::complaint_of_sound_car, plan.complaint_points->at,
                         fmt::format("a sound car has this complaint already: it reads {}",
                                     reading_words(plan.circuit, reading, plan.complaint_measure)),
                         "write a limit that a sound car does not meet");
    } else if (!plan.complaint_states.empty() && hold(sound, plan.complaint_with, plan.complaint_states) == Truth::yes) {
        const State& state = plan.complaint_states.list.front();
        findings.add(finding::complaint_of_sound_car, state.at,
                     fmt::format("a sound car has this complaint already: {} {} in this set-up", plan.circuit.part_name(state.of.part),
                                 state_word(state.verb)),
                     "write what a sound car does not do, and in `with` what is on when it is complained of");
    }
}

std::string why_nothing(FaultKind kind) {
    switch (kind) {
    case FaultKind::stuck_closed: return "it conducts in all of them";
    case FaultKind::stuck_open: return "it conducts in none of them";
    case FaultKind::at_position: return "it stands there in all of them";
    case FaultKind::to_ground:
    case FaultKind::to_supply:
    case FaultKind::touches: return "the two are one metal";
    case FaultKind::open:
    case FaultKind::added:
    case FaultKind::swapped:
    case FaultKind::blown:
    case FaultKind::reads:
    case FaultKind::is:
    case FaultKind::draws:
    case FaultKind::seized:
    case FaultKind::worn:
    case FaultKind::weak: break;
    }
    return "nothing of it is joined in any of them";
}

} // namespace

void prove_put_in(const Plan& plan, const Predictor& sound, Findings& findings) {
    for (const Check& check : plan.checks)
        prove_looks(check, sound, findings);
    prove_complaint(plan, sound, findings);
    const auto prove = [&](const Fault& fault, Span at, const std::string& help) {
        if (!changes_a_setup(plan, sound, fault))
            findings.add(
                finding::fault_changes_nothing, at,
                fmt::format("{} changes nothing in any set-up of this plan: {}", fault_words(plan.circuit, fault), why_nothing(fault.kind)),
                help);
    };
    for (const Plant& plant : plan.plants)
        prove(plant.fault, plant.fault.at, "plant what a check or the complaint can meet; no card is printed of it");
    if (plan.asked) prove(*plan.asked, plan.asked->at, "all readings are those of a sound car");
}

} // namespace loomsheet
