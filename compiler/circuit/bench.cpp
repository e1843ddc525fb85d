#include "circuit/bench.hpp"
#include "circuit/laws.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

constexpr double least_ohms = 1e-6; // what cannot be less: a shorted fault

bool is_bent(Law law) { return law == Law::diode || law == Law::filament || law == Law::motor; }

} // namespace

Bench::Bench(const Network& network, NodeId red, NodeId black, const Instrument& instrument)
    : network_(&network), pattern_(network.nodes(), network.ends, red, black), elimination_(pattern_), instrument_(instrument),
      volts_(network.nodes()), answer_(network.nodes()) {
    renew();
}

Bench::Bench(const Bench& like, const Network& network)
    : network_(&network), pattern_(like.pattern_, network.ends), elimination_(pattern_), instrument_(like.instrument_),
      volts_(network.nodes()), answer_(network.nodes()) {
    renew();
}

void Bench::renew() {
    linear_branches_.clear(), bent_branches_.clear(), pulls_.clear(), in_use_.clear();
    usual_ = usual_values(*network_);
    std::vector<char> used(usual_.size(), 0); // by parameter
    std::vector<int> count(usual_.size(), 0); // linear branches that hang on it
    forked_.assign(usual_.size(), 0);
    for (int i = 0; i < static_cast<int>(network_->branches.size()); ++i) {
        const NetBranch& of = network_->branches[i];
        if (of.law == Law::absent) {
            elimination_.set(i, {});
            continue;
        }
        const bool bent = is_bent(of.law);
        (bent ? bent_branches_ : linear_branches_).push_back(i);
        for (const ParameterId each : {of.ohms, of.second, of.share, of.plus}) {
            if (each == none) continue;
            if ((each == of.ohms || each == of.share) && (used[each] & 2) != 0) forked_[each] = 1;
            used[each] |= each == of.ohms || each == of.share ? 3 : 1;
            count[each] += bent ? 0 : 1;
        }
    }
    if (instrument_.ohms != none) used[instrument_.ohms] |= 1;
    hang_from_.assign(1, 0);
    std::vector<int> next(usual_.size(), 0); // by parameter: its next place in `hanging_`
    for (ParameterId id = 0; id < static_cast<ParameterId>(usual_.size()); ++id) {
        if (used[id] == 0) continue;
        in_use_.push_back(id);
        next[id] = hang_from_.back();
        hang_from_.push_back(next[id] + count[id]);
    }
    hanging_.resize(hang_from_.back());
    for (const int i : linear_branches_) {
        const NetBranch& of = network_->branches[i];
        for (const ParameterId each : {of.ohms, of.second, of.share, of.plus})
            if (each != none) hanging_[next[each]++] = i;
    }
    none_laid_ = true;
    touched_at_.assign(bent_branches_.size(), 0);
    knees_.assign(bent_branches_.size(), {});
    fuse_of_.assign(network_->branches.size(), none);
    for (std::size_t i = 0; i < network_->fuses.size(); ++i)
        fuse_of_[network_->fuses[i].branch] = static_cast<int>(i);
    for (const Relay& relay : network_->relays)
        pulls_.push_back(pull_of(*network_, relay));
    const auto most_ohms = [&](int branch) {
        const NetBranch& of = network_->branches[branch];
        if (of.law == Law::absent) return 0.0;
        return network_->parameters[of.ohms].high + (of.plus == none ? 0 : network_->parameters[of.plus].high);
    };
    pull_ohms_.assign(network_->relays.size(), 0), supply_ohms_.assign(network_->modules.size(), 0);
    input_ohms_.clear();
    for (const Listener& listener : network_->listeners)
        input_ohms_.push_back(most_ohms(listener.branch));
    for (std::size_t i = 0; i < pulls_.size(); ++i)
        for (const Along& coil : pulls_[i])
            pull_ohms_[i] += coil.weight * most_ohms(coil.branch);
    for (std::size_t i = 0; i < network_->modules.size(); ++i)
        for (const int supply : network_->modules[i].supplies)
            supply_ohms_[i] = std::max(supply_ohms_[i], most_ohms(supply));
    all_changed_ = true;
}

Stand Bench::at_rest() const {
    const auto none_of = [](const auto& list) { return std::vector<char>(list.size(), 0); };
    return {none_of(network_->relays), none_of(network_->modules), none_of(network_->listeners), none_of(network_->fuses)};
}

Stand Bench::all_on() const {
    Stand stand = at_rest();
    std::fill(stand.in.begin(), stand.in.end(), 1);
    std::fill(stand.alive.begin(), stand.alive.end(), 1);
    std::fill(stand.high.begin(), stand.high.end(), 1);
    return stand;
}

Admittance Bench::linear(int branch, std::span<const double> values, const Stand& stand) const {
    const NetBranch& of = network_->branches[branch];
    switch (of.law) {
    case Law::absent: return {};
    case Law::contact:
        if ((stand.in[of.device] != 0) != of.when_in) return {};
        break;
    case Law::driver:
        if (of.listens != none && (stand.high[of.listens] != 0) != of.when_high) return {};
        if (!stand.alive[of.device]) return {};
        break;
    case Law::supplied:
        if (!stand.alive[of.device]) return {};
        break;
    default: break;
    }
    double ohms = values[of.ohms];
    if (of.share != none) ohms *= of.share_turned ? 1 - values[of.share] : values[of.share];
    if (of.plus != none) ohms += values[of.plus];
    const double siemens = 1 / std::max(ohms, least_ohms);
    if (of.law == Law::source || of.law == Law::supplied) return {siemens, -siemens * values[of.second]};
    return {siemens, 0};
}

bool Bench::is_cold(int branch, std::span<const double> values, double volts) const {
    const NetBranch& of = network_->branches[branch];
    return Filament(values[of.ohms], values[of.second], of.volts).is_cold(volts);
}

// Amps and siemens of its law at these volts.
Bench::Tangent Bench::tangent(std::size_t bent, std::span<const double> values, double volts) {
    const NetBranch& of = network_->branches[bent_branches_[bent]];
    if (of.law == Law::absent) return {}; // taken out after the bench was made
    const double ohms = values[of.ohms], second = values[of.second];
    if (of.law == Law::diode) return volts <= second ? Tangent{} : Tangent{(volts - second) / ohms, 1 / ohms};
    if (of.law == Law::motor) {
        const Motor motor{ohms, second, of.volts};
        return {motor.amps(volts), motor.siemens(volts)};
    }
    Knee& knee = knees_[bent];
    if (knee.cold != second) knee = {second, Filament::knee_of(second, of.volts)};
    const Filament lamp(ohms, second, of.volts, knee.volts);
    const double amps = lamp.amps(volts);
    return {amps, lamp.siemens(volts, amps)};
}

void Bench::lay(int branch, Admittance value) {
    const Admittance before = elimination_.value(branch);
    if (value.g == before.g && value.f == before.f) return;
    elimination_.set(branch, value);
    changed_.push_back(branch);
}

void Bench::lay_linear(int branch, std::span<const double> values, const Stand& stand) {
    const bool blown = fuse_of_[branch] != none && stand.blown[fuse_of_[branch]];
    lay(branch, blown ? Admittance{} : linear(branch, values, stand));
}

// All linear branches; of those that hang only on what is as it was, none.
void Bench::lay_all(std::span<const double> values, const Stand& stand) {
    if (none_laid_ || stand != laid_stand_) {
        for (const int branch : linear_branches_)
            lay_linear(branch, values, stand);
        laid_.assign(values.begin(), values.end()), laid_stand_ = stand;
        none_laid_ = false;
        return;
    }
    for (std::size_t k = 0; k < in_use_.size(); ++k) {
        const ParameterId id = in_use_[k];
        if (values[id] == laid_[id]) continue;
        laid_[id] = values[id];
        for (int at = hang_from_[k]; at < hang_from_[k + 1]; ++at)
            lay_linear(hanging_[at], values, stand);
    }
}

void Bench::lay_bent(std::size_t bent, std::span<const double> values, double volts) {
    const NetBranch& of = network_->branches[bent_branches_[bent]];
    const Tangent at = tangent(bent, values, volts);
    const double beside = of.law == Law::diode ? -at.siemens * values[of.second] : at.amps - at.siemens * volts;
    lay(bent_branches_[bent], {at.siemens, beside});
}

// The volts at which the network and the instrument agree.
double Bench::balance() const {
    const Admittance port = elimination_.port();
    if (instrument_.lamp_ohms == 0) {
        const double all = port.g + instrument_.siemens;
        return all > 0 ? -(port.f + instrument_.amps) / all : 0;
    }
    const Filament lamp{instrument_.lamp_ohms, instrument_.lamp_cold, instrument_.lamp_volts};
    double volts = port.g > 0 ? -port.f / port.g : 0;
    for (int turn = 0; turn < 50; ++turn) {
        const double siemens = lamp.siemens(volts);
        const double next = -(port.f + lamp.amps(volts) - siemens * volts) / (port.g + siemens);
        if (std::abs(next - volts) <= 1e-13 * std::abs(next)) return next;
        volts = next;
    }
    return volts;
}

// Newton's method over the bent branches, from 0 V up: their laws grow ever slower, so that each step stays short of the
// end. One whose volts change sides begins at 0 again. After some turns only one diode is turned at a time, so that they
// cannot chase each other. False when there is no end to it.
bool Bench::solve(std::span<const double> values) {
    constexpr int turns = 200, diodes_one_by_one = 20;
    constexpr std::size_t few = 6; // one way to the port is about so small a share of all
    for (int turn = 0; turn < turns; ++turn) {
        if (all_changed_ || changed_.size() * few > linear_branches_.size())
            elimination_.eliminate();
        else
            elimination_.update(changed_);
        all_changed_ = false;
        changed_.clear();
        port_volts_ = balance();
        elimination_.solve(port_volts_, volts_);
        bool touches = true; // each law where it has its tangent
        for (std::size_t i = 0; i < bent_branches_.size(); ++i) {
            const int branch = bent_branches_[i];
            double across = volts(branch);
            const Admittance now = elimination_.value(branch);
            const double wrong = tangent(i, values, across).amps - (now.g * across + now.f);
            if (std::abs(wrong) <= 1e-11 * (std::abs(now.g * across) + std::abs(now.f) + 1e-6)) continue;
            if (network_->branches[branch].law == Law::diode && turn > diodes_one_by_one && !touches) continue;
            if (across * touched_at_[i] < 0 && network_->branches[branch].law != Law::diode) across = 0;
            touched_at_[i] = across;
            lay_bent(i, values, across);
            touches = false;
        }
        if (touches) return true;
    }
    return false;
}

std::vector<NodeId> Bench::islands() const {
    std::vector<NodeId> island(network_->nodes());
    elimination_.islands(island);
    return island;
}

double Bench::volts(int branch) const {
    const Branch& ends = network_->ends[branch];
    return volts_[ends.a] - volts_[ends.b];
}

// What its volts are to be multiplied with.
double Bench::share_of(const Along& along) const {
    const NetBranch& of = network_->branches[along.branch];
    switch (along.share) {
    case Share::volts: return 1;
    case Share::own_volts: return of.plus == none ? 1 : laid_[of.ohms] / (laid_[of.ohms] + laid_[of.plus]);
    case Share::amps: return elimination_.value(along.branch).g;
    }
    return 1;
}

double Bench::sum(std::span<const Along> along) const {
    double sum = 0;
    for (const Along& each : along)
        sum += each.weight * volts(each.branch) * share_of(each);
    return sum;
}

double Bench::amps(int branch) const {
    const Admittance value = elimination_.value(branch);
    return value.g == 0 && value.f == 0 ? 0 : value.g * volts(branch) + value.f;
}

Settling Bench::settle(std::span<const double> values, Stand& stand, bool held) {
    if (instrument_.ohms != none && instrument_.lamp_volts > 0) instrument_.lamp_ohms = values[instrument_.ohms];
    if (instrument_.ohms != none && instrument_.lamp_volts == 0) instrument_.siemens = 1 / values[instrument_.ohms];
    if (!held) std::fill(touched_at_.begin(), touched_at_.end(), 0.0);
    for (std::size_t i = 0; i < bent_branches_.size(); ++i)
        lay_bent(i, values, touched_at_[i]);
    constexpr double far_below = 2, far_above = 1.25; // times a threshold: no tolerance leads so far
    constexpr int most_stands = 10000;                // a circuit that takes more has no end that matters
    way_.clear();
    std::size_t since = 0; // a fuse blew
    for (int turn = 0; turn < most_stands; ++turn) {
        lay_all(values, stand);
        if (!solve(values)) return Settling::chatters;
        if (held) return Settling::settled;

        Stand next = stand;
        bool close = false;
        const auto weigh = [&](double volts, double off, double on) { close |= volts > off / far_below && volts < on * far_above; };
        for (std::size_t i = 0; i < network_->relays.size(); ++i) {
            const double pull = std::abs(sum(pulls_[i]));
            weigh_relay(i, pull), weigh(pull, network_->relays[i].drops_out, network_->relays[i].pulls_in);
            if (pull >= network_->relays[i].pulls_in) next.in[i] = 1;
            if (pull <= network_->relays[i].drops_out) next.in[i] = 0;
        }
        for (std::size_t i = 0; i < network_->modules.size(); ++i) {
            weigh_module(i, feed(i)), weigh(feed(i), network_->modules[i].needs, network_->modules[i].needs);
            next.alive[i] = feed(i) >= network_->modules[i].needs;
        }
        for (std::size_t i = 0; i < network_->listeners.size(); ++i) {
            const Listener& listener = network_->listeners[i];
            const double reads = heard(i);
            weigh_listener(i, reads), weigh(reads, listener.low, listener.high);
            if (reads >= listener.high) next.high[i] = 1;
            if (reads <= listener.low) next.high[i] = 0;
        }
        if (next != stand) {
            const auto is_next = [&](const Passed& each) { return each.stand == next; };
            const bool again = std::any_of(way_.begin() + static_cast<std::ptrdiff_t>(since), way_.end(), is_next);
            way_.push_back({stand, most_load(), false, close});
            if (again) return Settling::chatters;
            stand = std::move(next);
            continue;
        }
        int worst = none;
        double most = fuse_blows_at;
        for (std::size_t i = 0; i < network_->fuses.size(); ++i) {
            weigh_fuse(i, load(i));
            if (!stand.blown[i] && load(i) > most) worst = static_cast<int>(i), most = load(i);
        }
        if (worst == none) return Settling::settled;
        way_.push_back({stand, most, true, close});
        stand.blown[worst] = 1;
        since = way_.size();
    }
    return Settling::chatters;
}

void Bench::weigh_relay(std::size_t relay, double volts) {
    const Relay& of = network_->relays[relay];
    if (pull_ohms_[relay] > 0)
        slack_ = std::min(slack_, std::min(std::abs(volts - of.pulls_in), std::abs(volts - of.drops_out)) / pull_ohms_[relay]);
}
void Bench::weigh_module(std::size_t module, double volts) {
    if (supply_ohms_[module] > 0) slack_ = std::min(slack_, std::abs(volts - network_->modules[module].needs) / supply_ohms_[module]);
}

void Bench::weigh_listener(std::size_t listener, double volts) {
    const Listener& of = network_->listeners[listener];
    if (input_ohms_[listener] > 0)
        slack_ = std::min(slack_, std::min(std::abs(volts - of.high), std::abs(volts - of.low)) / input_ohms_[listener]);
}
double Bench::feed(std::size_t module) const {
    double most = 0;
    for (const int supply : network_->modules[module].supplies)
        if (network_->branches[supply].law != Law::absent) most = std::max(most, volts(supply));
    return most;
}
double Bench::heard(std::size_t listener) const {
    const int branch = network_->listeners[listener].branch;
    return network_->branches[branch].law == Law::absent ? 0 : volts(branch);
}

void Bench::weigh_fuse(std::size_t fuse, double load) {
    const double rating = network_->fuses[fuse].rating;
    slack_ = std::min({slack_, std::abs(load - fuse_holds_to) * rating, std::abs(load - fuse_blows_at) * rating});
}
double Bench::load(std::size_t fuse) const { return std::abs(amps(network_->fuses[fuse].branch)) / network_->fuses[fuse].rating; }

double Bench::most_load() const {
    double most = 0;
    for (std::size_t i = 0; i < network_->fuses.size(); ++i)
        most = std::max(most, load(i)); // of a blown one 0
    return most;
}

std::vector<std::size_t> Bench::strained(const Stand& stand, double limit) {
    const double near = 0.8 * limit; // should a bridge have its most elsewhere
    if (network_->fuses.empty()) return {};
    std::vector<double> values = usual_;
    for (const NetBranch& of : network_->branches) {
        if (of.law == Law::absent) continue;
        const bool source = of.law == Law::source || of.law == Law::supplied;
        for (const ParameterId each : {of.ohms, of.plus})
            if (each != none) values[each] = network_->parameters[each].low;
        if (of.second != none) values[of.second] = source ? network_->parameters[of.second].high : network_->parameters[of.second].low;
    }
    std::vector<std::size_t> list;
    Stand held = stand;
    if (settle(values, held, true) == Settling::chatters) return list;
    for (std::size_t i = 0; i < network_->fuses.size(); ++i)
        if (!stand.blown[i] && load(i) > near) list.push_back(i);
    return list;
}

double Bench::instrument_amps() const {
    if (instrument_.lamp_ohms == 0) return instrument_.siemens * port_volts_ + instrument_.amps;
    return Filament(instrument_.lamp_ohms, instrument_.lamp_cold, instrument_.lamp_volts).amps(port_volts_);
}

double Bench::instrument_siemens() const {
    if (instrument_.lamp_ohms == 0) return instrument_.siemens;
    return Filament(instrument_.lamp_ohms, instrument_.lamp_cold, instrument_.lamp_volts).siemens(port_volts_);
}

} // namespace loomsheet
