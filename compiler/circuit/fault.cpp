#include "circuit/fault.hpp"
#include <algorithm>
#include <fmt/format.h>

namespace loomsheet {
namespace {

// From memory: what a worn motor, and a battery that is down, come to.
constexpr double worn_times = 2, weak_volts = 0.08, weak_times = 8, short_ohms = 0.01;

class PutIn {
public:
    PutIn(const Circuit& circuit, const Fault& fault, Network& network) : circuit_(circuit), fault_(fault), net_(network) {}

    bool run() {
        if (acts() == Acts::lays) return lay();
        if (acts() == Acts::swaps) return swap();
        bool changed = false;
        for (const int branch : touched()) {
            const NetBranch as_it_was = net_.branches[branch];
            change(branch);
            changed |= net_.branches[branch] != as_it_was;
        }
        return changed;
    }

    std::optional<Branch> laid() const {
        const NodeId from = node_of(fault_.at_point);
        NodeId to = none;
        if (fault_.kind == FaultKind::to_ground) to = net_.graph.body;
        if (fault_.kind == FaultKind::to_supply) to = supply();
        if (fault_.kind == FaultKind::touches) to = node_of(fault_.other);
        if (from == none || to == none || from == to) return std::nullopt;
        return Branch{from, to};
    }

    std::vector<int> touched() const {
        const bool closes = acts() == Acts::closes;
        std::vector<int> branches;
        for (int i = 0; i < static_cast<int>(net_.graph.edges.size()); ++i) {
            const bool there = touches(edge(i)) || (holds_armature() && is_contact(edge(i)) && edge(i).part == fault_.at_point.part);
            if (there && (closes || net_.branches[i].law != Law::absent)) branches.push_back(i);
        }
        return branches;
    }

private:
    Acts acts() const { return row_of(fault_.kind).acts; }
    const Edge& edge(int branch) const { return net_.graph.edges[branch]; }

    static bool is_contact(const Edge& edge) { return edge.kind == EdgeKind::contact; }
    // A contact of a relay that is welded holds the armature, and with it all other contacts.
    bool holds_armature() const {
        return fault_.kind == FaultKind::stuck_closed && circuit_.parts[fault_.at_point.part].kind == PartKind::relay;
    }
    // Where a welded contact holds the armature: pulled in by a make contact, at rest by a break contact. The others make there what
    // they make when the coil does it. Common practice, no source: some forcibly guided relays part the others a little.
    bool made_by_armature(int contact) const {
        for (int i = 0; i < static_cast<int>(net_.graph.edges.size()); ++i)
            if (is_contact(edge(i)) && touches(edge(i)) && net_.branches[i].when_in == net_.branches[contact].when_in) return true;
        return false;
    }

    bool touches(const Edge& edge) const {
        const PointRef& at = fault_.at_point;
        if (at.wire != none) return edge.wire == at.wire;
        if (!at.pins.empty()) return edge.part == at.part && between(edge, at.pins);
        if (at.pin == none) return edge.part == at.part && of_part(edge);
        if (at.metal != Metal::wire_end) return joint_of(edge, at.pin);
        const std::vector<WireId> wires = circuit_.wires_at(at.pin); // its crimp
        if (wires.empty()) return joint_of(edge, at.pin) || (edge.kind == EdgeKind::bolt && edge.pin == at.pin);
        return std::find(wires.begin(), wires.end(), edge.wire) != wires.end();
    }
    bool joint_of(const Edge& edge, PinId pin) const {
        return edge.kind == EdgeKind::joint && (edge.pin == pin || edge.pin == circuit_.mate(pin));
    }
    bool between(const Edge& edge, const std::vector<PinId>& pins) const {
        if (edge.element == none) return false;
        const auto is = [&](NodeId node) {
            return std::any_of(pins.begin(), pins.end(), [&](PinId pin) { return net_.graph.own[pin] == node; });
        };
        const Element& element = circuit_.parts[edge.part].elements[edge.element];
        const bool one_pin = element.b == none; // outputs, inputs: named by their pin
        return one_pin ? is(edge.a) || is(edge.b) : is(edge.a) && is(edge.b);
    }
    // What a fault of a whole part means: its ground point, its fuse link, all that is in it; a plug has its joints.
    bool of_part(const Edge& edge) const {
        const PartKind kind = circuit_.parts[edge.part].kind;
        if (kind == PartKind::ground) return edge.kind == EdgeKind::bolt;
        if (kind == PartKind::connector) return edge.kind == EdgeKind::joint;
        return edge.kind != EdgeKind::joint && edge.kind != EdgeKind::bolt && edge.kind != EdgeKind::wire;
    }

    NodeId node_of(const PointRef& point) const {
        if (point.wire != none) return net_.graph.wire_end[circuit_.wires[point.wire].from];
        if (point.pin != none) return point.metal == Metal::part ? net_.graph.own[point.pin] : net_.graph.wire_end[point.pin];
        if (point.part != none && !circuit_.parts[point.part].pins.empty())
            return net_.graph.wire_end[circuit_.parts[point.part].pins.front()];
        return net_.graph.body;
    }
    NodeId supply() const {
        for (std::size_t i = 0; i < net_.branches.size(); ++i)
            if (edge(static_cast<int>(i)).kind == EdgeKind::source) return edge(static_cast<int>(i)).a;
        return none;
    }
    bool lay() {
        const std::optional<Branch> ends = laid();
        if (!ends) return false;
        const double ohms = fault_.value ? fault_.value->si : short_ohms;
        NetBranch branch;
        branch.law = Law::ohmic, branch.ohms = fixed(ohms);
        net_.add(ends->a, ends->b, branch);
        return true;
    }
    bool swap() {
        int one = none, other = none;
        for (int i = 0; i < static_cast<int>(net_.graph.edges.size()); ++i) {
            if (edge(i).kind != EdgeKind::wire) continue;
            if (edge(i).wire == fault_.at_point.wire) one = i;
            if (edge(i).wire == fault_.other.wire) other = i;
        }
        if (one == none || other == none || one == other) return false;
        std::swap(net_.ends[one].b, net_.ends[other].b);
        return true;
    }

    bool closed_there(const Edge& contact) const {
        const TableValue* position = circuit_.parts[contact.part].find_position(fault_.position);
        const Element& element = circuit_.parts[contact.part].elements[contact.element];
        return position &&
               std::find(position->closed.begin(), position->closed.end(), std::pair(element.a, element.b)) != position->closed.end();
    }

    ParameterId fixed(double value) { return net_.add({value, value, value}); }
    ParameterId with(ParameterId of, double times, double plus) {
        const Parameter& p = net_.parameters[of];
        return net_.add({p.low * times + plus, p.value * times + plus, p.high * times + plus});
    }

    void change(int index) {
        NetBranch& branch = net_.branches[index];
        const double value = fault_.value ? fault_.value->si : 0;
        switch (fault_.kind) {
        case FaultKind::open:
        case FaultKind::blown:
        case FaultKind::stuck_open: branch.law = Law::absent; return;
        case FaultKind::added:
            net_.parameters[net_.added] = {fault_.value->low(), value, fault_.value->high()};
            branch.plus = net_.added;
            return;
        case FaultKind::stuck_closed:
            if (holds_armature() && is_contact(edge(index)))
                branch.law = made_by_armature(index) ? Law::ohmic : Law::absent;
            else if (is_contact(edge(index)) || edge(index).kind == EdgeKind::driver)
                branch.law = Law::ohmic;
            return;
        case FaultKind::at_position:
            if (edge(index).kind == EdgeKind::contact) branch.law = closed_there(edge(index)) ? Law::ohmic : Law::absent;
            return;
        case FaultKind::reads: branch.law = Law::ohmic, branch.share = none, branch.ohms = fixed(value); return;
        case FaultKind::is: branch.ohms = fixed(branch.volts * branch.volts / value); return;
        case FaultKind::draws: return draws(index, value);
        case FaultKind::seized:
            if (branch.law == Law::motor) branch.law = Law::ohmic, branch.ohms = branch.second;
            return;
        case FaultKind::worn: branch.ohms = with(branch.ohms, worn_times, 0); return;
        case FaultKind::weak:
            if (branch.law != Law::source) return;
            branch.ohms = with(branch.ohms, weak_times, 0);
            branch.second = with(branch.second, 1 - weak_volts, 0);
            return;
        case FaultKind::to_ground:
        case FaultKind::to_supply:
        case FaultKind::touches:
        case FaultKind::swapped: return; // laid and swapped by `run`
        }
    }

    // A module through its supply pins, shared by them; its drivers and inputs are as they were.
    void draws(int index, double amps) {
        const Part& part = circuit_.parts[edge(index).part];
        const bool module = part.kind == PartKind::module;
        if (module && edge(index).kind != EdgeKind::supply) return;
        const double ohms = net_.system_volts / amps;
        net_.branches[index].ohms = fixed(module ? ohms * static_cast<double>(part.supply_pins.size()) : ohms);
    }

    const Circuit& circuit_;
    const Fault& fault_;
    Network& net_;
};

} // namespace

bool put_in(const Circuit& circuit, const Fault& fault, Network& network) { return PutIn(circuit, fault, network).run(); }

std::vector<int> touched(const Circuit& circuit, const Fault& fault, const Network& network) {
    const Acts acts = row_of(fault.kind).acts;
    if (acts == Acts::lays || acts == Acts::swaps) return {};
    return PutIn(circuit, fault, const_cast<Network&>(network)).touched(); // which only looks
}

std::optional<Branch> laid(const Circuit& circuit, const Fault& fault, const Network& network) {
    return PutIn(circuit, fault, const_cast<Network&>(network)).laid(); // which only looks
}

std::string fault_words(const Circuit& circuit, const Fault& fault) {
    return fmt::format("{} {}", written_point(circuit, fault.at_point), fault.words);
}

} // namespace loomsheet
