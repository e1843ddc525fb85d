// LS407 to LS409: what the fuses protect, and what they carry.
#include "circuit/wire_tables.hpp"
#include "proof/families.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>

namespace loomsheet {
namespace {

// Consumers one of whose ends `there` has come to, each part once.
std::vector<PartId> consumers_on(const Nets& nets, const Reach& there) {
    std::vector<PartId> parts;
    for (const Consumer& consumer : nets.consumers) {
        const auto on = [&](NodeId node) { return there.has(node); };
        if (!std::any_of(consumer.plus.begin(), consumer.plus.end(), on) && !std::any_of(consumer.minus.begin(), consumer.minus.end(), on))
            continue;
        if (parts.empty() || parts.back() != consumer.part) parts.push_back(consumer.part);
    }
    return parts;
}

std::vector<std::string> ids(const Circuit& circuit, const std::vector<PartId>& parts) {
    std::vector<std::string> names;
    for (const PartId part : parts)
        names.push_back(circuit.parts[part].id);
    return names;
}

// --- LS408, LS409: a fuse and what lies behind it
// ---------------------------------------------------------------------
struct Fuse {
    PartId part = none;
    int link = none;      // its edge
    NodeId behind = none; // the end away from the supply
};

// Fuses with a rating that are fed from one side only, by the nearest way from the battery.
std::vector<Fuse> fuses_of(const Nets& nets) {
    std::vector<Fuse> fuses;
    for (int index = 0; index < static_cast<int>(nets.graph.edges.size()); ++index) {
        const Edge& edge = nets.graph.edges[index];
        if (edge.kind != EdgeKind::link || !nets.circuit.parts[edge.part].rating) continue;
        for (const NodeId end : {edge.a, edge.b})
            if (nets.fed.by[end] == index) fuses.push_back({edge.part, index, end});
    }
    return fuses;
}

// What hangs on the fuse, on this side of all loads; the other fuses end it, or let it through.
Reach behind(const Nets& nets, const Fuse& fuse, bool through_fuses) {
    return reach(nets.graph, std::vector{fuse.behind}, [&](const Edge& edge, NodeId from, NodeId to) {
        if (&edge == &nets.graph.edges[fuse.link] || nets.cold.has(to)) return false;
        if (edge.kind == EdgeKind::link && !through_fuses) return false;
        return edge.kind != EdgeKind::driver && may_conduct(edge, from);
    });
}

// The nearest rating that is made; the figure itself where none is.
double largest_fuse_up_to(double amps) {
    const auto above = std::upper_bound(fuse_ratings().begin(), fuse_ratings().end(), amps);
    return above == fuse_ratings().begin() ? amps : *std::prev(above);
}
double smallest_fuse_from(double amps) {
    const auto enough = std::lower_bound(fuse_ratings().begin(), fuse_ratings().end(), amps);
    return enough == fuse_ratings().end() ? amps : *enough;
}

std::optional<Ampacity> carries(const Wire& wire) {
    if (wire.rated) return Ampacity{wire.rated->si, "as rated in the plan"};
    if (!wire.area) return std::nullopt;
    return ampacity(wire.gauge, wire.area->si * 1e6);
}

// Volts at which a load's power or ohms become amps, when it does not say so itself.
double amps_of(const Element& element, double system) {
    if (!element.value || element.value->unit == nullptr) return 0;
    const double volts = element.holds_at ? element.holds_at->si : system;
    switch (element.value->unit->dimension) {
    case Dimension::ampere: return element.value->si;
    case Dimension::watt: return element.value->si / volts;
    case Dimension::ohm: return element.value->si > 0 ? volts / element.value->si : 0;
    default: return 0;
    }
}

double amps_of(const Nets& nets, const Consumer& consumer, double system) {
    const Part& part = nets.circuit.parts[consumer.part];
    if (part.kind == PartKind::relay) return 0; // a coil takes little, or (a solenoid's) only for a moment
    if (consumer.element != none) return amps_of(part.elements[consumer.element], system);
    if (part.supply_pins.size() != 1) return 0; // which of its pins takes how much is not said
    double most = 0;
    for (const Draw& draw : part.draws)
        most = std::max(most, draw.value.si);
    return most;
}

// What flows at once when a contact is closed and all those before it are: its own loads and those before it.
struct Drawn {
    double amps = 0;
    std::vector<PartId> parts;
};

// The most that surely flows at once through the fuse. Contacts side by side are not added up: they may be
// alternatives.
Drawn most_drawn(const Nets& nets, const Fuse& fuse, double system) {
    const Reach there = behind(nets, fuse, true);
    std::vector<int> last_contact(nets.graph.nodes.size(), none); // on the way to each node
    std::map<int, int> contact_before;
    for (const NodeId node : there.order) {
        const int by = there.by[node];
        if (by < 0) continue;
        const int before = last_contact[nets.graph.edges[by].other(node)];
        const bool contact = nets.graph.edges[by].kind == EdgeKind::contact;
        last_contact[node] = contact ? by : before;
        if (contact) contact_before[by] = before;
    }
    std::map<int, Drawn> own; // by the last contact before the load
    for (const Consumer& consumer : nets.consumers) {
        const double amps = amps_of(nets, consumer, system);
        NodeId on = none;
        for (const std::vector<NodeId>* ends : {&consumer.plus, &consumer.minus})
            for (const NodeId end : *ends)
                if (on == none && there.has(end)) on = end;
        if (on == none || amps == 0) continue;
        Drawn& here = own[last_contact[on]];
        here.amps += amps;
        if (here.parts.empty() || here.parts.back() != consumer.part) here.parts.push_back(consumer.part);
    }
    Drawn most;
    for (const auto& each : own) {
        Drawn together;
        for (int contact = each.first;; contact = contact_before[contact]) {
            if (const auto here = own.find(contact); here != own.end()) {
                together.amps += here->second.amps;
                together.parts.insert(together.parts.end(), here->second.parts.begin(), here->second.parts.end());
            }
            if (contact == none) break;
        }
        if (together.amps > most.amps) most = std::move(together);
    }
    std::sort(most.parts.begin(), most.parts.end());
    most.parts.erase(std::unique(most.parts.begin(), most.parts.end()), most.parts.end());
    return most;
}

} // namespace

// --- LS407 ---------------------------------------------------------------------------------------------------------
void prove_fused(const Nets& nets, Findings& findings) {
    const Circuit& circuit = nets.circuit;
    const auto unfused = [&](const Edge& edge) { return edge.wire != none && circuit.wires[edge.wire].unfused; };
    const auto unlimited = [](const Edge& edge) {
        return edge.kind != EdgeKind::link && (is_conductor(edge) || edge.kind == EdgeKind::contact);
    };
    const Reach on_purpose = reach(nets.graph, nets.plus, [&](const Edge& edge, NodeId, NodeId to) {
        return unlimited(edge) && (edge.kind != EdgeKind::wire || unfused(edge)) && !nets.cold.has(to);
    });
    for (const NodeId from : on_purpose.order)
        for (const int index : nets.graph.at[from]) {
            const Edge& first = nets.graph.edges[index];
            if (first.kind != EdgeKind::wire || unfused(first) || on_purpose.has(first.other(from)) || nets.cold.has(first.other(from)))
                continue;
            const Reach beyond = reach(nets.graph, std::vector{first.other(from)}, [&](const Edge& edge, NodeId, NodeId to) {
                return unlimited(edge) && !nets.cold.has(to) && !on_purpose.has(to);
            });
            const std::vector<PartId> fed = consumers_on(nets, beyond);
            if (fed.empty()) continue;
            const Wire& wire = circuit.wires[first.wire];
            findings.add(
                finding::path_without_fuse, wire.at,
                fmt::format("{} leads from the battery to {} with no fuse on the way", wire.id, list_words(ids(circuit, fed))),
                fmt::format("put a fuse before {}, or write `unfused` in it when it is a main cable without a fuse on purpose", wire.id));
        }
}

// --- LS408 ---------------------------------------------------------------------------------------------------------
void prove_fuse_sizes(const Nets& nets, Findings& findings) {
    const Circuit& circuit = nets.circuit;
    for (const Fuse& fuse : fuses_of(nets)) {
        const Part& part = circuit.parts[fuse.part];
        const Reach there = behind(nets, fuse, false);
        const Wire* weakest = nullptr;
        Ampacity least{};
        for (const NodeId node : there.order)
            for (const int index : nets.graph.at[node]) {
                const Edge& edge = nets.graph.edges[index];
                if (edge.wire == none || !there.has(edge.other(node))) continue;
                const auto may = carries(circuit.wires[edge.wire]);
                if (may && (!weakest || may->amps < least.amps)) weakest = &circuit.wires[edge.wire], least = *may;
            }
        if (!weakest || part.rating->si <= least.amps) continue;
        findings.add({finding::fuse_too_large_for_wire,
                      part.at,
                      fmt::format("{} of {} A is larger than {} behind it may carry: {}{} A ({})", part.id, number_words(part.rating->si),
                                  weakest->id, weakest->gauge.empty() ? "" : weakest->gauge + ", ", number_words(least.amps), least.basis),
                      fmt::format("take a fuse of {} A at most or a thicker wire; when the wire's data sheet allows more, write "
                                  "`rated {} A` in {}",
                                  number_words(largest_fuse_up_to(least.amps)), number_words(part.rating->si), weakest->id),
                      {{weakest->at, "the thinnest wire before the next fuse or load"}}});
    }
}

// --- LS409 ---------------------------------------------------------------------------------------------------------
void prove_fuse_loads(const Plan& plan, const Nets& nets, Findings& findings) {
    constexpr double share = 0.8; // trade rule: 70 to 80 % for a load that stays on; common practice, no source
    const double system = system_volts(plan);
    for (const Fuse& fuse : fuses_of(nets)) {
        const Part& part = nets.circuit.parts[fuse.part];
        const Drawn most = most_drawn(nets, fuse, system);
        if (most.amps <= share * part.rating->si) continue;
        findings.add(
            finding::load_close_to_fuse, part.at,
            fmt::format("{} {} {} A through {} of {} A: {} %, and a fuse should carry no more than 80 % for "
                        "long (common practice)",
                        list_words(ids(nets.circuit, most.parts)), most.parts.size() == 1 ? "draws" : "draw", number_words(most.amps),
                        part.id, number_words(part.rating->si), number_words(std::round(100 * most.amps / part.rating->si))),
            fmt::format("take a fuse of {} A or more, with a wire that suits it{}", number_words(smallest_fuse_from(most.amps / share)),
                        most.parts.size() == 1 ? "" : ", or feed them apart"));
    }
}

} // namespace loomsheet
