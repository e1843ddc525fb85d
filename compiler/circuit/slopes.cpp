// How far what a bench shows moves with each parameter.
#include "circuit/bench.hpp"
#include "circuit/laws.hpp"
#include <algorithm>

namespace loomsheet {
namespace {

// A load follows one of two laws. What counts in the other alone moves nothing where it stands, yet where it has moved enough the other
// law holds: a mere hint of its slope says which way.
constexpr double hint = 1e-6;

} // namespace

// One ampere put in where it is asked answers, by reciprocity, for a change of any branch: dV = -v' di.
void Bench::slopes(std::span<const double> values, std::span<double> slopes) const {
    for (const ParameterId each : in_use_)
        slopes[each] = 0;
    const auto add = [&](int i) {
        const NetBranch& of = network_->branches[i];
        const Admittance value = elimination_.value(i);
        if (value.g == 0) return;
        const Branch& ends = network_->ends[i];
        const double back = answer_[ends.a] - answer_[ends.b];
        if (back == 0) return;
        const double across = volts(i), through = value.g * across + value.f;
        const double share = of.share == none ? 1 : of.share_turned ? 1 - values[of.share] : values[of.share];
        const double per_ohm = back * through / (values[of.ohms] * share + (of.plus == none ? 0 : values[of.plus]));
        double of_ohms = per_ohm * share;
        switch (of.law) {
        case Law::source:
        case Law::supplied:
        case Law::diode: slopes[of.second] += back * value.g; break;
        case Law::filament: slopes[of.second] += back * through / values[of.second] * (is_cold(i, values, across) ? 1 : hint); break;
        case Law::motor: {
            const bool stands = Motor{values[of.ohms], values[of.second], of.volts}.stands(across);
            slopes[of.second] += back * through / values[of.second] * (stands ? 1 : hint);
            if (stands) of_ohms *= hint;
            break;
        }
        default: break;
        }
        slopes[of.ohms] += of_ohms;
        if (of.share != none) slopes[of.share] += (of.share_turned ? -1 : 1) * per_ohm * values[of.ohms];
        if (of.plus != none) slopes[of.plus] += per_ohm;
    };
    for (const int i : linear_branches_)
        add(i);
    for (const int i : bent_branches_)
        add(i);
    if (instrument_.ohms == none) return;
    slopes[instrument_.ohms] += (answer_[pattern_.red()] - answer_[pattern_.black()]) * instrument_amps() / values[instrument_.ohms];
}

void Bench::slopes_of_port(std::span<const double> values, std::span<double> out) {
    const double all = elimination_.port().g + instrument_siemens();
    if (all > 0)
        elimination_.solve(1 / all, answer_, true);
    else
        std::fill(answer_.begin(), answer_.end(), 0.0);
    slopes(values, out);
}

void Bench::slopes_of_instrument(std::span<const double> values, std::span<double> out) {
    slopes_of_port(values, out);
    for (const ParameterId each : in_use_)
        out[each] *= instrument_.siemens;
    if (instrument_.ohms != none) out[instrument_.ohms] -= instrument_amps() * instrument_.siemens;
}

void Bench::slopes_of(std::span<const Along> along, std::span<const double> values, std::span<double> out) {
    along_.assign(along.begin(), along.end());
    for (Along& each : along_)
        each.weight *= share_of(each);
    elimination_.answer(along_, instrument_siemens(), answer_);
    slopes(values, out);
    for (const Along& each : along_) { // and by what the share hangs on
        if (each.share == Share::volts) continue;
        const NetBranch& of = network_->branches[each.branch];
        const double plus = of.plus == none ? 0 : values[of.plus];
        const double moves = each.weight * volts(each.branch) / (values[of.ohms] + plus);
        out[of.ohms] += each.share == Share::amps ? -moves : moves * plus / values[of.ohms];
        if (of.plus != none) out[of.plus] -= moves;
    }
}

} // namespace loomsheet
