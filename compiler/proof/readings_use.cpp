// LS617 and LS618: what wires lose and fuses carry while a sound car is used.
#include "circuit/setting.hpp"
#include "circuit/wire_tables.hpp"
#include "proof/readings.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <utility>

namespace loomsheet {
namespace {

// Volts that a wire may lose at its load's current: trade rule of thumb, 0.2 V a wire; 0.5 V a starter cable.
constexpr double most_lost = 0.2, most_lost_starting = 0.5, starter_amps = 60;
constexpr double holds_for_long = 1.1; // of its rating a fuse carries for 100 h: ISO 8820-3

struct Most {
    double volts = 0, amps = 0;
    std::string when;
};

std::string use_words(const Circuit& circuit, const Setup& setup) {
    std::vector<std::string> words;
    for (const SetupItem& item : setup.items) {
        if (item.kind == ItemKind::key) words.push_back("key " + item.word);
        if (item.kind == ItemKind::output_on) words.push_back(circuit.pin_name(item.pin) + " on");
        if (item.kind == ItemKind::position) words.push_back(circuit.parts[item.part].id + " at " + item.word);
        if (item.kind == ItemKind::pressed) words.push_back(circuit.parts[item.part].id + " pressed");
        if (item.kind == ItemKind::engine_running) words.push_back("engine running");
    }
    return words.empty() ? "at rest" : list_words(words, "and", 6);
}

// The thinnest size that loses no more than it may.
std::string size_for(const Wire& wire, const Most& most, double allowed) {
    const double needed = wire.area ? wire.area->si * 1e6 * most.volts / allowed : 0;
    for (const MetricWireRow& row : metric_wires())
        if (row.mm2 >= needed) return fmt::format("take {} mm2, or a shorter wire", number_words(row.mm2));
    return "take a thicker wire";
}

} // namespace

void prove_use(const Plan& plan, const Predictor& sound, Findings& findings) {
    const Circuit& circuit = plan.circuit;
    std::vector<Most> wires(circuit.wires.size()), fuses(circuit.parts.size());
    std::vector<std::string> done;
    for (const Setup& use : normal_use(plan)) {
        const std::string when = use_words(circuit, use);
        if (std::find(done.begin(), done.end(), when) != done.end()) continue;
        done.push_back(when);
        Setting setting = set_up(circuit, sound.parameters(), use, nullptr, {});
        const std::vector<FuseLink> links = std::exchange(setting.network->fuses, {}); // none blows while we look
        setting.bench->renew();
        Stand stand = setting.bench->at_rest();
        if (setting.bench->settle(usual_values(*setting.network), stand) == Settling::chatters) continue;
        const auto keep = [&](Most& most, int branch) {
            const double amps = std::abs(setting.bench->amps(branch));
            if (amps > most.amps) most = {std::abs(setting.bench->volts(branch)), amps, when};
        };
        for (int i = 0; i < static_cast<int>(setting.network->graph.edges.size()); ++i)
            if (const Edge& edge = setting.network->graph.edges[i]; edge.kind == EdgeKind::wire) keep(wires[edge.wire], i);
        for (const FuseLink& link : links)
            keep(fuses[link.part], link.branch);
    }
    for (std::size_t i = 0; i < wires.size(); ++i) {
        const Wire& wire = circuit.wires[i];
        const double allowed = wires[i].amps >= starter_amps ? most_lost_starting : most_lost;
        if (!wire.area || !wire.length || wires[i].volts <= allowed) continue;
        findings.add(finding::wire_loses_too_much, wire.at,
                     fmt::format("{} loses {:.2f} V at {} A ({}): a wire should lose no more than {} V (trade rule of thumb)", wire.id,
                                 wires[i].volts, number_words(wires[i].amps), wires[i].when, allowed),
                     size_for(wire, wires[i], allowed));
    }
    for (std::size_t i = 0; i < fuses.size(); ++i) {
        const Part& part = circuit.parts[i];
        if (!part.rating || fuses[i].amps <= part.rating->si * holds_for_long) continue;
        const auto close = [&](const Diagnostic& found) { return found.code == finding::load_close_to_fuse && found.at == part.at; };
        const bool told = std::any_of(findings.list().begin(), findings.list().end(), close);
        if (told && std::any_of(part.allows.begin(), part.allows.end(),
                                [](const Allow& allow) { return allow.code == finding::load_close_to_fuse; }))
            continue;                          // for a moment only
        std::erase_if(findings.list(), close); // one finding a cause
        findings.add(finding::fuse_blows_in_use, part.at,
                     fmt::format("{} may blow in normal use ({}): {} A flow, and it holds {} A for long (1.1 times its "
                                 "rating, ISO 8820-3)",
                                 part.id, fuses[i].when, number_words(fuses[i].amps), number_words(part.rating->si * holds_for_long)),
                     "is a load written too large, or the fuse too small?");
    }
}

} // namespace loomsheet
