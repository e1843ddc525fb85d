#include "circuit/network.hpp"
#include "circuit/situation.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

double ohms_together(const Relay& relay) {
    double siemens = 0;
    for (const double ohms : relay.usual_ohms)
        siemens += 1 / ohms;
    return 1 / siemens;
}

class NetworkBuilder {
public:
    NetworkBuilder(const Circuit& circuit, const Parameters& parameters, const Setup& setup)
        : circuit_(circuit), known_(parameters), setup_(setup), now_(circuit, setup) {}

    Network build() {
        net_.graph = build_graph(circuit_, setup_);
        net_.parameters = known_.list;
        net_.system_volts = known_.system_volts;
        net_.added = known_.added;
        for (const Edge& edge : net_.graph.edges) {
            net_.ends.push_back({edge.a, edge.b});
            net_.branches.push_back({});
            branch_ = static_cast<int>(net_.branches.size()) - 1;
            lay(edge);
        }
        for (Listener& listener : net_.listeners)
            listen(listener);
        for (Relay& relay : net_.relays)
            if (!relay.usual_ohms.empty())
                relay.drops_out *= ohms_together(relay) / *std::max_element(relay.usual_ohms.begin(), relay.usual_ohms.end());
        for (Charged& battery : net_.charged)
            battery.by = alternators_;
        if (alternators_.empty()) net_.charged.clear(); // its volts hold as they are written
        return std::move(net_);
    }

private:
    NetBranch& here() { return net_.branches[branch_]; }
    const Element& element(const Edge& edge) const { return circuit_.parts[edge.part].elements[edge.element]; }
    Parameters::OfElement of_element(const Edge& edge) const { return known_.element[edge.part][edge.element]; }
    void ohmic(ParameterId ohms) { here().law = Law::ohmic, here().ohms = ohms; }

    void lay(const Edge& edge) {
        here().part = edge.part;
        switch (edge.kind) {
        case EdgeKind::wire: return ohmic(known_.wire[edge.wire]);
        case EdgeKind::joint: return ohmic(known_.joint[edge.pin]);
        case EdgeKind::bolt: return ohmic(known_.bolt[edge.pin]);
        case EdgeKind::rail: return ohmic(known_.rail[edge.part]);
        case EdgeKind::link:
            ohmic(known_.link[edge.part]);
            if (circuit_.parts[edge.part].rating) net_.fuses.push_back({edge.part, branch_, circuit_.parts[edge.part].rating->si});
            return;
        case EdgeKind::bridge: return ohmic(net_.add(range_of(Usual::jumper, 1e-3)));
        case EdgeKind::filament: return test_load(edge);
        case EdgeKind::contact: return contact(edge);
        case EdgeKind::driver: driver(edge); return;
        case EdgeKind::diode:
        case EdgeKind::damper: return diode(edge);
        case EdgeKind::coil: return coil(edge);
        case EdgeKind::load: return load(edge);
        case EdgeKind::resistor: return ohmic(of_element(edge).ohms);
        case EdgeKind::sensor: return sensor(edge);
        case EdgeKind::supply: return supply(edge);
        case EdgeKind::pull_up: return pull_up(edge);
        case EdgeKind::input: return ohmic(of_element(edge).ohms);
        case EdgeKind::source: return source(edge);
        }
    }

    void contact(const Edge& edge) {
        const Part& part = circuit_.parts[edge.part];
        ohmic(of_element(edge).ohms);
        if (part.kind != PartKind::relay) {
            if (!edge.closed) here().law = Law::absent;
            return;
        }
        here().law = Law::contact;
        here().device = relay_of(edge.part);
        here().when_in = edge.b == net_.graph.own[element(edge).b];
    }

    void coil(const Edge& edge) {
        ohmic(of_element(edge).ohms);
        Relay& relay = net_.relays[relay_of(edge.part)];
        relay.coils.push_back(branch_);
        relay.usual_ohms.push_back(net_.parameters[here().ohms].value);
    }
    int relay_of(PartId part) {
        for (std::size_t i = 0; i < net_.relays.size(); ++i)
            if (net_.relays[i].part == part) return static_cast<int>(i);
        const Part& of = circuit_.parts[part];
        const double size = known_.system_volts / 12;
        net_.relays.push_back({part,
                               {},
                               {},
                               of.pulls_in ? of.pulls_in->si : usual(Usual::pulls_in).value * size,
                               of.drops_out ? of.drops_out->si : usual(Usual::drops_out).value * size});
        return static_cast<int>(net_.relays.size()) - 1;
    }
    int module_of(PartId part) {
        for (std::size_t i = 0; i < net_.modules.size(); ++i)
            if (net_.modules[i].part == part) return static_cast<int>(i);
        const Part& of = circuit_.parts[part];
        net_.modules.push_back({part, {}, of.needs ? of.needs->si : usual(Usual::module_needs).value * known_.system_volts / 12});
        return static_cast<int>(net_.modules.size()) - 1;
    }

    // One that follows a switch is called by its input, where the switch moves one; else by the hand on the switch, or by the set-up.
    void driver(const Edge& edge) {
        ohmic(of_element(edge).ohms);
        here().law = Law::driver;
        here().device = module_of(edge.part);
        const Heard& heard = known_.heard[edge.part][edge.element];
        if (heard.input != none)
            here().listens = listener_of(edge.part, heard.input), here().when_high = heard.by_high;
        else if (!edge.closed)
            here().law = Law::absent;
    }
    int listener_of(PartId part, PinId pin) {
        for (std::size_t i = 0; i < net_.listeners.size(); ++i)
            if (net_.listeners[i].pin == pin) return static_cast<int>(i);
        net_.listeners.push_back({part, pin});
        return static_cast<int>(net_.listeners.size()) - 1;
    }
    // Shares of the volts that hold its pin up, else of the system's.
    void listen(Listener& listener) const {
        double volts = known_.system_volts;
        for (int i = 0; i < static_cast<int>(net_.graph.edges.size()); ++i) {
            const Edge& edge = net_.graph.edges[i];
            const bool pulled_up = edge.kind == EdgeKind::pull_up && net_.branches[i].law == Law::supplied;
            if (edge.part != listener.part || (edge.kind != EdgeKind::input && !pulled_up) || element(edge).a != listener.pin) continue;
            listener.branch = i;
            if (pulled_up) volts = net_.parameters[net_.branches[i].second].value;
        }
        listener.high = usual(Usual::reads_high).value * volts, listener.low = usual(Usual::reads_low).value * volts;
    }

    void diode(const Edge& edge) {
        here().law = Law::diode;
        here().ohms = of_element(edge).ohms, here().second = of_element(edge).second;
        if (edge.kind == EdgeKind::damper) std::swap(net_.ends[branch_].a, net_.ends[branch_].b); // plus side first: it blocks
    }

    void load(const Edge& edge) {
        ohmic(of_element(edge).ohms);
        const Part& part = circuit_.parts[edge.part];
        here().volts = element(edge).holds_at ? element(edge).holds_at->si : known_.system_volts;
        here().second = of_element(edge).second;
        if (part.kind == PartKind::lamp) here().law = Law::filament;
        if (part.kind == PartKind::motor) here().law = Law::motor;
    }

    // `load 21 W`: a filament; `load 150 A`: a resistor that takes as much at the system's volts.
    void test_load(const Edge& edge) {
        const SetupItem& item = setup_.items[edge.item];
        if (!item.value) return;
        const Quantity& size = *item.value;
        const double volts = known_.system_volts;
        const bool watts = size.unit->dimension == Dimension::watt;
        const Parameter range = written(size, watts ? Usual::filament_power : Usual::load_current);
        const double top = watts ? volts * volts : volts;
        ohmic(net_.add({top / range.high, top / range.value, top / range.low}));
        if (!watts) return;
        here().law = Law::filament;
        here().volts = volts;
        here().second = net_.add(range_of(Usual::filament_cold));
    }

    void sensor(const Edge& edge) {
        const Element& element = this->element(edge);
        switch (element.kind) {
        case ElementKind::ntc: return ntc(edge);
        case ElementKind::pot: return track(edge);
        case ElementKind::hall:
            net_.unknown.push_back(net_.graph.own[element.b]);
            if (edge.a == net_.graph.own[element.a] && element.a != none) ohmic(known_.hall[edge.part]);
            return;
        case ElementKind::source:
        case ElementKind::link:
        case ElementKind::coil:
        case ElementKind::contact:
        case ElementKind::load:
        case ElementKind::resistor:
        case ElementKind::diode:
        case ElementKind::module_output:
        case ElementKind::module_gives:
        case ElementKind::pull_up:
        case ElementKind::input:
        case ElementKind::between: return ohmic(of_element(edge).ohms); // a coil that senses is one
        }
    }

    void ntc(const Edge& edge) {
        const SetupItem* held = now_.held_at(edge.part);
        Parameter degrees = range_of(now_.running() ? Usual::engine_temperature : Usual::workshop_temperature);
        if (held && held->kind == ItemKind::at_value && held->value) degrees = {held->value->si, held->value->si, held->value->si};
        const auto hot = ntc_ohms(element(edge), degrees.high), as_is = ntc_ohms(element(edge), degrees.value),
                   cold = ntc_ohms(element(edge), degrees.low);
        if (!hot || !as_is || !cold) {
            for (const NodeId node : {edge.a, edge.b})
                net_.unknown.push_back(node);
            return;
        }
        ohmic(net_.add({hot->low, as_is->value, cold->high}));
    }

    void track(const Edge& edge) {
        const Element& element = this->element(edge);
        const auto row = [&](std::string_view position) -> const TableValue* {
            for (const TableValue& each : element.table)
                if (each.position == position) return &each;
            return nullptr;
        };
        const SetupItem* held = now_.held_at(edge.part);
        const TableValue* at = element.table.empty() ? nullptr : &element.table.front();
        if (held) at = row(held->kind == ItemKind::pressed ? "pressed" : held->kind == ItemKind::moved ? held->word2 : held->word);
        if (!at || !at->value) {
            net_.unknown.push_back(net_.graph.own[element.b]);
            return;
        }
        const bool upper = edge.a == net_.graph.own[element.a];
        if (wiper_part_ != edge.part || wiper_element_ != edge.element) { // both halves share one wiper
            const UsualRow& play = usual(Usual::wiper);
            const double here = at->value->si;
            wiper_ = net_.add({std::max(here + play.low / 100, 0.001), here, std::min(here + play.high / 100, 0.999)});
            wiper_part_ = edge.part, wiper_element_ = edge.element;
        }
        ohmic(of_element(edge).ohms);
        here().share = wiper_;
        here().share_turned = upper; // percent count from the minus end
    }

    void supply(const Edge& edge) {
        const Part& part = circuit_.parts[edge.part];
        std::size_t row = part.draws.size() + (now_.asleep() ? 1 : 0);
        for (std::size_t i = 0; i < part.draws.size(); ++i) // the last that holds; one without a condition holds always
            if (part.draws[i].when ? now_.holds(*part.draws[i].when) : row >= part.draws.size()) row = i;
        ohmic(known_.draw[edge.part][row]);
        net_.modules[module_of(edge.part)].supplies.push_back(branch_);
    }

    // One for a pin, though a module may have several supply pins: from its ground.
    void pull_up(const Edge& edge) {
        const Part& part = circuit_.parts[edge.part];
        const std::vector<PinId> grounds = ground_pins(part);
        if (grounds.empty() || edge.a != net_.graph.own[part.supply_pins.front()]) return;
        net_.ends[branch_].a = edge.b, net_.ends[branch_].b = net_.graph.own[grounds.front()];
        here().law = Law::supplied;
        here().ohms = of_element(edge).ohms, here().second = of_element(edge).second;
        here().device = module_of(edge.part);
    }

    void source(const Edge& edge) {
        const std::vector<Draw>& gives = circuit_.parts[edge.part].gives;
        ParameterId volts = none, at_rest = none;
        bool conditional = false;
        for (std::size_t i = 0; i < gives.size(); ++i) {
            if (!gives[i].when) at_rest = known_.emf[edge.part][i];
            if (gives[i].when ? !now_.holds(*gives[i].when) : conditional) continue;
            volts = known_.emf[edge.part][i];
            conditional = gives[i].when.has_value();
        }
        if (volts == none) return;
        if (at_rest == none) // gives nothing but while the engine runs
            alternators_.push_back(branch_);
        else if (volts != at_rest && now_.running())
            net_.charged.push_back({branch_, at_rest, {}});
        here().law = Law::source;
        here().ohms = known_.inner[edge.part], here().second = volts;
    }

    const Circuit& circuit_;
    const Parameters& known_;
    const Setup& setup_;
    Situation now_;
    Network net_;
    int branch_ = none;
    ParameterId wiper_ = none;
    PartId wiper_part_ = none;
    int wiper_element_ = none;
    std::vector<int> alternators_; // branches
};

} // namespace

ParameterId Network::add(Parameter parameter) {
    parameters.push_back(parameter);
    return static_cast<ParameterId>(parameters.size()) - 1;
}

int Network::add(NodeId a, NodeId b, NetBranch branch) {
    ends.push_back({a, b});
    branches.push_back(branch);
    return static_cast<int>(branches.size()) - 1;
}

std::vector<double> usual_values(const Network& network) {
    std::vector<double> values;
    for (const Parameter& each : network.parameters)
        values.push_back(each.value);
    return values;
}

std::vector<Along> pull_of(const Network& network, const Relay& relay) {
    std::vector<Along> along;
    for (std::size_t i = 0; i < relay.coils.size(); ++i) {
        const NetBranch& branch = network.branches[relay.coils[i]];
        if (branch.law == Law::absent) continue;
        const double copper = std::min(1.0, relay.usual_ohms[i] / network.parameters[branch.ohms].value); // of what it reads
        along.push_back(
            {relay.coils[i], copper * ohms_together(relay) / relay.usual_ohms[i], branch.plus == none ? Share::volts : Share::own_volts});
    }
    return along;
}

Network build_network(const Circuit& circuit, const Parameters& parameters, const Setup& setup) {
    return NetworkBuilder(circuit, parameters, setup).build();
}

} // namespace loomsheet
