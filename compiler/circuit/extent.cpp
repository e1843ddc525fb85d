#include "circuit/extent.hpp"
#include <algorithm>
#include <cmath>
#include <utility>

namespace loomsheet {
namespace {

using Values = std::vector<double>;

class Corners {
public:
    Corners(std::span<Term> terms, std::size_t shared) : terms_(terms), shared_(shared) {
        for (const Term& term : terms) {
            const Network& network = term.bench->network();
            slopes_.emplace_back(network.parameters.size());
            forked_.emplace_back(network.parameters.size());
            std::vector<char> once(network.parameters.size());
            for (const NetBranch& branch : network.branches)
                for (const ParameterId each : {branch.ohms, branch.share})
                    if (each != none && branch.law != Law::absent && std::exchange(once[each], 1))
                        forked_.back()[each] = 1;
        }
    }

    Extent find() {
        Extent found;
        std::vector<Values> middle;
        for (const Term& term : terms_)
            middle.push_back(usual_values(term.bench->network()));
        found.value = evaluate(middle);
        const std::vector<Values> at_middle = slopes_;
        std::vector<Values> lowest = middle, highest = middle;
        found.low = std::min(found.value, extreme(-1, lowest));
        slopes_ = at_middle;
        found.high = std::max(found.value, extreme(1, highest));
        // There may be lesser tops: once more, each from the other end.
        std::swap(lowest, highest);
        found.low = std::min(found.low, extreme(-1, lowest));
        evaluate(highest);
        found.high = std::max(found.high, extreme(1, highest));
        slopes_ = at_middle;
        spread(found);
        found.settled = settled_;
        return found;
    }

private:
    // The sum of the terms at these values; the slopes there beside it.
    double evaluate(const std::vector<Values>& values) {
        double sum = 0;
        for (std::size_t i = 0; i < terms_.size(); ++i) {
            sum += terms_[i].sign * one(terms_[i], values[i], slopes_[i]);
            for (double& slope : slopes_[i])
                slope *= terms_[i].sign;
        }
        for (std::size_t p = 0; terms_.size() > 1 && p < shared_; ++p) { // one thing on all benches
            double all = 0;
            for (const Values& slopes : slopes_)
                all += slopes[p];
            for (Values& slopes : slopes_)
                slopes[p] = all;
        }
        return sum;
    }

    double one(Term& term, const Values& values, Values& slopes) {
        Bench& bench = *term.bench;
        if (term.own != none && term.amps) bench.instrument().siemens = 1 / values[term.own];
        if (term.own != none && !term.amps) bench.instrument().lamp_ohms = values[term.own];
        settled_ &= bench.settle(values, term.stand, true) == Settling::settled;
        if (!term.along.empty()) {
            bench.slopes_of(term.along, values, slopes);
            return bench.volts(term.along);
        }
        bench.slopes_of_port(values, slopes);
        if (term.own == none) return bench.port_volts();
        if (!term.amps) {
            slopes[term.own] += 1; // a lamp of more ohms has more volts
            return bench.port_volts();
        }
        const double siemens = bench.instrument().siemens, through = bench.instrument_amps();
        for (double& slope : slopes)
            slope *= siemens;
        const double seen = bench.port().g;
        slopes[term.own] += -through * seen * siemens / (seen + siemens);
        return through;
    }

    // Where the slope sends a parameter from where it stands.
    double sent(std::size_t term, std::size_t p, int way, double from) const {
        const Parameter& range = terms_[term].bench->network().parameters[p];
        const double up = slopes_[term][p] * way;
        return up > 0 ? range.high : up < 0 ? range.low : from;
    }

    // Walks to the corner that the slopes point at, and on while they point elsewhere there and that leads further.
    double extreme(int way, std::vector<Values>& at) {
        constexpr int turns = 6;
        double top = 0; // at the corner `at`
        for (int turn = 0; turn < turns; ++turn) {
            std::vector<Values> corner = at;
            for (std::size_t i = 0; i < corner.size(); ++i)
                for (std::size_t p = 0; p < corner[i].size(); ++p)
                    corner[i][p] = sent(i, p, way, at[i][p]);
            if (turn > 0 && corner == at) break;
            const double here = evaluate(corner);
            if (turn > 0 && here * way <= top * way) break;
            at = std::move(corner), top = here;
        }
        return climb(way, at);
    }

    // Those that point elsewhere pull against each other, as the arms of a bridge do: one at a time, the strongest
    // first. Last those that lie in several branches, for which a slope says little.
    double climb(int way, std::vector<Values>& at) {
        constexpr int tries = 64;
        double top = evaluate(at);
        std::vector<Values> slopes = slopes_;
        std::vector<std::pair<std::size_t, std::size_t>> vain;
        for (int turn = 0; turn < tries; ++turn) {
            double most = -1, to = 0;
            std::size_t term = 0, which = 0;
            for (std::size_t i = 0; i < at.size(); ++i)
                for (std::size_t p = i == 0 ? 0 : shared_; p < at[i].size(); ++p) {
                    const double there = sent(i, p, way, at[i][p]), gain = slopes_[i][p] * way * (there - at[i][p]);
                    const bool turns = gain > 0 || (forked_[i][p] && slopes_[i][p] != 0);
                    if (!turns || gain <= most || std::find(vain.begin(), vain.end(), std::pair(i, p)) != vain.end())
                        continue;
                    const Parameter& range = terms_[i].bench->network().parameters[p];
                    most = gain, term = i, which = p;
                    to = gain > 0 ? there : at[i][p] == range.low ? range.high : range.low;
                }
            if (most < 0) break;
            std::vector<Values> corner = at;
            for (std::size_t i = 0; i < at.size(); ++i)
                if (i == term || which < shared_) corner[i][which] = to;
            const double here = evaluate(corner);
            if (here * way > top * way) {
                at = std::move(corner), top = here, slopes = slopes_;
                vain.clear();
            } else {
                slopes_ = slopes;
                vain.emplace_back(term, which);
            }
        }
        return top;
    }

    void spread(Extent& found) const {
        double down = 0, up = 0;
        const auto square = [](double x) { return x * x; };
        for (std::size_t i = 0; i < terms_.size(); ++i) {
            const std::vector<Parameter>& all = terms_[i].bench->network().parameters;
            for (std::size_t p = i == 0 ? 0 : shared_; p < all.size(); ++p) {
                const double to_low = slopes_[i][p] * (all[p].low - all[p].value);
                const double to_high = slopes_[i][p] * (all[p].high - all[p].value);
                down += square(std::min({to_low, to_high, 0.0}));
                up += square(std::max({to_low, to_high, 0.0}));
            }
        }
        found.likely_low = std::max(found.low, found.value - std::sqrt(down));
        found.likely_high = std::min(found.high, found.value + std::sqrt(up));
    }

    std::span<Term> terms_;
    std::size_t shared_;
    std::vector<Values> slopes_;
    std::vector<std::vector<char>> forked_; // by term and parameter: lies in several branches
    bool settled_ = true;
};

// Whether what hangs on these volts may stand otherwise than it does: its threshold lies in their range.
struct Threshold {
    double on, off; // from `on` it surely stands, up to `off` it surely does not
};
struct Doubt {
    bool must_be_on = false, must_be_off = false, may_be_on = false, may_be_off = false;
};
Doubt doubt_of(double low, double high, const Threshold& threshold) {
    return {low >= threshold.on, high <= threshold.off, high > threshold.off, low < threshold.on};
}

// The range of the size of these volts, their sign aside.
struct Size {
    double low, high;
};
Size size_of(Bench& bench, const Stand& stand, std::vector<Along> along) {
    Term term;
    term.bench = &bench, term.stand = stand;
    term.along = std::move(along);
    const Extent extent = extent_of({&term, 1}, 0);
    if (extent.low <= 0 && extent.high >= 0) return {0, std::max(-extent.low, extent.high)};
    const auto [low, high] = std::minmax({std::abs(extent.low), std::abs(extent.high)});
    return {low, high};
}

// Every relay and module with the volts that it gets in this stand, and whether it is on there.
struct Device {
    InDoubt device;
    bool on;
};
std::vector<Device> devices_in(Bench& bench, Stand stand) {
    const Network& network = bench.network();
    bench.settle(usual_values(network), stand, true);
    std::vector<Device> list;
    for (std::size_t i = 0; i < network.relays.size(); ++i) {
        const Relay& relay = network.relays[i];
        const double pull = std::abs(bench.volts(pull_of(network, relay)));
        list.push_back({{relay.part, pull, pull, relay.pulls_in, relay.drops_out}, stand.in[i] != 0});
    }
    for (std::size_t i = 0; i < network.modules.size(); ++i) {
        const Module& module = network.modules[i];
        double feed = 0;
        for (const int supply : module.supplies)
            feed = std::max(feed, bench.volts(supply));
        list.push_back({{module.part, feed, feed, module.needs, module.needs}, stand.alive[i] != 0});
    }
    return list;
}

// What does not stay as this stand has it.
std::vector<InDoubt> restless_in(Bench& bench, const Stand& stand) {
    std::vector<InDoubt> list;
    for (const auto& [device, on] : devices_in(bench, stand))
        if (on ? device.low <= device.off : device.low >= device.on) list.push_back(device);
    return list;
}

// What is on in one stand and off in the other: its volts in the one are `low`, in the other `high`.
std::vector<InDoubt> differing(Bench& bench, const Stand& one, const Stand& other) {
    const std::vector<Device> here = devices_in(bench, one), there = devices_in(bench, other);
    std::vector<InDoubt> list;
    for (std::size_t i = 0; i < here.size(); ++i) {
        if (here[i].on == there[i].on) continue;
        list.push_back(here[i].device);
        list.back().high = there[i].device.low;
    }
    return list;
}

} // namespace

Extent extent_of(std::span<Term> terms, std::size_t shared) { return Corners(terms, shared).find(); }

Stands stands_of(Bench& bench, const Stand& from) {
    constexpr std::size_t most = 16;
    Stands stands;
    const Values values = usual_values(bench.network());
    const Network& network = bench.network();
    Stand rest = from;
    if (bench.settle(values, rest) == Settling::chatters) {
        stands.chatters = true, stands.moves = restless_in(bench, rest);
        return stands;
    }
    Stand busy = bench.all_on();
    busy.blown = from.blown;
    const bool busy_rests = bench.settle(values, busy) == Settling::settled;
    stands.history = !busy_rests || busy != rest;
    if (stands.history) stands.moves = differing(bench, rest, busy);

    std::vector<Stand> open{rest}, seen{rest}, left_for; // left_for: where a car goes from a stand that holds for others
    if (busy_rests && busy != rest) open.push_back(busy), seen.push_back(busy);
    while (!open.empty() && seen.size() <= most) {
        const Stand stand = open.front();
        open.erase(open.begin());
        bool holds = true;
        std::vector<Stand> leaves;
        Stand as_it_is = stand;
        bench.settle(values, as_it_is, true);
        const auto driven = [&](const std::vector<Along>& along) { return std::abs(bench.volts(along)) > 1e-12; };
        std::vector<std::vector<Along>> pulls, supplies; // those that something drives
        for (const Relay& relay : network.relays) {
            std::vector<Along> pull = pull_of(network, relay);
            pulls.push_back(driven(pull) ? std::move(pull) : std::vector<Along>());
        }
        for (const Module& module : network.modules) {
            supplies.emplace_back();
            for (const int supply : module.supplies)
                if (driven({{supply, 1}})) supplies.back().push_back({supply, 1});
        }
        const auto may_flip = [&](std::vector<char> Stand::*group, std::size_t index) {
            Stand other = stand;
            char& flips = (other.*group)[index];
            flips = !flips;
            if (std::find(seen.begin(), seen.end(), other) == seen.end()) seen.push_back(other), open.push_back(other);
        };
        const auto weigh = [&](PartId part, const Size& size, const Threshold& threshold, std::vector<char> Stand::*group,
                               std::size_t index) {
            const Doubt doubt = doubt_of(size.low, size.high, threshold);
            const bool on = (stand.*group)[index] != 0;
            if (on ? doubt.must_be_off : doubt.must_be_on) holds = false;
            if (!(on ? doubt.may_be_off : doubt.may_be_on)) return;
            may_flip(group, index);
            if (on ? size.low <= threshold.off : size.high >= threshold.on) {
                leaves.push_back(stand);
                (leaves.back().*group)[index] = !on;
            }
            const auto told = [&](const InDoubt& each) { return each.part == part; };
            if (std::none_of(stands.in_doubt.begin(), stands.in_doubt.end(), told))
                stands.in_doubt.push_back({part, size.low, size.high, threshold.on, threshold.off});
        };
        for (std::size_t i = 0; i < network.relays.size(); ++i) {
            const Size pull = pulls[i].empty() ? Size{0, 0} : size_of(bench, stand, pulls[i]);
            weigh(network.relays[i].part, pull, {network.relays[i].pulls_in, network.relays[i].drops_out}, &Stand::in, i);
        }
        for (std::size_t i = 0; i < network.modules.size(); ++i) {
            Size most_volts{0, 0};
            for (const Along& supply : supplies[i]) {
                const Size size = size_of(bench, stand, {supply});
                most_volts = {std::max(most_volts.low, size.low), std::max(most_volts.high, size.high)};
            }
            weigh(network.modules[i].part, most_volts, {network.modules[i].needs, network.modules[i].needs}, &Stand::alive, i);
        }
        if (!holds) continue;
        stands.list.push_back(stand);
        left_for.insert(left_for.end(), leaves.begin(), leaves.end());
    }
    for (const Stand& stand : left_for)
        if (std::find(stands.list.begin(), stands.list.end(), stand) == stands.list.end()) stands.may_chatter = true;
    if (stands.list.empty()) stands.list.push_back(rest);
    return stands;
}

} // namespace loomsheet
