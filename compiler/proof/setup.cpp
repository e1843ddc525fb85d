// LS502, LS509, LS511 and LS512: what a set-up says. Where the tips go is looked at in probing.cpp.
#include "model/change.hpp"
#include "proof/families.hpp"
#include "proof/rules.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

// --- LS502 ---------------------------------------------------------------------------------------------------------
// How this part is taken off, as it is to be written.
std::string how_off(const Circuit& circuit, PartId id, PinId pin) {
    const Part& part = circuit.parts[id];
    if (part.kind == PartKind::connector) return fmt::format("write `{} unplugged`", part.id);
    if (const PartId plug = circuit.plug_of(id); plug != none)
        return fmt::format("write `{} unplugged`: that is its plug", circuit.parts[plug].id);
    if (circuit.sits_in_holder(id)) return fmt::format("write `{} pulled`: it sits in a holder", part.id);
    if (part.kind == PartKind::battery) return fmt::format("write `{}.- disconnected`", part.id);
    if (pin != none) return fmt::format("write `{} disconnected`", circuit.pin_name(pin));
    return fmt::format("give it a plug: connector X1 2 pins, on {}", part.id);
}

void prove_comes_off(const Circuit& circuit, const SetupItem& item, PartId id, Findings& findings) {
    if (id == none) return;
    const Part& part = circuit.parts[id];
    const bool plug = part.kind == PartKind::connector;
    switch (item.kind) {
    case ItemKind::unplugged:
        if (!plug)
            findings.add(finding::nothing_to_unplug, item.at,
                         fmt::format("{} is {}: only a plug is unplugged, by its own name", part.id, a_kind(part.kind)),
                         how_off(circuit, id, none));
        return;
    case ItemKind::pulled:
    case ItemKind::one_of_pulled:
        if (!circuit.sits_in_holder(id))
            findings.add(finding::nothing_to_unplug, item.at,
                         fmt::format("{} is {} that sits in no holder: it cannot be pulled", part.id, a_kind(part.kind)),
                         how_off(circuit, id, none));
        return;
    case ItemKind::disconnected:
        if (plug || circuit.mate(item.pin) != none || circuit.sits_in_holder(id))
            findings.add(finding::nothing_to_unplug, item.at,
                         fmt::format("{} has no clamp or nut: it is not disconnected", circuit.pin_name(item.pin)),
                         how_off(circuit, id, none));
        return;
    case ItemKind::key:
    case ItemKind::asleep:
    case ItemKind::engine_running:
    case ItemKind::engine_speed:
    case ItemKind::position:
    case ItemKind::pressed:
    case ItemKind::output_on:
    case ItemKind::at_value:
    case ItemKind::as_found:
    case ItemKind::moved:
    case ItemKind::bridge:
    case ItemKind::load:
    case ItemKind::words: return;
    }
}

// --- LS509 ---------------------------------------------------------------------------------------------------------
bool runs(const SetupItem& item) { return item.kind == ItemKind::engine_running || item.kind == ItemKind::engine_speed; }

// Why the two cannot hold at once; empty when they can.
std::string contradiction(const Circuit& circuit, const SetupItem& a, const SetupItem& b) {
    const auto pair = [&](ItemKind one, ItemKind other) {
        return (a.kind == one && b.kind == other) || (a.kind == other && b.kind == one);
    };
    const SetupItem& key = a.kind == ItemKind::key ? a : b;
    if (a.kind == ItemKind::key && b.kind == ItemKind::key && a.word != b.word)
        return fmt::format("the key is both {} and {}", a.word, b.word);
    if (key.kind == ItemKind::key && (runs(a) || runs(b)) && (key.word == "off" || key.word == "crank"))
        return fmt::format("with the key {} the engine does not run", key.word == "off" ? "off" : "at crank");
    if (pair(ItemKind::key, ItemKind::asleep) && key.word != "off") return "with the key on nothing is asleep";
    if ((a.kind == ItemKind::asleep && runs(b)) || (b.kind == ItemKind::asleep && runs(a)))
        return "with the engine running nothing is asleep";
    if (pair(ItemKind::output_on, ItemKind::unplugged)) {
        const SetupItem& output = a.kind == ItemKind::output_on ? a : b;
        const PartId off = output.kind == a.kind ? b.part : a.part;
        const PinId under = circuit.mate(output.pin); // the cavity, or the pin under it
        const bool same = circuit.pins[output.pin].part == off || (under != none && circuit.pins[under].part == off);
        if (same) return fmt::format("with {} off, {} reaches nothing", circuit.parts[off].id, circuit.pin_name(output.pin));
    }
    if (pair(ItemKind::pulled, ItemKind::one_of_pulled)) {
        const SetupItem& each = a.kind == ItemKind::one_of_pulled ? a : b;
        const PartId pulled = each.kind == a.kind ? b.part : a.part;
        if (std::find(each.parts.begin(), each.parts.end(), pulled) != each.parts.end())
            return fmt::format("{} is pulled the whole time and in turn", circuit.parts[pulled].id);
    }
    if (!same_subject(a, b) || same_state(a, b) || a.kind == ItemKind::key) return {};
    if (runs(a)) return "the engine is at two speeds";
    if (a.part != none) return fmt::format("{} is in two states at once", circuit.parts[a.part].id);
    return "the same thing is in two states at once";
}

bool within(Span inner, Span outer) { return inner.file == outer.file && inner.begin >= outer.begin && inner.end <= outer.end; }

bool holds(const Setup& setup, const SetupItem& item) {
    return std::any_of(setup.items.begin(), setup.items.end(), [&](const SetupItem& each) { return each.at == item.at; });
}

void prove_no_contradiction(const Plan& plan, const Setup& setup, Findings& findings) {
    for (std::size_t i = 0; i < setup.items.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
            const SetupItem &later = setup.items[i], &earlier = setup.items[j];
            const std::string why = contradiction(plan.circuit, earlier, later);
            if (why.empty()) continue;
            const auto told = [&](const NamedSetup& named) {
                return &named.setup != &setup && holds(named.setup, later) && holds(named.setup, earlier);
            };
            if (std::any_of(plan.setups.begin(), plan.setups.end(), told)) return;
            // What a label stands for is written elsewhere: the line that brings the two together is to be changed.
            const SetupItem& here = within(later.at, setup.at) ? later : earlier;
            const SetupItem& there = &here == &later ? earlier : later;
            const Span at = within(here.at, setup.at) ? here.at : setup.at;
            findings.add({finding::setup_contradicts_itself,
                          at,
                          fmt::format("the set-up contradicts itself: {}", why),
                          "keep the one that is meant",
                          {{there.at, "against this"}}});
            return; // one message a set-up
        }
}

// --- LS511 ---------------------------------------------------------------------------------------------------------
void prove_bridge_fused(const SetupItem& item, Findings& findings) {
    if (item.kind == ItemKind::bridge && !item.value)
        findings.add(finding::bridge_without_fuse, item.at, "a bridge without a fuse: a slip of the tip burns the lead",
                     "say how it is fused, such as `fused 10 A`, not above the fuse of the circuit");
}

// --- LS512 ---------------------------------------------------------------------------------------------------------
void prove_load_lies(const Check& check, Findings& findings) {
    const bool two_points = !check.rows.empty() && row_of(check.measure).two_points;
    if (two_points || check.measure == MeasureKind::nothing) return;
    for (const SetupItem& item : check.with.items) {
        if (item.kind != ItemKind::load || !item.across_points) continue;
        const bool here = within(item.at, check.with.at);
        Diagnostic finding{finding::load_across_nothing,
                           here ? item.at : check.with.at,
                           {},
                           "say where it lies, such as `load 21 W across X21.1 to X21.2`",
                           {}};
        finding.says = fmt::format("`{}` has no two points that the load could lie across", measure_word(check.measure));
        if (!here) finding.related.push_back({item.at, "the load"});
        findings.add(std::move(finding));
    }
}

void prove_items(const Plan& plan, const Setup& setup, Findings& findings) {
    for (const SetupItem& item : setup.items) {
        prove_comes_off(plan.circuit, item, item.part, findings);
        for (const PartId part : item.parts)
            prove_comes_off(plan.circuit, item, part, findings);
        prove_bridge_fused(item, findings);
    }
    prove_no_contradiction(plan, setup, findings);
}

} // namespace

void prove_setup(const Plan& plan, const Doubt& doubt, Findings& findings) {
    for (const NamedSetup& named : plan.setups)
        prove_items(plan, named.setup, findings);
    prove_items(plan, plan.complaint_with, findings);
    for (const Plant& plant : plan.plants)
        prove_items(plan, plant.with, findings);
    for (std::size_t i = 0; i < plan.checks.size(); ++i) {
        prove_items(plan, plan.checks[i].with, findings);
        if (!doubt.tangled[i]) prove_load_lies(plan.checks[i], findings);
    }
    prove_probing(plan, doubt, findings);
}

} // namespace loomsheet
