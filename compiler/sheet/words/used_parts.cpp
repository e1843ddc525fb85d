#include "sheet/words/used_parts.hpp"
#include "model/fields.hpp"
#include "proof/nets.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

class Used {
public:
    explicit Used(const Plan& plan) : plan_(plan), circuit_(plan.circuit), used_(circuit_.parts.size()) {
        const auto what_is_written = [&](const auto&... each) { (look(each), ...); };
        what_is_written(plan.complaint_states, plan.complaint_points, plan.complaint_with, plan.checks, plan.verdicts, plan.plants);
        for (PartId id = 0; id < static_cast<PartId>(circuit_.parts.size()); ++id) {
            written_here_ = false;
            look(circuit_.parts[id]);
            if (written_here_) use(id);
        }
        for (const Wire& wire : circuit_.wires)
            if (wire.at.file == plan.at.file) use_pin(wire.from), use_pin(wire.to);
        spread();
    }
    std::vector<bool> take() { return std::move(used_); }

private:
    void use(PartId id) {
        if (id == none || used_[id]) return;
        used_[id] = true;
        line_.push_back(id);
    }
    void use_pin(PinId pin) {
        if (pin != none) use(circuit_.pins[pin].part);
    }

    // --- whatever names a part, at any depth
    template <class One>
    void look(const One& one) {
        if constexpr (HasFields<const One>)
            std::apply([&](const auto&... each) { (look(each), ...); }, fields(one));
        else if constexpr (requires { one.has_value(); }) {
            if (one) look(*one);
        } else if constexpr (requires { one.first; })
            look(one.first), look(one.second);
        else if constexpr (requires { one.begin(); } && !std::is_same_v<One, std::string>)
            for (const auto& each : one)
                look(each);
    }
    void look(const Span& at) { written_here_ |= at.end > at.begin && at.file == plan_.at.file; }
    void look(const PointRef& point) {
        use(point.part), use_pin(point.pin);
        if (point.wire != none) use_pin(circuit_.wires[point.wire].from), use_pin(circuit_.wires[point.wire].to);
        for (const PinId pin : point.pins)
            use_pin(pin);
    }
    void look(const SetupItem& item) {
        use(item.part), use_pin(item.pin), look(item.a), look(item.b);
        for (const PartId part : item.parts)
            use(part);
    }

    // --- what belongs to it, and the way to the battery
    void spread() {
        const Nets nets(plan_, doubt_of(plan_, Findings()));
        while (!line_.empty()) {
            const PartId id = line_.back();
            line_.pop_back();
            const Part& part = circuit_.parts[id];
            for (const PartId other : {part.plugs_on, part.assembly, part.twin, part.bolted_to, circuit_.plug_of(id)})
                use(other);
            for (const Element& element : part.elements)
                use(element.follows);
            for (const PinId pin : part.at.file == plan_.at.file ? part.joined : std::vector<PinId>())
                use_pin(pin);
            for (PartId other = 0; other < static_cast<PartId>(circuit_.parts.size()); ++other)
                if (circuit_.parts[other].assembly == id) use(other);
            for (const PinId pin : part.pins)
                for (const Reach* from_battery : {&nets.fed, &nets.grounded})
                    for (const NodeId node : {nets.graph.own[pin], nets.graph.wire_end[pin]})
                        if (from_battery->has(node))
                            for (const int index : from_battery->way(nets.graph, node))
                                use_edge(nets.graph, nets.graph.edges[index]);
        }
    }
    void use_edge(const Graph& graph, const Edge& edge) {
        use(edge.part);
        for (const NodeId node : {edge.a, edge.b})
            use_pin(graph.nodes[node].pin);
    }

    const Plan& plan_;
    const Circuit& circuit_;
    std::vector<bool> used_;
    std::vector<PartId> line_;
    bool written_here_ = false;
};

} // namespace

std::vector<bool> used_parts(const Plan& plan) { return Used(plan).take(); }

} // namespace loomsheet
