// What is seen, heard or felt: states of parts, from the volts that they get.
#include "circuit/reading.hpp"
#include "circuit/rig.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

// Whether a quantity that lies between `low` and `high` is at least `least`, or at most `most`.
Truth at_least(double low, double high, double least) {
    return low >= least ? Truth::yes : high < least ? Truth::no : Truth::maybe;
}
Truth negate(Truth truth) { return truth == Truth::yes ? Truth::no : truth == Truth::no ? Truth::yes : truth; }
Truth both(Truth a, Truth b) {
    if (a == Truth::no || b == Truth::no) return Truth::no;
    if (a == Truth::unknown || b == Truth::unknown) return Truth::unknown;
    return a == Truth::yes ? b : a;
}
Truth one_of(Truth a, Truth b) { return negate(both(negate(a), negate(b))); }

class Onlooker {
public:
    Onlooker(const Circuit& circuit, const Setting& setting, const Stand& stand)
        : circuit_(circuit), net_(*setting.network), setting_(setting), stand_(stand) {}

    Truth see(const State& state) {
        const PartId id = state.of.part;
        if (id == none) return Truth::unknown;
        switch (circuit_.parts[id].kind) {
        case PartKind::relay: return relay(state);
        case PartKind::fuse:
        case PartKind::breaker: return fuse(state);
        case PartKind::module: return module(state);
        default: return load(state);
        }
    }

private:
    Truth relay(const State& state) {
        for (std::size_t i = 0; i < net_.relays.size(); ++i)
            if (net_.relays[i].part == state.of.part) {
                const Truth in = stand_.in[i] ? Truth::yes : Truth::no;
                if (state.verb == StateVerb::chatters) return Truth::no;
                return state.verb == StateVerb::works ? in : negate(in);
            }
        return state.verb == StateVerb::works || state.verb == StateVerb::chatters ? Truth::no : Truth::yes;
    }

    Truth fuse(const State& state) {
        bool blown = false;
        for (std::size_t i = 0; i < net_.fuses.size(); ++i)
            if (net_.fuses[i].part == state.of.part)
                blown |= stand_.blown[i] != 0 || net_.branches[net_.fuses[i].branch].law == Law::absent;
        const bool asked = state.verb == StateVerb::blown || state.verb == StateVerb::fails;
        return blown == asked ? Truth::yes : Truth::no;
    }

    Truth module(const State& state) {
        for (std::size_t i = 0; i < net_.modules.size(); ++i)
            if (net_.modules[i].part == state.of.part) {
                const Truth alive = stand_.alive[i] ? Truth::yes : Truth::no;
                return state.verb == StateVerb::fails ? negate(alive) : alive;
            }
        return Truth::unknown;
    }

    // A load with several pairs is in a state when one of them is; it fails, and is still or dark, when all are.
    Truth load(const State& state) {
        const bool all = state.verb == StateVerb::still || state.verb == StateVerb::dark || state.verb == StateVerb::fails;
        Truth seen = all ? Truth::yes : Truth::no;
        bool any = false;
        for (int i = 0; i < static_cast<int>(net_.graph.edges.size()); ++i) {
            const Edge& edge = net_.graph.edges[i];
            if (edge.kind != EdgeKind::load || edge.part != state.of.part || !is_meant(edge, state.of)) continue;
            any = true;
            seen = all ? both(seen, one(i, state)) : one_of(seen, one(i, state));
        }
        return any ? seen : Truth::unknown;
    }
    bool is_meant(const Edge& edge, const PointRef& of) const {
        return std::all_of(of.pins.begin(), of.pins.end(), [&](PinId pin) {
            return net_.graph.own[pin] == edge.a || net_.graph.own[pin] == edge.b;
        });
    }

    Truth one(int index, const State& state) {
        const NetBranch& branch = net_.branches[index];
        const Part& part = circuit_.parts[state.of.part];
        Term term = setting_.term;
        term.stand = stand_, term.along = {{index, 1}}, term.own = none;
        const Extent extent = branch.law == Law::absent ? Extent{} : extent_of({&term, 1}, 0);
        const auto [small, great] = std::minmax({std::abs(extent.low), std::abs(extent.high)});
        const double low = extent.low <= 0 && extent.high >= 0 ? 0 : small, high = great;
        const double needs = part.needs ? part.needs->si : usual(Usual::load_needs).value * net_.system_volts;
        const bool broken = branch.law == Law::absent; // or its rotor is stuck
        const bool stuck = part.kind == PartKind::motor && branch.law == Law::ohmic;
        const auto never = [&](Truth truth) { return broken || stuck ? Truth::no : truth; };
        const Truth enough = never(at_least(low, high, needs));
        switch (state.verb) {
        case StateVerb::runs:
        case StateVerb::works: return part.kind == PartKind::lamp ? lit(branch, low, high, broken) : enough;
        case StateVerb::lit: return lit(branch, low, high, broken);
        case StateVerb::runs_to: {
            const bool forward = (extent.value > 0) == (pin_is(state.from, net_.graph.edges[index].a));
            return forward ? enough : Truth::no;
        }
        case StateVerb::still: return negate(never(turns(branch, low, high)));
        case StateVerb::slow: return both(never(turns(branch, low, high)), negate(enough));
        case StateVerb::dark: return negate(glows(branch, low, high, broken));
        case StateVerb::dim: return both(glows(branch, low, high, broken), negate(lit(branch, low, high, broken)));
        case StateVerb::fails: return negate(part.kind == PartKind::lamp ? lit(branch, low, high, broken) : enough);
        default: return Truth::unknown;
        }
    }

    bool pin_is(const std::string& name, NodeId node) const {
        const PinId pin = net_.graph.nodes[node].pin;
        return pin != none && circuit_.pins[pin].name == name;
    }
    // A motor turns from the share of its current that its friction takes.
    Truth turns(const NetBranch& branch, double low, double high) const {
        if (branch.law != Law::motor) return at_least(low, high, usual(Usual::lamp_dark).value * branch.volts);
        const double friction = usual(Usual::friction).value;
        const Parameter &run = net_.parameters[branch.ohms], &stall = net_.parameters[branch.second];
        const auto starts = [&](double ohms, double still) {
            return friction * branch.volts / ohms / (1 / still - (1 - friction) / ohms);
        };
        const double first = starts(run.high, stall.low), last = starts(run.low, stall.high);
        return high <= first ? Truth::no : low > last ? Truth::yes : Truth::maybe;
    }
    Truth lit(const NetBranch& branch, double low, double high, bool broken) const {
        return broken ? Truth::no : at_least(low, high, usual(Usual::lamp_lit).value * branch.volts);
    }
    Truth glows(const NetBranch& branch, double low, double high, bool broken) const {
        return broken ? Truth::no : at_least(low, high, usual(Usual::lamp_dark).value * branch.volts);
    }

    const Circuit& circuit_;
    const Network& net_;
    const Setting& setting_;
    const Stand& stand_;
};

} // namespace

Truth Predictor::looks(const Setup& setup, const State& state) const { return looks(setup, States{{state}, false}); }

Truth Predictor::looks(const Setup& setup, const States& states) const {
    if (states.empty()) return Truth::unknown;
    const auto rattles = [](const State& state) { return state.verb == StateVerb::chatters; };
    const bool asks_rattling = std::any_of(states.list.begin(), states.list.end(), rattles);
    Rig& rigged = rig(setup);
    const Setting& setting = rigged.setting();
    if (!setting.beyond.empty()) return Truth::unknown;
    const Stands& stands = rigged.stands();
    if (stands.chatters || (stands.usual_chatters && !fault_)) return asks_rattling ? Truth::yes : Truth::jumps;
    if (stands.history && !fault_) return Truth::unknown;
    std::optional<Truth> seen;
    for (const Stand& stand : stands.list) {
        Onlooker onlooker(circuit_, setting, stand);
        Truth now = states.any ? Truth::no : Truth::yes;
        for (const State& state : states.list)
            now = states.any ? one_of(now, onlooker.see(state)) : both(now, onlooker.see(state));
        if (seen && *seen != now) return Truth::maybe;
        seen = now;
    }
    if (stands.may_chatter && asks_rattling) return Truth::maybe;
    return *seen;
}

} // namespace loomsheet
