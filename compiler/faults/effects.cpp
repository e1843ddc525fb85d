#include "faults/effects.hpp"
#include <algorithm>
#include <cmath>
#include <numeric>

namespace loomsheet {
namespace {

constexpr double rounding = 1e-15; // A

bool same(const PointRef& a, const PointRef& b) {
    return a.metal == b.metal && a.part == b.part && a.pin == b.pin && a.wire == b.wire && a.pins == b.pins;
}

// Branches in series: of each the one that stands for all of its chain.
class Chains {
public:
    explicit Chains(const Setting& setting) : one_(setting.network->branches.size()) {
        const Network& network = *setting.network;
        std::iota(one_.begin(), one_.end(), 0);
        struct Meeting {
            int first = none, second = none, count = 0;
        };
        std::vector<Meeting> at(network.nodes());
        for (int i = 0; i < static_cast<int>(one_.size()); ++i) {
            if (network.branches[i].law == Law::absent) continue;
            for (const NodeId node : {network.ends[i].a, network.ends[i].b}) {
                Meeting& here = at[node];
                (here.count++ == 0 ? here.first : here.second) = i;
            }
        }
        for (NodeId node = 0; node < network.nodes(); ++node)
            if (at[node].count == 2 && node != setting.red && node != setting.black) one_[of(at[node].first)] = of(at[node].second);
    }
    int of(int branch) {
        while (one_[branch] != branch)
            branch = one_[branch] = one_[one_[branch]];
        return branch;
    }

private:
    std::vector<int> one_; // union-find
};

bool conducts(const Network& network, int branch, const Stand& stand) {
    const NetBranch& of = network.branches[branch];
    if (of.law == Law::contact) return (stand.in[of.device] != 0) == of.when_in;
    if (of.law == Law::driver && of.listens != none && (stand.high[of.listens] != 0) != of.when_high) return false;
    if (of.law == Law::driver || of.law == Law::supplied) return stand.alive[of.device] != 0;
    return of.law != Law::absent;
}

// Branches that lie in some loop, of which the instrument may be a part: no other carries current, whatever rounding says. Walks
// from node to node; a branch is in no loop when nothing beyond it leads back before it (R. E. Tarjan, 1974).
class Loops {
public:
    Loops(const Setting& setting, const Stand& stand) : at_(setting.network->nodes()), in_loop(setting.network->branches.size(), 0) {
        const Network& network = *setting.network;
        for (int i = 0; i < static_cast<int>(network.branches.size()); ++i)
            if (conducts(network, i, stand)) join(i, network.ends[i].a, network.ends[i].b);
        if (setting.red != setting.black) join(static_cast<int>(network.branches.size()), setting.red, setting.black);
        in_loop.push_back(0); // the instrument
        number_.assign(at_.size(), 0), back_.assign(at_.size(), 0);
        for (NodeId node = 0; node < static_cast<NodeId>(at_.size()); ++node)
            if (number_[node] == 0) walk(node);
    }

private:
    struct Way {
        int branch;
        NodeId to;
    };
    void join(int branch, NodeId a, NodeId b) {
        if (a != b) at_[a].push_back({branch, b}), at_[b].push_back({branch, a});
    }
    struct Step {
        NodeId node;
        int by;
        std::size_t next = 0;
    };
    void walk(NodeId start) {
        std::vector<Step> steps{{start, none, 0}};
        number_[start] = back_[start] = ++count_;
        while (!steps.empty()) {
            Step& here = steps.back();
            if (here.next < at_[here.node].size()) {
                const Way way = at_[here.node][here.next++];
                if (way.branch == here.by) continue;
                if (number_[way.to] != 0) { // been there: a loop closes
                    in_loop[way.branch] = 1;
                    back_[here.node] = std::min(back_[here.node], number_[way.to]);
                } else {
                    number_[way.to] = back_[way.to] = ++count_;
                    steps.push_back({way.to, way.branch, 0});
                }
                continue;
            }
            const Step done = here;
            steps.pop_back();
            if (steps.empty()) continue;
            const NodeId before = steps.back().node;
            if (back_[done.node] <= number_[before]) in_loop[done.by] = 1;
            back_[before] = std::min(back_[before], back_[done.node]);
        }
    }
    std::vector<std::vector<Way>> at_;
    std::vector<int> number_, back_; // by node: when it was met; the first met that its part leads back to
    int count_ = 0;

public:
    std::vector<char> in_loop; // by branch
};

bool has_one_stand(const Setting& setting, const Stands& stands) {
    return !stands.may_chatter && !stands.history && stands.list.size() == 1 && setting.beyond.empty();
}

// Other values than the usual ones, all within their ranges: no bridge is in balance with these too.
std::vector<double> other_values(const Network& network) {
    std::vector<double> values = usual_values(network);
    for (std::size_t i = 0; i < values.size(); ++i) {
        const Parameter& range = network.parameters[i];
        values[i] = range.low + (range.high - range.low) * static_cast<double>(i * 7 % 16) / 15;
    }
    return values;
}

// By branch: whether current flows through it, with usual values or with others. Empty where the sound car has no one stand.
std::vector<char> flows(const Setting& setting, const Stands& stands) {
    if (!has_one_stand(setting, stands)) return {};
    Stand stand = stands.list.front();
    const std::vector<char> in_loop = Loops(setting, stand).in_loop;
    std::vector<char> flowing(in_loop.size());
    for (const std::vector<double>& values : {usual_values(*setting.network), other_values(*setting.network)}) {
        setting.bench->settle(values, stand, true);
        for (std::size_t i = 0; i < setting.network->branches.size(); ++i)
            flowing[i] |= in_loop[i] && std::abs(setting.bench->amps(static_cast<int>(i))) > rounding;
    }
    return flowing;
}

bool is_cut(FaultKind kind) { return row_of(kind).acts == Acts::cuts; }

} // namespace

std::vector<Asked> settings_of(const Setup& setup, MeasureKind measure, const Row& row) {
    std::vector<Setup> setups = one_by_one(setup);
    if (setups.size() > 1) setups.push_back(setup); // as a difference takes it
    std::vector<Asked> list;
    for (const Setup& each : setups)
        for (const double open_volts : ohmmeter_volts(measure))
            list.push_back({placed(each, row), measure, row, open_volts});
    return list;
}

const Effects::List& Effects::of(const Asked& asked) {
    Rig& rig = asked.rig(sound_);
    const auto [at, is_new] = known_.try_emplace(&rig);
    List& list = at->second;
    if (!is_new) return list;
    const Circuit& circuit = sound_.circuit();
    const Setting& setting = rig.setting();
    const Network& network = *setting.network;
    const Stands& stands = rig.stands();
    // A branch whose place an ammeter has taken is not seen here.
    const std::vector<char> flowing = is_current(asked.measure) ? std::vector<char>() : flows(setting, stands);
    Chains chains(setting);
    std::map<std::pair<double, double>, int> bands; // ohms that are added, as numbers from 1; 0 is a cut
    const PointRef* last = nullptr;
    std::vector<int> branches; // that a fault at `last` touches
    for (const Candidate& each : faults_) {
        const Fault& fault = each.fault;
        list.push_back(own_effect);
        if (can_blow(fault.kind)) continue;
        if (!last || !same(*last, fault.at_point)) branches = touched(circuit, fault, network);
        last = &fault.at_point;
        const auto flows_in = [&](int branch) { return flowing[branch] != 0; };
        if (!flowing.empty() && std::none_of(branches.begin(), branches.end(), flows_in)) {
            list.back() = no_effect;
            continue;
        }
        if (branches.size() != 1 || (!is_cut(fault.kind) && fault.kind != FaultKind::added)) continue;
        const Law law = network.branches[branches.front()].law;
        if (law != Law::ohmic && law != Law::contact && law != Law::driver) continue;
        int band = 0;
        if (fault.kind == FaultKind::added)
            band = bands.try_emplace({fault.value->low(), fault.value->high()}, static_cast<int>(bands.size()) + 1).first->second;
        list.back() = 1 + chains.of(branches.front()) + static_cast<int>(network.branches.size()) * band;
    }
    return list;
}

bool lies_idle(const Predictor& blown, const Fault& shorted, const Asked& asked) {
    constexpr double volts = 1e-12;
    Rig& rig = asked.rig(blown);
    const Setting& setting = rig.setting();
    const Stands& stands = rig.stands();
    if (!has_one_stand(setting, stands)) return false;
    const std::optional<Branch> ends = laid(blown.circuit(), shorted, *setting.network);
    if (!ends) return true;
    Bench& bench = *setting.bench;
    Stand stand = stands.list.front();
    for (const std::vector<double>& values : {usual_values(*setting.network), other_values(*setting.network)}) {
        bench.settle(values, stand, true);
        const std::vector<NodeId> island = bench.islands();
        if (island[ends->a] == island[ends->b]) {
            if (std::abs(bench.node_volts(ends->a) - bench.node_volts(ends->b)) > volts) return false;
        } else if (setting.red != setting.black && island[setting.red] != island[setting.black]) {
            return false; // it may join the leads
        }
    }
    return true;
}

} // namespace loomsheet
