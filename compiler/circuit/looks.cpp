// What is seen, heard or felt: states of parts, from the volts that they get.
#include "circuit/laws.hpp"
#include "circuit/reading.hpp"
#include "circuit/rig.hpp"
#include <algorithm>
#include <cmath>
#include <utility>

namespace loomsheet {
namespace {

// One way in which a load may be found: what it does, and whether its current flows from its first pin on.
struct Found {
    Doing doing = Doing::nothing;
    bool forward = true;
};

// A load between two pins, with all the ways in which cars may have it.
struct SeenLoad {
    int branch = 0;
    std::vector<Found> may;
    std::size_t now = 0; // the one at hand
};

class Onlooker {
public:
    Onlooker(const Circuit& circuit, const Setting& setting, const Stand& stand)
        : circuit_(circuit), net_(*setting.network), setting_(setting), stand_(stand) {}

    // Adds each combination once.
    void see(std::span<const State> states, Sights& sights) {
        for (const State& state : states)
            add_loads(state);
        do {
            std::uint64_t holds = 0;
            for (std::size_t i = 0; i < states.size(); ++i) {
                const Truth truth = see(states[i]);
                if (truth == Truth::unknown) sights.unknown |= std::uint64_t{1} << i;
                if (truth == Truth::yes) holds |= std::uint64_t{1} << i;
            }
            if (std::find(sights.seen.begin(), sights.seen.end(), holds) == sights.seen.end()) sights.seen.push_back(holds);
        } while (next());
    }

private:
    static Truth truth(bool holds) { return holds ? Truth::yes : Truth::no; }
    static Truth stands(const State& state, bool on) { return truth(shows(state.verb, on ? Doing::well : Doing::nothing)); }

    Truth see(const State& state) const {
        const PartId id = state.of.part;
        if (id == none) return Truth::unknown;
        switch (row_of(circuit_.parts[id].kind).watched) {
        case Watched::armature: return relay(state);
        case Watched::link: return fuse(state);
        case Watched::unit: return module(state);
        case Watched::load: break;
        }
        return load(state);
    }

    Truth relay(const State& state) const {
        for (std::size_t i = 0; i < net_.relays.size(); ++i)
            if (net_.relays[i].part == state.of.part) return stands(state, stand_.in[i] != 0 && !is_held_at_rest(state.of.part));
        return stands(state, false);
    }
    // A break contact that is welded keeps the armature from pulling in.
    bool is_held_at_rest(PartId relay) const {
        for (std::size_t i = 0; i < net_.graph.edges.size(); ++i) {
            const Edge& edge = net_.graph.edges[i];
            if (edge.kind == EdgeKind::contact && edge.part == relay && net_.branches[i].law == Law::ohmic && !net_.branches[i].when_in)
                return true;
        }
        return false;
    }

    Truth fuse(const State& state) const {
        bool blown = false;
        for (std::size_t i = 0; i < net_.fuses.size(); ++i)
            if (net_.fuses[i].part == state.of.part)
                blown |= stand_.blown[i] != 0 || net_.branches[net_.fuses[i].branch].law == Law::absent;
        return stands(state, !blown);
    }

    Truth module(const State& state) const {
        for (std::size_t i = 0; i < net_.modules.size(); ++i)
            if (net_.modules[i].part == state.of.part) return stands(state, stand_.alive[i] != 0);
        return Truth::unknown;
    }

    // A load with several pairs is in a state when one of them is; it fails, and is still or dark, when all are.
    Truth load(const State& state) const {
        const bool all = state.verb == StateVerb::still || state.verb == StateVerb::dark || state.verb == StateVerb::fails;
        bool seen = all, any = false;
        for (const SeenLoad& each : loads_) {
            if (!is_meant(net_.graph.edges[each.branch], state.of)) continue;
            any = true;
            const Found& found = each.may[each.now];
            const bool turned = state.verb == StateVerb::runs_to && found.forward != pin_is(state.from, net_.graph.edges[each.branch].a);
            const bool holds = !turned && shows(state.verb, found.doing);
            seen = all ? seen && holds : seen || holds;
        }
        return any ? truth(seen) : Truth::unknown;
    }
    bool is_meant(const Edge& edge, const PointRef& of) const {
        return edge.kind == EdgeKind::load && edge.part == of.part && std::all_of(of.pins.begin(), of.pins.end(), [&](PinId pin) {
                   return net_.graph.own[pin] == edge.a || net_.graph.own[pin] == edge.b;
               });
    }
    bool pin_is(const std::string& name, NodeId node) const {
        const PinId pin = net_.graph.nodes[node].pin;
        return pin != none && circuit_.pins[pin].name == name;
    }

    void add_loads(const State& state) {
        for (int i = 0; i < static_cast<int>(net_.graph.edges.size()); ++i) {
            const auto known = [&](const SeenLoad& each) { return each.branch == i; };
            if (is_meant(net_.graph.edges[i], state.of) && std::none_of(loads_.begin(), loads_.end(), known))
                loads_.push_back({i, ways_of(i), 0});
        }
    }
    // The next combination of what the loads may show; false after the last.
    bool next() {
        for (SeenLoad& each : loads_) {
            if (++each.now < each.may.size()) return true;
            each.now = 0;
        }
        return false;
    }

    std::vector<Found> ways_of(int index) const {
        const NetBranch& branch = net_.branches[index];
        const bool stuck = circuit_.parts[branch.part].kind == PartKind::motor && branch.law == Law::ohmic; // its rotor
        if (branch.law == Law::absent || stuck) return {{}};
        Term term = setting_.term;
        term.stand = stand_, term.along = {{index, 1}};
        const Extent extent = extent_of({&term, 1}, 0);
        std::vector<Found> ways;
        if (extent.high > 0 || extent.low >= 0) add_ways(ways, branch, std::max(extent.low, 0.0), extent.high, true);
        if (extent.low < 0) add_ways(ways, branch, std::max(-extent.high, 0.0), -extent.low, false);
        return ways;
    }

    // What volts between low and high make it do.
    void add_ways(std::vector<Found>& ways, const NetBranch& branch, double low, double high, bool forward) const {
        const Part& part = circuit_.parts[branch.part];
        const double enough = part.kind == PartKind::lamp ? usual(Usual::lamp_lit).value * branch.volts
                              : part.needs                ? part.needs->si
                                                          : usual(Usual::load_needs).value * net_.system_volts;
        const Parameter begins = begins_at(branch);
        if (high >= enough) ways.push_back({Doing::well, forward});
        if (high > begins.low && low < enough && begins.low < enough) ways.push_back({Doing::poorly, forward});
        if (low <= begins.high && low < enough) ways.push_back({Doing::nothing, forward});
    }
    // V at which a motor turns, from the share of its current that its friction takes, and at which a lamp begins to glow.
    Parameter begins_at(const NetBranch& branch) const {
        if (branch.law != Law::motor) {
            const double still_dark = std::nextafter(usual(Usual::lamp_dark).value * branch.volts, 0);
            return {still_dark, still_dark, still_dark};
        }
        const Parameter &run = net_.parameters[branch.ohms], &stall = net_.parameters[branch.second];
        const auto turns_from = [&](double ohms, double still) { return Motor{ohms, still, branch.volts}.turns_from(); };
        return {turns_from(run.high, stall.low), turns_from(run.value, stall.value), turns_from(run.low, stall.high)};
    }

    const Circuit& circuit_;
    const Network& net_;
    const Setting& setting_;
    const Stand& stand_;
    std::vector<SeenLoad> loads_;
};

} // namespace

Sights Predictor::see(const Setup& setup, std::span<const State> states) const {
    Sights sights;
    Rig& rigged = rig(setup);
    const Setting& setting = rigged.setting();
    const Stands& stands = rigged.stands();
    sights.computed = setting.beyond.empty() && (!stands.history || fault_);
    const bool never_rests = stands.chatters || (stands.usual_chatters && !fault_);
    sights.may_jump = never_rests || stands.may_chatter;
    if (!sights.computed || never_rests) return sights;
    for (const Stand& stand : stands.list)
        Onlooker(circuit_, setting, stand).see(states, sights);
    return sights;
}

std::optional<Extent> Predictor::load_volts(const Setup& setup, PartId load) const {
    std::optional<Extent> all;
    Rig& rigged = rig(setup);
    const Network& network = *rigged.setting().network;
    for (std::size_t i = 0; i < network.graph.edges.size(); ++i) {
        if (network.graph.edges[i].kind != EdgeKind::load || network.graph.edges[i].part != load || network.branches[i].law == Law::absent)
            continue;
        for (const Stand& stand : rigged.stands().list) {
            Term term = rigged.setting().term;
            term.stand = stand, term.along = {{static_cast<int>(i), 1}};
            Extent here = extent_of({&term, 1}, 0);
            if (here.high + here.low < 0) here.low = -std::exchange(here.high, -here.low);
            if (!all) all = here;
            all->low = std::min(all->low, here.low), all->high = std::max(all->high, here.high);
        }
    }
    return all;
}

Truth Predictor::looks(const Setup& setup, const State& state) const { return looks(setup, States{{state}, false}); }

Truth Predictor::looks(const Setup& setup, const States& states) const {
    if (states.empty()) return Truth::unknown;
    const Sights sights = see(setup, states.list);
    if (!sights.computed) return Truth::unknown;
    const auto rattles = [](const State& state) { return state.verb == StateVerb::chatters; };
    const bool asks_rattling = std::any_of(states.list.begin(), states.list.end(), rattles);
    if (sights.seen.empty()) return asks_rattling ? Truth::yes : Truth::jumps;
    std::optional<Truth> all;
    for (const std::uint64_t seen : sights.seen) {
        const Truth now = holds(states, 0, {seen, sights.unknown});
        if (all && *all != now) return Truth::maybe;
        all = now;
    }
    if (sights.may_jump && asks_rattling) return Truth::maybe;
    return *all;
}

Truth holds(const States& states, std::size_t first, const Sight& sight) {
    const std::uint64_t which = (states.list.size() >= 64 ? ~std::uint64_t{0} : (std::uint64_t{1} << states.list.size()) - 1) << first;
    const std::uint64_t yes = sight.holds & which, unknown = sight.unknown & which, no = which & ~yes & ~unknown;
    if (states.any ? yes != 0 : no == 0 && unknown == 0) return Truth::yes;
    return unknown != 0 && (states.any || no == 0) ? Truth::unknown : Truth::no;
}

std::string Predictor::not_computed(const Setup& setup, const States& states) const {
    if (states.empty()) return {};
    Rig& rigged = rig(setup);
    if (!rigged.setting().beyond.empty()) return rigged.setting().beyond;
    if (!rigged.stands().chatters && rigged.stands().history && !fault_) return "it hangs on what was on before";
    for (const State& state : states.list)
        if (state.of.part != none && looks(setup, state) == Truth::unknown)
            return circuit_.part_name(state.of.part) + " has no state that is computed";
    return {};
}

} // namespace loomsheet
