// LS406: the supply joined to ground with nothing between that limits the current.
#include "proof/families.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <fmt/format.h>
#include <map>

namespace loomsheet {
namespace {

// The contacts on the way that must be closed for it, none when no position of a switch or relay closes them all.
std::optional<std::vector<PartId>> closed_together(const Graph& graph, const std::vector<int>& way) {
    std::map<PartId, std::uint64_t> positions;
    for (const int index : way) {
        const Edge& edge = graph.edges[index];
        if (edge.kind == EdgeKind::contact) positions.try_emplace(edge.part, ~std::uint64_t{0}).first->second &= edge.positions;
    }
    std::vector<PartId> parts;
    for (const auto& [part, common] : positions) {
        if (common == 0) return std::nullopt;
        parts.push_back(part);
    }
    return parts;
}

// The wire without which the fewest ways are missing; of equals rather no main cable, and rather the last.
WireId wire_to_blame(Nets& nets, const std::vector<int>& way) {
    WireId blame = none;
    std::pair<std::size_t, bool> least;
    for (const int index : way) {
        const WireId wire = nets.graph.edges[index].wire;
        if (wire == none) continue;
        nets.cut(wire);
        const std::pair cost(count_missing_ways(nets), nets.circuit.wires[wire].unfused);
        nets.restore(wire);
        if (blame == none || cost <= least) blame = wire, least = cost;
    }
    return blame;
}

} // namespace

void prove_no_short(Nets& nets, Findings& findings) {
    const Circuit& circuit = nets.circuit;
    const Admit closable = [](const Edge& edge, NodeId, NodeId) { return is_conductor(edge) || edge.kind == EdgeKind::contact; };
    for (const Edge& battery : sources(circuit, nets.graph)) {
        for (;;) {
            const Reach from_plus = reach(nets.graph, std::vector{battery.a}, closable);
            if (!from_plus.has(battery.b)) break;
            const std::vector<int> way = from_plus.way(nets.graph, battery.b);
            const auto contacts = closed_together(nets.graph, way);
            const WireId blame = contacts ? wire_to_blame(nets, way) : none;
            if (blame == none) break;
            const Wire& wire = circuit.wires[blame];
            std::vector<std::string> switches;
            for (const PartId part : *contacts)
                switches.push_back(circuit.parts[part].id);
            Diagnostic finding{finding::supply_joined_to_ground, wire.at, {}, {}, {}};
            finding.says = fmt::format(
                "the supply is joined to ground with no load between{}: {}",
                switches.empty() ? "" : fmt::format(" when {} {} closed", list_words(switches), switches.size() == 1 ? "is" : "are"),
                fmt::format("{}", fmt::join(way_words(circuit, nets.graph, way), ", ")));
            finding.help = fmt::format("without {} the rest of the way is sound: look at where it ends", wire.id);
            findings.add(std::move(finding));
            nets.cut(blame);
        }
    }
}

} // namespace loomsheet
