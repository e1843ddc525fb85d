#include "faults/smallest.hpp"
#include "circuit/rig.hpp"
#include "faults/together.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

constexpr double two_figures = 1.02;     // one bound is so many times the other
constexpr double blind_from = 3;         // seen so many times later than it harms: a band. Common practice, no source
constexpr double below_all_bands = 1e-4; // ohm

bool same_place(const Candidate& a, const Candidate& b) { return a.suspect == b.suspect && a.fault.at_point.pins == b.fault.at_point.pins; }

double band_low(const Candidate& fault) { return fault.fault.value->low(); }

// The least of the values from `low` to `high` from which on something is so; it is so at `high`.
template <class IsSo>
double least(double low, double high, const IsSo& is_so) {
    while (high / low > two_figures) {
        const double middle = std::sqrt(low * high);
        (is_so(middle) ? high : low) = middle;
    }
    return high;
}

// Of a part in a circuit whose values are all usual: whether it gets what it needs.
bool works(const Setting& setting, const Stand& stand, const Part& part, PartId id) {
    const Network& network = *setting.network;
    for (std::size_t i = 0; i < network.relays.size(); ++i)
        if (network.relays[i].part == id) return stand.in[i] != 0;
    for (std::size_t i = 0; i < network.modules.size(); ++i)
        if (network.modules[i].part == id) return stand.alive[i] != 0;
    const double needs = needs_of(part, network.system_volts);
    for (std::size_t i = 0; i < network.graph.edges.size(); ++i)
        if (network.graph.edges[i].kind == EdgeKind::load && network.graph.edges[i].part == id &&
            std::abs(setting.bench->volts(static_cast<int>(i))) >= needs)
            return true;
    return false;
}

// The load that lacks what it needs with so many ohms added; none where all do their work.
PartId starved(const Circuit& circuit, const Setting& setting, const std::vector<PartId>& loads, bool all, double ohms) {
    std::vector<double> values = usual_values(*setting.network);
    values[setting.network->added] = ohms;
    Stand stand = setting.from;
    const bool settles = setting.bench->settle(values, stand) == Settling::settled;
    PartId first = none;
    for (const PartId load : loads) {
        const bool lacks = !settles || !works(setting, stand, circuit.parts[load], load);
        if (lacks && first == none) first = load;
        if (lacks != all) return all ? PartId{none} : first;
    }
    return first;
}

bool can_pass(const Check& check, OutcomeSet set) {
    for (std::size_t i = 0; i < check.outcomes.size(); ++i)
        if (check.outcomes[i].kind == OutcomeKind::pass && (set & outcome_bit(i))) return true;
    return false;
}

// How many times later it is seen than it harms.
double lateness(const Smallest& small) {
    if (small.seen.empty() || !small.seen.front().ohms) return std::numeric_limits<double>::infinity();
    return *small.seen.front().ohms / small.harmful;
}
void worst_first(std::vector<Smallest>& list) {
    std::stable_sort(list.begin(), list.end(), [](const Smallest& a, const Smallest& b) {
        const double one = lateness(a), other = lateness(b);
        return std::isinf(one) && std::isinf(other) ? a.harmful < b.harmful * 0.99 : one > other * 1.01;
    });
}
bool sooner(const SeenFrom& a, const SeenFrom& b) {
    if (!a.ohms && !b.ohms) return a.open && !b.open;
    return a.ohms && (!b.ohms || *a.ohms < *b.ohms);
}

} // namespace

SmallFaults::SmallFaults(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis)
    : plan_(plan), sound_(sound), diagnosis_(diagnosis) {
    const std::vector<Candidate>& faults = diagnosis.matrix.faults;
    for (std::size_t i = 0; i < faults.size(); ++i) {
        if (faults[i].fault.kind != FaultKind::added) continue;
        if (places_.empty() || !same_place(faults[places_.back().bands.front()], faults[i])) {
            places_.emplace_back();
            for (std::size_t o = 0; o < faults.size(); ++o)
                if (same_place(faults[o], faults[i]) &&
                    (faults[o].fault.kind == FaultKind::open || faults[o].fault.kind == FaultKind::stuck_open))
                    places_.back().open = o;
        }
        places_.back().bands.push_back(i);
    }
    const auto can_lack = [&](PartId part) {
        if (part == none) return false;
        const PartKind kind = plan.circuit.parts[part].kind;
        return is_load(kind) || kind == PartKind::relay || kind == PartKind::module;
    };
    if (!plan.complaint_states.empty()) {
        Use use{plan.complaint_with, {}, !plan.complaint_states.any};
        for (const State& state : plan.complaint_states.list) {
            if (!can_lack(state.of.part) || !is_poor(state.verb)) return;
            use.loads.push_back(state.of.part);
        }
        uses_.push_back(std::move(use));
    } else if (!plan.complaint_points) {
        for (Setup& setup : normal_use(plan)) {
            Use use{std::move(setup), {}, false};
            for (PartId id = 0; id < static_cast<PartId>(plan.circuit.parts.size()); ++id) {
                State state;
                state.of.part = id, state.of.metal = Metal::whole, state.verb = StateVerb::works;
                if (is_load(plan.circuit.parts[id].kind) && sound.looks(use.setup, state) == Truth::yes) use.loads.push_back(id);
            }
            if (!use.loads.empty()) uses_.push_back(std::move(use));
        }
    }
}

std::optional<std::pair<PartId, double>> SmallFaults::harmful_from(const Place& place) const {
    const Matrix& matrix = diagnosis_.matrix;
    const Predictor car(sound_, matrix.faults[place.bands.front()].fault, {});
    std::optional<std::pair<PartId, double>> found;
    for (const Use& use : uses_) {
        const Setting& setting = car.rig(use.setup).setting();
        const auto lacks = [&](double ohms) { return starved(car.circuit(), setting, use.loads, use.all, ohms); };
        double high = found ? found->second : ohm_bands().back();
        for (const std::size_t band : place.bands)
            if (matrix.harm[band] == Truth::yes && band_low(matrix.faults[band]) < high && lacks(band_low(matrix.faults[band])) != none) {
                high = band_low(matrix.faults[band]);
                break;
            }
        if (lacks(0) != none || lacks(high) == none) continue;
        high = least(below_all_bands, high, [&](double ohms) { return lacks(ohms) != none; });
        found = {lacks(high), high};
    }
    return found;
}

bool SmallFaults::is_complaint(const Check& check) const {
    if (check.measure != MeasureKind::look) return false;
    const auto complained_of = [&](PartId part) {
        return std::any_of(uses_.begin(), uses_.end(),
                           [&](const Use& use) { return std::find(use.loads.begin(), use.loads.end(), part) != use.loads.end(); });
    };
    return std::all_of(check.look_states.list.begin(), check.look_states.list.end(),
                       [&](const State& state) { return complained_of(state.of.part); });
}

bool SmallFaults::sees(std::size_t fault, int check) const { return !can_pass(plan_.checks[check], diagnosis_.matrix.cells[fault][check]); }

// Whether a car with the fault may come to an outcome there that no sound car has.
bool SmallFaults::moves(std::size_t fault, int check) const {
    return (diagnosis_.matrix.cells[fault][check] & ~diagnosis_.matrix.sound[check]) != 0;
}

// Those on the ways of the place's faults that may see them when it is as good as open.
std::vector<int> SmallFaults::checks_met(const Place& place) const {
    std::vector<char> met(plan_.checks.size());
    const auto meet = [&](std::size_t fault) {
        for (const Taken& step : diagnosis_.ends[fault].steps)
            met[step.check] = 1;
    };
    for (const std::size_t band : place.bands)
        meet(band);
    if (place.open) meet(*place.open);
    std::vector<int> list;
    for (int check = 0; check < static_cast<int>(met.size()); ++check)
        if (met[check] && !is_complaint(plan_.checks[check]) &&
            (moves(place.bands.back(), check) || (place.open && moves(*place.open, check))))
            list.push_back(check);
    return list;
}

SeenFrom SmallFaults::roughly(const Place& place, int check) const {
    SeenFrom made{check, std::nullopt, place.open && sees(*place.open, check)};
    for (auto band = place.bands.rbegin(); band != place.bands.rend() && sees(*band, check); ++band)
        made.ohms = band_low(diagnosis_.matrix.faults[*band]);
    return made;
}

// The matrix asks only for cars that complain; here no car at all may pass.
SeenFrom SmallFaults::exactly(const Place& place, int index) const {
    SeenFrom made = roughly(place, index);
    if (!made.ohms) return made;
    const double about = *made.ohms;
    made.ohms.reset();
    const Check& check = plan_.checks[index];
    Fault fault = diagnosis_.matrix.faults[place.bands.front()].fault;
    const auto is_seen = [&](double ohms) {
        fault.value->si = ohms, fault.value->plus_minus = 0;
        const Predictor car(sound_, fault, {});
        return !can_pass(check, outcomes_of(check, predict_for_outcome(plan_, car, check)));
    };
    double low = below_all_bands;
    for (const double end : ohm_bands()) {
        if (end > about * 0.99 && is_seen(end)) {
            made.ohms = least(low, end, is_seen);
            break;
        }
        low = end;
    }
    return made;
}

std::vector<Smallest> SmallFaults::all(std::size_t exact) const {
    std::vector<Smallest> list;
    std::vector<const Place*> of;
    for (const Place& place : places_) {
        const auto harm = harmful_from(place);
        if (!harm) continue;
        Smallest small{place.bands.front(), harm->first, harm->second, {}};
        for (const int check : checks_met(place))
            small.seen.push_back(roughly(place, check));
        std::stable_sort(small.seen.begin(), small.seen.end(), sooner);
        list.push_back(std::move(small));
    }
    worst_first(list);
    for (std::size_t i = 0; i < std::min(exact, list.size()); ++i) {
        Smallest& small = list[i];
        if (small.seen.empty() || !small.seen.front().ohms || *small.seen.front().ohms <= small.harmful) continue;
        const auto place =
            std::find_if(places_.begin(), places_.end(), [&](const Place& each) { return each.bands.front() == small.fault; });
        const double first = *small.seen.front().ohms;
        for (SeenFrom& seen : small.seen)
            if (seen.ohms && *seen.ohms <= first) seen = exactly(*place, seen.check);
        std::stable_sort(small.seen.begin(), small.seen.end(), sooner);
    }
    std::vector<Smallest> first(list.begin(), list.begin() + static_cast<std::ptrdiff_t>(std::min(exact, list.size())));
    worst_first(first);
    std::copy(first.begin(), first.end(), list.begin());
    return list;
}

std::vector<BlindCheck> SmallFaults::blind() const {
    std::vector<BlindCheck> list;
    for (const Place& place : places_) {
        std::vector<int> passed; // on the ways that end wrong, by bands that harm
        std::optional<std::pair<PartId, double>> harm;
        std::optional<std::vector<int>> met;
        for (const std::size_t band : place.bands) {
            const FaultEnds& ends = diagnosis_.ends[band];
            for (std::size_t e = 0; e < ends.endings.size(); ++e) {
                if (ends.judged[e] != Judgement::wrong && ends.judged[e] != Judgement::missed) continue;
                if (!harm) harm = harmful_from(place);
                if (!met) met = checks_met(place);
                if (!harm || diagnosis_.matrix.faults[band].fault.value->high() <= harm->second) continue;
                for (const Taken& step : ends.endings[e].way) {
                    const Check& check = plan_.checks[step.check];
                    const bool passes = step.outcome < check.outcomes.size() && check.outcomes[step.outcome].kind == OutcomeKind::pass;
                    if (passes && std::find(met->begin(), met->end(), step.check) != met->end() &&
                        std::find(passed.begin(), passed.end(), step.check) == passed.end())
                        passed.push_back(step.check);
                }
            }
        }
        if (passed.empty()) continue;
        SeenFrom best;
        for (const int check : passed) {
            const SeenFrom seen = exactly(place, check);
            if (best.check == none || sooner(seen, best)) best = seen;
        }
        if (best.ohms && *best.ohms <= blind_from * harm->second) continue;
        auto at = std::find_if(list.begin(), list.end(), [&](const BlindCheck& each) { return each.check == best.check; });
        if (at == list.end()) at = list.insert(at, {best.check, {}});
        at->blind_to.push_back({place.bands.front(), harm->first, harm->second, {best}});
    }
    for (BlindCheck& each : list)
        worst_first(each.blind_to);
    return list;
}

} // namespace loomsheet
