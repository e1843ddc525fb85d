#include "circuit/setting.hpp"
#include "circuit/charging.hpp"
#include "circuit/situation.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

// The branch that a clamp lies round: a wire, or what carries all that meets at a pin.
int clamped(const Circuit& circuit, const Network& network, const PointRef& at) {
    const std::vector<Edge>& edges = network.graph.edges;
    const auto find = [&](auto&& is) {
        for (std::size_t i = 0; i < edges.size(); ++i)
            if (is(edges[i])) return static_cast<int>(i);
        return int{none};
    };
    if (at.wire != none) return find([&](const Edge& edge) { return edge.kind == EdgeKind::wire && edge.wire == at.wire; });
    PinId pin = at.pin;
    if (pin == none && at.part != none && !circuit.parts[at.part].pins.empty()) pin = circuit.parts[at.part].pins.front();
    if (pin == none) return none;
    const int joint = find([&](const Edge& edge) {
        return (edge.kind == EdgeKind::joint || edge.kind == EdgeKind::bolt) && (edge.pin == pin || edge.pin == circuit.mate(pin));
    });
    if (joint != none) return joint;
    const std::vector<WireId> wires = circuit.wires_at(pin);
    if (wires.size() != 1) return none;
    return find([&](const Edge& edge) { return edge.kind == EdgeKind::wire && edge.wire == wires.front(); });
}

void cut(Network& network, PartId part) {
    for (std::size_t i = 0; i < network.graph.edges.size(); ++i)
        if (network.graph.edges[i].kind == EdgeKind::joint && network.graph.edges[i].part == part) network.branches[i].law = Law::absent;
}

// What the model cannot give in this set-up; empty when it can.
std::string beyond_of(const Circuit& circuit, const Setup& setup) {
    const Situation now(circuit, setup);
    for (const Part& part : circuit.parts)
        for (const Element& element : part.elements)
            if (element.kind == ElementKind::module_output && element.flashes && now.output_on(element))
                return part.id + " switches " + circuit.pin_name(element.a) + " on and off all the time";
    if (!now.running()) return {};
    bool charging = false, any = false;
    for (const Part& part : circuit.parts)
        for (const Draw& gives : part.gives)
            any |= part.kind == PartKind::battery, charging |= gives.when && gives.when->engine_running;
    return any && !charging ? "the engine runs, and no battery or alternator says its volts `when engine running`" : "";
}

// Whether one of the tips lies on metal that is joined to a node whose volts are unknown. What is joined to the body is known.
bool hangs_on(const Network& network, NodeId unknown, std::initializer_list<NodeId> tips) {
    const Admit joined = [&](const Edge& edge, NodeId, NodeId) {
        const auto index = static_cast<std::size_t>(&edge - network.graph.edges.data());
        return !limits_current(edge) && network.branches[index].law != Law::absent;
    };
    const NodeId start[] = {unknown};
    const Reach metal = reach(network.graph, start, joined);
    return !metal.has(network.graph.body) && std::any_of(tips.begin(), tips.end(), [&](NodeId tip) { return metal.has(tip); });
}

Setting begin(const Circuit& circuit, const Parameters& parameters, const Setup& setup, const Fault* fault,
              const std::vector<PartId>& blown) {
    Setting made;
    made.network = std::make_unique<Network>(build_network(circuit, parameters, setup));
    if (fault) put_in(circuit, *fault, *made.network);
    settle_charging(*made.network, blown);
    made.beyond = beyond_of(circuit, setup);
    return made;
}

void finish(Setting& made, const Instrument& instrument, const std::vector<PartId>& blown) {
    made.bench = std::make_unique<Bench>(*made.network, made.red, made.black, instrument);
    made.term.bench = made.bench.get();
    made.from = made.bench->at_rest();
    for (std::size_t i = 0; i < made.network->fuses.size(); ++i)
        made.from.blown[i] = std::find(blown.begin(), blown.end(), made.network->fuses[i].part) != blown.end();
}

// The ohms of what takes the place of a branch: of the ammeter, or of what the clamp lies round.
ParameterId measure_current(const Circuit& circuit, Setting& made, MeasureKind measure, const PointRef& at) {
    Network& network = *made.network;
    const bool clamp = measure == MeasureKind::clamp;
    const bool holder = !clamp && at.wire == none && at.pin == none && at.part != none && circuit.sits_in_holder(at.part);
    made.term.amps = true;
    if (holder && circuit.parts[at.part].pins.size() >= 2) {
        cut(network, at.part);
        made.red = network.graph.wire_end[circuit.parts[at.part].pins[0]];
        made.black = network.graph.wire_end[circuit.parts[at.part].pins[1]];
        return network.add(range_of(Usual::in_line));
    }
    const int branch = clamped(circuit, network, at);
    if (branch == none || network.branches[branch].law == Law::absent) {
        made.dead = true;
        return none;
    }
    made.red = network.ends[branch].a, made.black = network.ends[branch].b;
    const NetBranch& clasped = network.branches[branch];
    network.branches[branch].law = Law::absent;
    if (!clamp) return network.add(range_of(Usual::in_line));
    if (clasped.plus == none) return clasped.ohms;
    const Parameter &own = network.parameters[clasped.ohms], &plus = network.parameters[clasped.plus]; // with what a fault adds to it
    return network.add({own.low + plus.low, own.value + plus.value, own.high + plus.high});
}

} // namespace

Setting set_up(const Circuit& circuit, const Parameters& parameters, const Setup& setup, const Fault* fault,
               const std::vector<PartId>& blown) {
    Setting made = begin(circuit, parameters, setup, fault, blown);
    made.red = made.black = made.network->graph.body;
    finish(made, {}, blown);
    return made;
}

Setting set_up(const Circuit& circuit, const Parameters& parameters, const Setup& setup, MeasureKind measure, const Row& row,
               const Fault* fault, const std::vector<PartId>& blown, double ohms_volts) {
    Setting made = begin(circuit, parameters, setup, fault, blown);
    Instrument instrument;
    if (is_current(measure)) {
        instrument.ohms = measure_current(circuit, made, measure, row.red);
    } else {
        made.red = made.network->graph.node_of(row.red), made.black = made.network->graph.node_of(row.black);
    }
    if (made.red == none || made.black == none) {
        if (!made.dead) made.beyond = "its points are not metal that a lead can touch";
        made.red = made.black = made.network->graph.body;
    }
    switch (measure) {
    case MeasureKind::ohms:
    case MeasureKind::continuity: instrument = {ohms_test_amps / ohms_volts, -ohms_test_amps}; break;
    case MeasureKind::testlamp: {
        const double volts = made.network->system_volts;
        const Parameter watts = range_of(Usual::test_lamp);
        instrument.lamp_ohms = volts * volts / watts.value;
        instrument.lamp_cold = usual(Usual::filament_cold).value;
        instrument.lamp_volts = volts;
        instrument.ohms = made.network->add({volts * volts / watts.high, volts * volts / watts.value, volts * volts / watts.low});
        break;
    }
    case MeasureKind::amps:
    case MeasureKind::clamp:
        if (instrument.ohms != none) instrument.siemens = 1 / made.network->parameters[instrument.ohms].value;
        break;
    case MeasureKind::volts:
    case MeasureKind::volts_ac:
    case MeasureKind::drop:
    case MeasureKind::look:
    case MeasureKind::read:
    case MeasureKind::nothing: instrument.siemens = 1e-6 / usual(Usual::meter_ohms).value; break;
    }
    for (const NodeId node : made.network->unknown)
        if (hangs_on(*made.network, node, {made.red, made.black}))
            made.beyond =
                "the plan does not say what " + circuit.parts[circuit.pins[made.network->graph.nodes[node].pin].part].id + " gives here";
    finish(made, instrument, blown);
    return made;
}

} // namespace loomsheet
