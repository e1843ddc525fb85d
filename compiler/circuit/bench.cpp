#include "circuit/bench.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

constexpr double least_ohms = 1e-6; // what cannot be less: a shorted fault
constexpr double blows_at = 1.35;   // of its rating a fuse surely blows in half an hour: ISO 8820-3

// A filament: cold ohms up to where the power law crosses them. Amps and siemens at `volts`.
struct Filament {
    double ohms, cold, rated;
    double power = usual(Usual::filament_power_law).value;
    bool is_cold(double volts) const { return std::abs(volts) <= rated * std::pow(cold, 1 / (1 - power)); }
    double amps(double volts) const {
        if (is_cold(volts)) return volts / (ohms * cold);
        return std::copysign(rated / ohms * std::pow(std::abs(volts) / rated, power), volts);
    }
    double siemens(double volts) const {
        return is_cold(volts) ? 1 / (ohms * cold) : power * amps(volts) / volts;
    }
};

// A motor: its still ohms until it turns, then a share of its current at any speed and the rest with the volts.
struct Motor {
    double ohms, still, rated;
    double friction = usual(Usual::friction).value;
    double turning_siemens() const { return (1 - friction) / ohms; }
    bool stands(double volts) const {
        return std::abs(volts) * (1 / still - turning_siemens()) <= friction * rated / ohms;
    }
    double amps(double volts) const {
        if (stands(volts)) return volts / still;
        return std::copysign(friction * rated / ohms, volts) + turning_siemens() * volts;
    }
    double siemens(double volts) const { return stands(volts) ? 1 / still : turning_siemens(); }
};

bool is_bent(Law law) { return law == Law::diode || law == Law::filament || law == Law::motor; }

} // namespace

Bench::Bench(const Network& network, NodeId red, NodeId black, const Instrument& instrument)
    : network_(&network), pattern_(network.nodes(), network.ends, red, black), elimination_(pattern_),
      instrument_(instrument), volts_(network.nodes()), island_(network.nodes()) {
    for (int i = 0; i < static_cast<int>(network.branches.size()); ++i)
        if (is_bent(network.branches[i].law)) bent_branches_.push_back(i);
    touched_at_.assign(bent_branches_.size(), 0);
}

Stand Bench::at_rest() const {
    return {std::vector<char>(network_->relays.size(), 0), std::vector<char>(network_->modules.size(), 0),
            std::vector<char>(network_->fuses.size(), 0)};
}

Stand Bench::all_on() const {
    Stand stand = at_rest();
    std::fill(stand.in.begin(), stand.in.end(), 1);
    std::fill(stand.alive.begin(), stand.alive.end(), 1);
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

bool Bench::stands_still(int branch, std::span<const double> values, double volts) const {
    const NetBranch& of = network_->branches[branch];
    if (of.law == Law::filament) return Filament{values[of.ohms], values[of.second], of.volts}.is_cold(volts);
    return of.law == Law::motor && Motor{values[of.ohms], values[of.second], of.volts}.stands(volts);
}

double Bench::bent_amps(int branch, std::span<const double> values, double volts) const {
    const NetBranch& of = network_->branches[branch];
    if (of.law == Law::absent) return 0; // taken out after the bench was made
    if (of.law == Law::diode) return std::max(0.0, (volts - values[of.second]) / values[of.ohms]);
    if (of.law == Law::filament) return Filament{values[of.ohms], values[of.second], of.volts}.amps(volts);
    return Motor{values[of.ohms], values[of.second], of.volts}.amps(volts);
}

// The tangent to its law at these volts.
Admittance Bench::bent(int branch, std::span<const double> values, double volts) const {
    const NetBranch& of = network_->branches[branch];
    double siemens = 0;
    if (of.law == Law::absent) return {};
    if (of.law == Law::diode) {
        if (volts <= values[of.second]) return {};
        siemens = 1 / values[of.ohms];
        return {siemens, -siemens * values[of.second]};
    }
    if (of.law == Law::filament) siemens = Filament{values[of.ohms], values[of.second], of.volts}.siemens(volts);
    if (of.law == Law::motor) siemens = Motor{values[of.ohms], values[of.second], of.volts}.siemens(volts);
    return {siemens, bent_amps(branch, values, volts) - siemens * volts};
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
    elimination_.eliminate();
    std::vector<int> changed;
    for (int turn = 0; turn < turns; ++turn) {
        port_volts_ = balance();
        elimination_.solve(port_volts_, volts_);
        if (bent_branches_.empty()) return true;
        elimination_.islands(island_);
        changed.clear();
        for (std::size_t i = 0; i < bent_branches_.size(); ++i) {
            const int branch = bent_branches_[i];
            double across = volts(branch);
            const Admittance now = elimination_.value(branch);
            const double wrong = bent_amps(branch, values, across) - (now.g * across + now.f);
            if (std::abs(wrong) <= 1e-11 * (std::abs(now.g * across) + std::abs(now.f) + 1e-6)) continue;
            if (network_->branches[branch].law == Law::diode && turn > diodes_one_by_one && !changed.empty()) continue;
            if (across * touched_at_[i] < 0 && network_->branches[branch].law != Law::diode) across = 0;
            touched_at_[i] = across;
            elimination_.set(branch, bent(branch, values, across));
            changed.push_back(branch);
        }
        if (changed.empty()) return true;
        elimination_.update(changed);
    }
    return false;
}

double Bench::volts(int branch) const {
    const Branch& ends = network_->ends[branch];
    return volts_[ends.a] - volts_[ends.b];
}

double Bench::volts(std::span<const Along> along) const {
    double sum = 0;
    for (const Along& each : along)
        sum += each.weight * volts(each.branch);
    return sum;
}

double Bench::amps(int branch) const {
    const Admittance value = elimination_.value(branch);
    return value.g == 0 && value.f == 0 ? 0 : value.g * volts(branch) + value.f;
}

Settling Bench::settle(std::span<const double> values, Stand& stand, bool held) {
    if (!held) std::fill(touched_at_.begin(), touched_at_.end(), 0.0);
    for (std::size_t i = 0; i < bent_branches_.size(); ++i)
        elimination_.set(bent_branches_[i], bent(bent_branches_[i], values, touched_at_[i]));
    constexpr int most_stands = 10000; // a circuit that takes more has no end that matters
    std::vector<Stand> seen;
    for (int turn = 0; turn < most_stands; ++turn) {
        for (int i = 0; i < static_cast<int>(network_->branches.size()); ++i)
            if (!is_bent(network_->branches[i].law)) elimination_.set(i, linear(i, values, stand));
        for (std::size_t i = 0; i < network_->fuses.size(); ++i)
            if (stand.blown[i]) elimination_.set(network_->fuses[i].branch, {});
        if (!solve(values)) return Settling::chatters;
        if (held) return Settling::settled;

        Stand next = stand;
        for (std::size_t i = 0; i < network_->relays.size(); ++i) {
            const double pull = std::abs(volts(pull_of(*network_, network_->relays[i])));
            if (pull >= network_->relays[i].pulls_in) next.in[i] = 1;
            if (pull <= network_->relays[i].drops_out) next.in[i] = 0;
        }
        for (std::size_t i = 0; i < network_->modules.size(); ++i) {
            const Module& module = network_->modules[i];
            next.alive[i] = std::any_of(module.supplies.begin(), module.supplies.end(),
                                        [&](int supply) { return volts(supply) >= module.needs; });
        }
        if (next != stand) {
            if (std::find(seen.begin(), seen.end(), next) != seen.end()) return Settling::chatters;
            seen.push_back(stand);
            stand = std::move(next);
            continue;
        }
        int worst = none;
        double most = blows_at;
        for (std::size_t i = 0; i < network_->fuses.size(); ++i) {
            const double load = std::abs(amps(network_->fuses[i].branch)) / network_->fuses[i].rating;
            if (!stand.blown[i] && load > most) worst = static_cast<int>(i), most = load;
        }
        if (worst == none) return Settling::settled;
        stand.blown[worst] = 1;
        seen.clear();
    }
    return Settling::chatters;
}

// One ampere put in where it is asked answers, by reciprocity, for a change of any branch: dV = -v' di.
void Bench::slopes(std::span<const double> values, std::span<const double> answer, std::span<double> slopes) const {
    std::fill(slopes.begin(), slopes.end(), 0.0);
    for (int i = 0; i < static_cast<int>(network_->branches.size()); ++i) {
        const NetBranch& of = network_->branches[i];
        const Admittance value = elimination_.value(i);
        if (value.g == 0) continue;
        const Branch& ends = network_->ends[i];
        const double back = answer[ends.a] - answer[ends.b], through = amps(i);
        const double share = of.share == none ? 1 : of.share_turned ? 1 - values[of.share] : values[of.share];
        const double per_ohm = back * through / (values[of.ohms] * share + (of.plus == none ? 0 : values[of.plus]));
        double of_ohms = per_ohm * share;
        switch (of.law) {
        case Law::source:
        case Law::supplied:
        case Law::diode: slopes[of.second] += back * value.g; break;
        case Law::filament:
            if (stands_still(i, values, volts(i))) slopes[of.second] += back * through / values[of.second];
            break;
        case Law::motor:
            if (stands_still(i, values, volts(i))) slopes[of.second] += back * through / values[of.second], of_ohms = 0;
            break;
        default: break;
        }
        slopes[of.ohms] += of_ohms;
        if (of.share != none) slopes[of.share] += (of.share_turned ? -1 : 1) * per_ohm * values[of.ohms];
        if (of.plus != none) slopes[of.plus] += per_ohm;
    }
}

void Bench::slopes_of_port(std::span<const double> values, std::span<double> out) {
    double siemens = instrument_.siemens;
    if (instrument_.lamp_ohms > 0)
        siemens = Filament{instrument_.lamp_ohms, instrument_.lamp_cold, instrument_.lamp_volts}.siemens(port_volts_);
    std::vector<double> answer(volts_.size());
    const double all = elimination_.port().g + siemens;
    if (all > 0) elimination_.solve(1 / all, answer, true);
    slopes(values, answer, out);
}

void Bench::slopes_of(std::span<const Along> along, std::span<const double> values, std::span<double> out) {
    Elimination test = elimination_;
    for (int i = 0; i < pattern_.branches(); ++i)
        test.set(i, {elimination_.value(i).g, 0});
    for (const Along& each : along)
        test.set(each.branch, {elimination_.value(each.branch).g, -each.weight});
    test.eliminate();
    double siemens = instrument_.siemens;
    if (instrument_.lamp_ohms > 0)
        siemens = Filament{instrument_.lamp_ohms, instrument_.lamp_cold, instrument_.lamp_volts}.siemens(port_volts_);
    std::vector<double> answer(volts_.size());
    const double all = test.port().g + siemens;
    test.solve(all > 0 ? -test.port().f / all : 0, answer);
    slopes(values, answer, out);
}

} // namespace loomsheet
