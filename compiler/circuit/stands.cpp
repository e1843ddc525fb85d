#include "circuit/stands.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

using Values = std::vector<double>;

// A relay lets go at so many times the volts at which it pulls in, at most: one with less play between them would hum. From memory.
constexpr double lets_go_by = 0.7;
constexpr double goes_first_by =
    fuse_blows_at / fuse_holds_to; // of two fuses that carry alike, shares of their ratings, either may go first

// What stands in one of two ways, and what decides it.
struct Device {
    PartId part;
    std::vector<char> Stand::*group;
    std::size_t index;
    double on, off;                        // V: from `on` it surely stands, up to `off` it surely does not
    bool either_way;                       // the sign of its volts does not count
    double plays;                          // once on, it stays on down to so many times the volts that put it on, at least
    std::vector<std::vector<Along>> feeds; // the one with the most volts counts
    void (Bench::*weigh)(std::size_t, double);
    PinId input = none; // of a module, where that is the device

    bool is_on(const Stand& stand) const { return (stand.*group)[index] != 0; }
    Stand flipped(Stand stand) const {
        char& on_there = (stand.*group)[index];
        on_there = !on_there;
        return stand;
    }
    double volts(const Bench& bench) const {
        double most = 0;
        for (const std::vector<Along>& feed : feeds)
            most = std::max(most, either_way ? std::abs(bench.sum(feed)) : bench.sum(feed));
        return most;
    }
};

std::vector<Device> devices_of(const Network& network) {
    std::vector<Device> list;
    for (std::size_t i = 0; i < network.relays.size(); ++i) {
        const Relay& of = network.relays[i];
        const double plays = of.coils.size() > 1 ? of.drops_out / of.pulls_in : lets_go_by; // one of several coils holds it alone
        list.push_back({of.part, &Stand::in, i, of.pulls_in, of.drops_out, true, plays, {pull_of(network, of)}, &Bench::weigh_relay});
    }
    for (std::size_t i = 0; i < network.modules.size(); ++i) {
        const Module& of = network.modules[i];
        list.push_back({of.part, &Stand::alive, i, of.needs, of.needs, false, 1, {}, &Bench::weigh_module});
        for (const int supply : of.supplies)
            if (network.branches[supply].law != Law::absent) list.back().feeds.push_back({{supply, 1}});
    }
    for (std::size_t i = 0; i < network.listeners.size(); ++i) {
        const Listener& of = network.listeners[i];
        list.push_back({of.part, &Stand::high, i, of.high, of.low, false, 1, {}, &Bench::weigh_listener, of.pin});
        if (network.branches[of.branch].law != Law::absent) list.back().feeds.push_back({{of.branch, 1}});
    }
    return list;
}

struct Range {
    double low, high;
};
Term term_of(Bench& bench, const Stand& stand, std::vector<Along> along, double sign = 1) {
    Term term;
    term.bench = &bench, term.stand = stand, term.sign = sign;
    term.along = std::move(along);
    return term;
}
Range ends_in(Bench& bench, const Stand& stand, std::vector<Along> along) {
    Term term = term_of(bench, stand, std::move(along));
    const Extent extent = extent_of({&term, 1}, 0);
    return {extent.low, extent.high};
}
double highest_in(Bench& bench, const Stand& stand, std::vector<Along> along, double sign = 1) {
    Term term = term_of(bench, stand, std::move(along), sign);
    return highest_of({&term, 1}, 0);
}
Range size_of(const Range& range) { // its sign aside
    if (range.low <= 0 && range.high >= 0) return {0, std::max(-range.low, range.high)};
    const auto [low, high] = std::minmax({std::abs(range.low), std::abs(range.high)});
    return {low, high};
}

InDoubt told(const Device& device, double low, double high) { return {device.part, low, high, device.on, device.off, device.input}; }

// What does not stay as this stand has it, with usual values.
std::vector<InDoubt> restless_in(Bench& bench, const std::vector<Device>& devices, Stand stand) {
    bench.settle(bench.usual(), stand, true);
    std::vector<InDoubt> list;
    for (const Device& device : devices) {
        const double volts = device.volts(bench);
        if (device.is_on(stand) ? volts <= device.off : volts >= device.on) list.push_back(told(device, volts, volts));
    }
    return list;
}

// What is on in one stand and off in the other: its volts in the one are `low`, in the other `high`.
std::vector<InDoubt> differing(Bench& bench, const std::vector<Device>& devices, Stand one, Stand other) {
    std::vector<InDoubt> list;
    bench.settle(bench.usual(), one, true);
    for (const Device& device : devices)
        if (device.is_on(one) != device.is_on(other)) list.push_back(told(device, device.volts(bench), 0));
    bench.settle(bench.usual(), other, true);
    std::size_t next = 0;
    for (const Device& device : devices)
        if (device.is_on(one) != device.is_on(other)) list[next++].high = device.volts(bench);
    return list;
}

// The usual car, then those at the ends of what a fault adds, and in the middle where that spans decades.
std::vector<Values> cars_of(const Bench& bench) {
    std::vector<Values> cars{bench.usual()};
    const ParameterId added = bench.network().added;
    if (added == none) return cars;
    const Parameter& band = bench.network().parameters[added];
    const std::span<const ParameterId> used = bench.in_use();
    if (band.low == band.high || !std::binary_search(used.begin(), used.end(), added)) return cars;
    constexpr double wide = 4;
    std::vector<double> tried{band.low, band.high};
    if (band.high > wide * band.low) tried.push_back(std::sqrt(band.low * band.high));
    for (const double ohms : tried) {
        cars.push_back(cars.front());
        cars.back()[added] = ohms;
    }
    return cars;
}

class Exploring {
public:
    explicit Exploring(Bench& bench) : bench_(bench), devices_(devices_of(bench.network())), cars_(cars_of(bench)) {
        bench.watch();
        if (cars_.size() < 2) return;
        const Parameter& band = bench.network().parameters[bench.network().added];
        most_times_ *= band.value / band.low;
    }

    Stands run(std::span<const Stand> from, const Stand& before) {
        constexpr std::size_t most = 64;
        for (const Stand& each : from)
            begin(each, before, &each == &from.front());
        while (!open_.empty() && seen_.size() <= most) {
            const Stand stand = open_.front();
            open_.erase(open_.begin());
            look_at(stand);
        }
        const auto is_listed = [&](const Stand& stand) { return is_in(made_.list, stand); };
        made_.may_chatter |= !std::all_of(left_for_.begin(), left_for_.end(), is_listed) || swings();
        if (made_.may_chatter) find_falling();
        if (made_.list.empty() && !made_.usual_chatters) made_.list.push_back(first_);
        made_.chatters = made_.list.empty();
        const auto is_sure = [&](const InDoubt& each) {
            return std::all_of(devices_.begin(), devices_.end(), [&](const Device& device) {
                const auto as_first = [&](const Stand& stand) { return device.is_on(stand) == device.is_on(made_.list.front()); };
                return device.part != each.part || device.input != each.input ||
                       std::all_of(made_.list.begin(), made_.list.end(), as_first);
            });
        };
        std::erase_if(made_.in_doubt, is_sure);
        made_.slack = bench_.slack();
        return std::move(made_);
    }

private:
    static bool is_in(const std::vector<Stand>& list, const Stand& stand) {
        return std::find(list.begin(), list.end(), stand) != list.end();
    }
    void add(const Stand& stand) {
        if (!is_in(seen_, stand)) seen_.push_back(stand), open_.push_back(stand);
    }

    void begin(const Stand& from, Stand before, bool first) {
        before.blown = from.blown;
        for (const Values& car : cars_) {
            const bool usual = first && &car == &cars_.front();
            Stand rest = from, busy = before;
            const bool rests = travel(car, rest);
            if (usual) {
                first_ = rest, made_.usual_chatters = !rests;
                if (!rests) made_.moves = restless_in(bench_, devices_, rest);
            }
            if (!usual && rests && rest == first_ && !made_.history) continue; // as the usual car, from whatever was before
            if (!travel(car, busy) && !rests) continue;
            if (rests && busy == rest) continue;
            made_.history = true;
            if (usual && rests) made_.moves = differing(bench_, devices_, rest, busy);
        }
    }

    // One car from a stand to that in which it rests; false where it chatters.
    bool travel(const Values& car, Stand& stand) {
        const bool rests = bench_.settle(car, stand) == Settling::settled;
        const std::vector<Bench::Passed> way = bench_.way();
        add(stand);
        if (!rests) made_.may_chatter = true, rattling_.push_back(stand);
        bool goes_round = !rests;
        for (auto each = way.rbegin(); each != way.rend(); ++each) {
            goes_round &= !each->blew;
            if (goes_round) rattling_.push_back(each->stand), add(each->stand);
            if (each->close || (each->blew ? each->load < widest * fuse_blows_at : each->load > fuse_passes_to / widest))
                add(each->stand);
            else if (each->blew) {
                Stand as_it_is = each->stand;
                bench_.settle(bench_.usual(), as_it_is, true);
                weigh_fuses(each->stand, loads_there(), fuse_holds_to);
            }
        }
        return rests;
    }

    void look_at(const Stand& stand) {
        bool holds = true;
        std::vector<Stand> leaves; // where a car goes from a stand that holds for others
        Stand as_it_is = stand;
        bench_.settle(bench_.usual(), as_it_is, true);
        Weighed& weighed = weighed_.emplace_back(Weighed{stand, {}, {}});
        struct Feed {
            std::vector<Along> along;
            double volts;
        };
        std::vector<std::vector<Feed>> driven; // by device: what something drives in some car
        for (const Device& device : devices_) {
            weighed.usual.push_back(device.volts(bench_));
            driven.emplace_back();
            for (const std::vector<Along>& feed : device.feeds)
                driven.back().push_back({feed, bench_.sum(feed)});
        }
        const std::vector<double> loads = loads_there();
        const auto is_idle = [&](const Feed& feed) { return std::abs(feed.volts) <= 1e-12 && !moves(stand, feed.along); };
        for (std::vector<Feed>& feeds : driven)
            std::erase_if(feeds, is_idle);
        for (std::size_t i = 0; i < devices_.size(); ++i) {
            const Device& device = devices_[i];
            Range volts{0, 0};
            for (const Feed& feed : driven[i]) {
                const Range counts = range_of(device, stand, feed.along, feed.volts);
                volts = {std::max(volts.low, counts.low), std::max(volts.high, counts.high)};
            }
            weighed.volts.push_back(volts);
            (bench_.*device.weigh)(device.index, volts.low), (bench_.*device.weigh)(device.index, volts.high);
            const bool on = device.is_on(stand);
            if (on ? volts.high <= device.off : volts.low >= device.on) holds = false;
            if (on ? volts.low >= device.on : volts.high <= device.off) continue;
            add(device.flipped(stand));
            if (on ? volts.low <= device.off : volts.high >= device.on) leaves.push_back(device.flipped(stand));
            const auto is_it = [&](const InDoubt& each) { return each.part == device.part && each.input == device.input; };
            if (std::none_of(made_.in_doubt.begin(), made_.in_doubt.end(), is_it))
                made_.in_doubt.push_back(told(device, volts.low, volts.high));
        }
        made_.wears |= std::any_of(loads.begin(), loads.end(), [](double load) { return load > fuse_wears_at; });
        holds &= weigh_fuses(stand, loads, holds || is_in(rattling_, stand) ? fuse_holds_to : fuse_passes_to);
        if (!holds) return;
        made_.list.push_back(stand);
        left_for_.insert(left_for_.end(), leaves.begin(), leaves.end());
    }

    bool moves(Stand stand, const std::vector<Along>& feed) {
        return std::any_of(cars_.begin() + 1, cars_.end(), [&](const Values& car) {
            bench_.settle(car, stand, true);
            return std::abs(bench_.sum(feed)) > 1e-12;
        });
    }
    // As far as it decides: where the usual volts are enough or too little, the other end of the range may stand at them.
    Range range_of(const Device& device, const Stand& stand, const std::vector<Along>& feed, double volts) {
        const double sign = device.either_way && volts < 0 ? -1 : 1, counts = volts * sign;
        if (counts >= device.on) {
            const double low = -highest_in(bench_, stand, feed, -sign);
            if (low >= device.on) return {low, counts};
        } else if (counts <= device.off) {
            const double high = highest_in(bench_, stand, feed, sign),
                         low = device.either_way ? -highest_in(bench_, stand, feed, -sign) : 0;
            if (high <= device.off && low >= -device.off) return {0, std::max(high, -low)};
        }
        const Range range = ends_in(bench_, stand, feed);
        return device.either_way ? size_of(range) : range;
    }

    // Blows each that may blow there first, alone and with others. False where one surely does.
    bool weigh_fuses(const Stand& stand, const std::vector<double>& loads, double holds_to) { // loads: the usual ones there
        constexpr std::size_t few = 3;
        if (std::none_of(loads.begin(), loads.end(), [&](double load) { return load * most_times_ > holds_to; })) return true;
        bool holds = true;
        std::vector<std::size_t> may;
        const std::vector<FuseLink>& fuses = bench_.network().fuses;
        for (const std::size_t i : bench_.strained(stand, holds_to)) {
            Range load{loads[i] / widest, loads[i] * widest};
            if (load.low < holds_to || load.low < fuse_blows_at) {
                load = size_of(ends_in(bench_, stand, {{fuses[i].branch, 1 / fuses[i].rating, Share::amps}}));
                bench_.weigh_fuse(i, load.low), bench_.weigh_fuse(i, load.high);
            }
            if (load.low > fuse_blows_at) holds = false;
            if (load.high > holds_to) may.push_back(i);
        }
        std::vector<std::size_t> first;
        std::copy_if(may.begin(), may.end(), std::back_inserter(first), [&](std::size_t one) {
            return std::all_of(may.begin(), may.end(), [&](std::size_t other) {
                return one == other || (loads[one] * goes_first_by * widest > loads[other] && may_go_before(stand, one, other));
            });
        });
        first.resize(std::min(first.size(), few));
        for (unsigned set = 1; set < 1u << first.size(); ++set) {
            Stand blown = stand;
            for (std::size_t i = 0; i < first.size(); ++i)
                if (set >> i & 1) blown.blown[first[i]] = 1;
            if (is_in(blown_, blown)) continue;
            blown_.push_back(blown);
            travel(bench_.usual(), blown);
        }
        return holds;
    }
    std::vector<double> loads_there() const { // where the bench was settled last
        std::vector<double> loads;
        for (std::size_t i = 0; i < bench_.network().fuses.size(); ++i)
            loads.push_back(bench_.load(i));
        return loads;
    }
    bool may_go_before(const Stand& stand, std::size_t one, std::size_t other) {
        const std::vector<FuseLink>& fuses = bench_.network().fuses;
        Stand as_it_is = stand;
        bench_.settle(bench_.usual(), as_it_is, true);
        const auto by = [&](std::size_t fuse, double times) {
            const int branch = fuses[fuse].branch;
            return Along{branch, std::copysign(times / fuses[fuse].rating, times * bench_.amps(branch)), Share::amps};
        };
        const std::vector<Along> ahead{by(one, goes_first_by), by(other, -1)};
        return highest_in(bench_, stand, ahead) >= 0;
    }

    // Whether something that is off in one stand and on in the other may find neither to its liking: off it gets enough, on too little.
    bool swings() const {
        for (const Weighed& off : weighed_)
            for (std::size_t i = 0; i < devices_.size(); ++i) {
                const Device& device = devices_[i];
                if (device.is_on(off.stand) || off.volts[i].high * device.plays < device.off) continue;
                const Stand flipped = device.flipped(off.stand);
                const auto on = std::find_if(weighed_.begin(), weighed_.end(), [&](const Weighed& each) { return each.stand == flipped; });
                if (on == weighed_.end() || on->volts[i].low > device.on * device.plays) continue;
                if (on->usual[i] < off.usual[i] * device.plays || loses_by_it(device, off.stand, flipped)) return true;
            }
        return false;
    }
    bool loses_by_it(const Device& device, Stand off, Stand on) const {
        return std::any_of(cars_.begin(), cars_.end(), [&](const Values& car) {
            bench_.settle(car, off, true);
            const double enough = device.volts(bench_) * device.plays;
            bench_.settle(car, on, true);
            return device.volts(bench_) < enough;
        });
    }

    void find_falling() {
        for (const Weighed& weighed : weighed_)
            for (std::size_t i = 0; i < devices_.size(); ++i) {
                const Device& device = devices_[i];
                const double falls_at = std::max(device.off, device.on * device.plays);
                if (!device.is_on(weighed.stand) || weighed.volts[i].low > falls_at) continue;
                Falling falling{device.part, weighed.stand, {}, falls_at, device.plays, {}};
                if (device.feeds.size() == 1) falling.feed = device.feeds.front();
                bool unsure = weighed.volts[i].high > device.off;
                for (const Weighed& off : weighed_) {
                    if (device.is_on(off.stand) || off.volts[i].high < falls_at) continue;
                    falling.rises.push_back(off.stand);
                    unsure |= off.volts[i].low < device.on;
                }
                if (unsure) made_.falling.push_back(std::move(falling));
            }
    }

    struct Weighed {
        Stand stand;
        std::vector<Range> volts; // by device
        std::vector<double> usual;
    };
    Bench& bench_;
    std::vector<Device> devices_;
    std::vector<Values> cars_;
    double most_times_ = widest; // no current is more than so many times what it usually is
    Stands made_;
    Stand first_; // where the usual car ends
    std::vector<Weighed> weighed_;
    std::vector<Stand> open_, seen_, left_for_, rattling_, blown_; // left_for: where cars go from a stand that holds for others
};

} // namespace

Stands stands_of(Bench& bench, std::span<const Stand> from, const Stand& before) { return Exploring(bench).run(from, before); }

std::vector<Stand> reached(Bench& bench, const Stand& stand) {
    std::vector<Stand> list;
    for (const Values& car : cars_of(bench)) {
        list.push_back(stand);
        if (bench.settle(car, list.back()) == Settling::settled) continue;
        for (const Bench::Passed& each : bench.way())
            list.push_back(each.stand);
    }
    return list;
}

} // namespace loomsheet
