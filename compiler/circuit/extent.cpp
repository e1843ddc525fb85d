#include "circuit/extent.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

using Values = std::vector<double>;

class Corners {
public:
    Corners(std::span<Term> terms, std::size_t shared) : terms_(terms), shared_(shared) {
        for (const Term& term : terms)
            slopes_.emplace_back(term.bench->network().parameters.size());
    }

    Extent find() {
        Extent found;
        std::vector<Values> middle;
        for (const Term& term : terms_)
            middle.push_back(usual_values(term.bench->network()));
        found.value = evaluate(middle);
        const std::vector<Values> at_middle = slopes_;
        found.low = extreme(-1, found.value);
        slopes_ = at_middle;
        found.high = extreme(1, found.value);
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

    // Walks to the corner that the slopes point at, and on while they point elsewhere there.
    double extreme(int way, double best) {
        std::vector<Values> last;
        for (int turn = 0; turn < 6; ++turn) {
            std::vector<Values> corner;
            for (std::size_t i = 0; i < terms_.size(); ++i) {
                const std::vector<Parameter>& all = terms_[i].bench->network().parameters;
                Values values(all.size());
                for (std::size_t p = 0; p < all.size(); ++p) {
                    const double up = slopes_[i][p] * way;
                    values[p] = up > 0 ? all[p].high : up < 0 ? all[p].low : last.empty() ? all[p].value : last[i][p];
                }
                corner.push_back(std::move(values));
            }
            if (corner == last) break;
            const double here = evaluate(corner);
            best = way > 0 ? std::max(best, here) : std::min(best, here);
            last = std::move(corner);
        }
        return best;
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
    Stand as_it_is = stand;
    bench.settle(usual_values(bench.network()), as_it_is, true);
    if (std::abs(bench.volts(along)) < 1e-12) return {0, 0}; // nothing drives it
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
        stands.chatters = true, stands.in_doubt = restless_in(bench, rest);
        return stands;
    }
    Stand busy = bench.all_on();
    busy.blown = from.blown;
    if (bench.settle(values, busy) == Settling::chatters || busy != rest) {
        stands.history = true, stands.in_doubt = differing(bench, rest, busy);
        return stands;
    }

    std::vector<Stand> open{rest}, seen{rest};
    while (!open.empty() && seen.size() <= most) {
        const Stand stand = open.front();
        open.erase(open.begin());
        bool holds = true;
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
            const auto told = [&](const InDoubt& each) { return each.part == part; };
            if (std::none_of(stands.in_doubt.begin(), stands.in_doubt.end(), told))
                stands.in_doubt.push_back({part, size.low, size.high, threshold.on, threshold.off});
        };
        for (std::size_t i = 0; i < network.relays.size(); ++i) {
            const Size pull = size_of(bench, stand, pull_of(network, network.relays[i]));
            weigh(network.relays[i].part, pull, {network.relays[i].pulls_in, network.relays[i].drops_out}, &Stand::in, i);
        }
        for (std::size_t i = 0; i < network.modules.size(); ++i) {
            Size most_volts{0, 0};
            for (const int supply : network.modules[i].supplies) {
                const Size size = size_of(bench, stand, {{supply, 1}});
                most_volts = {std::max(most_volts.low, size.low), std::max(most_volts.high, size.high)};
            }
            weigh(network.modules[i].part, most_volts, {network.modules[i].needs, network.modules[i].needs}, &Stand::alive, i);
        }
        if (holds) stands.list.push_back(stand);
    }
    if (stands.list.empty()) stands.list.push_back(rest);
    return stands;
}

} // namespace loomsheet
