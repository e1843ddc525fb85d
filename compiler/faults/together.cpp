#include "faults/together.hpp"
#include "model/change.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

constexpr double margin = 0.95;  // of the volts a load needs: from here down one complains. Common practice, no source
constexpr double on_edge = 0.95; // of the volts at which a relay pulls in: nearer it does now this, now that
constexpr double weights[] = {0.3, 1, 3};
constexpr std::size_t most_stands = 32;

bool is_good(StateVerb verb) { return verb == StateVerb::runs || verb == StateVerb::works || verb == StateVerb::lit; }

// The one branch of a load; none where it has several, or is broken.
std::vector<Along> along_load(const Setting& setting, PartId part) {
    std::vector<Along> along;
    for (std::size_t i = 0; i < setting.network->graph.edges.size(); ++i) {
        const Edge& edge = setting.network->graph.edges[i];
        if (edge.kind != EdgeKind::load || edge.part != part) continue;
        if (setting.network->branches[i].law == Law::absent) return {};
        along.push_back({static_cast<int>(i), 1});
    }
    return along.size() == 1 ? along : std::vector<Along>();
}

} // namespace

double needs_of(const Part& part, double system_volts) {
    if (part.needs) return part.needs->si;
    if (part.kind == PartKind::lamp) {
        double rated = system_volts;
        for (const Element& element : part.elements)
            if (element.holds_at) rated = element.holds_at->si;
        return usual(Usual::lamp_lit).value * rated;
    }
    return usual(Usual::load_needs).value * system_volts;
}

bool is_poor(StateVerb verb) {
    return verb == StateVerb::still || verb == StateVerb::slow || verb == StateVerb::dark || verb == StateVerb::dim ||
           verb == StateVerb::fails;
}

std::optional<ComplaintVolts> complaint_volts(const Plan& plan, double system_volts) {
    const std::vector<State>& states = plan.complaint_states.list;
    if (states.empty()) return std::nullopt;
    const PartId part = states.front().of.part;
    if (part == none || !is_load(plan.circuit.parts[part].kind)) return std::nullopt;
    for (const State& state : states)
        if (state.of.part != part || !is_poor(state.verb)) return std::nullopt;
    return ComplaintVolts{part, margin * needs_of(plan.circuit.parts[part], system_volts)};
}

Together::Together(const Plan& plan, const Predictor& car, const ComplaintVolts& complaint)
    : plan_(plan), car_(car), complaint_(complaint) {
    Rig& rig = car.rig(plan.complaint_with);
    complaining_ = &rig.setting();
    load_ = along_load(*complaining_, complaint.part);
    const Stands& stands = rig.stands();
    any_ = load_.empty() || stands.chatters;
    if (any_) return;
    const bool stuck = complaining_->network->branches[load_.front().branch].law == Law::ohmic &&
                       car.circuit().parts[complaint.part].kind == PartKind::motor;
    if (stuck) {
        any_ = true;
        return;
    }
    bool all = true;
    for (const Stand& stand : stands.list) {
        Term term = complaining_->term;
        term.stand = stand, term.along = load_;
        const Extent extent = extent_of({&term, 1}, 0);
        all &= extent.high <= complaint.most;
        if (extent.low <= complaint.most) stands_.push_back({stand, load_, complaint.most, false, none});
    }
    if (stands.may_chatter && stands.falling.empty()) stands_.push_back({{}, {}, 0, true, none});
    for (const Falling& each : stands.falling)
        if (each.feed.empty() || comes_on(each)) stands_.push_back({each.stand, each.feed, each.most, true, each.part});
    if (!all) complains_ = stands_.empty() ? Truth::no : Truth::maybe;
    any_ |= stands_.empty();
}

// A relay has one threshold, and so has a module: on in one set-up and off in the other, it must get more where it is on, and more than
// surely leaves it off. Of those that stand otherwise here than there this holds of the first that went on; then the others had not.
bool Together::compatible(const Setting& setting, const Stand& stand, const Complaining& complains) {
    if (complains.along.empty()) return true;
    const Network &here = *setting.network, &there = *complaining_->network;
    const Stand& complaining = complains.stand;
    for (std::size_t i = 0; i < here.fuses.size(); ++i) // what has blown for the complaint stays so
        for (std::size_t j = 0; j < there.fuses.size(); ++j)
            if (here.fuses[i].part == there.fuses[j].part && complaining.blown[j] && !stand.blown[i]) return false;
    if (complains.rattles) return stays(setting, stand, complains);
    struct Differing {
        std::vector<Along> here, there;
        bool on_here;
        double off;
    };
    std::vector<Differing> differing;
    Term one, other;
    one.bench = setting.bench.get(), one.stand = stand, other.bench = complaining_->bench.get(), other.stand = complaining;
    for (std::size_t i = 0; i < here.relays.size(); ++i)
        for (std::size_t j = 0; j < there.relays.size(); ++j) {
            if (here.relays[i].part != there.relays[j].part || stand.in[i] == complaining.in[j]) continue;
            differing.push_back(
                {pull_of(here, here.relays[i]), pull_of(there, there.relays[j]), stand.in[i] != 0, here.relays[i].drops_out});
            one.stand.in[i] = other.stand.in[j] = 0;
        }
    for (std::size_t i = 0; i < here.modules.size(); ++i)
        for (std::size_t j = 0; j < there.modules.size(); ++j) {
            if (here.modules[i].part != there.modules[j].part || stand.alive[i] == complaining.alive[j]) continue;
            if (here.modules[i].supplies.size() != 1 || there.modules[j].supplies.size() != 1) return true;
            differing.push_back(
                {{{here.modules[i].supplies.front(), 1}}, {{there.modules[j].supplies.front(), 1}}, stand.alive[i] != 0, 0});
            one.stand.alive[i] = other.stand.alive[j] = 0;
        }
    const auto may_be_first = [&](const Differing& each) {
        if (each.here.empty() || each.there.empty()) return true;
        Term on = each.on_here ? one : other, off = each.on_here ? other : one;
        on.along = each.on_here ? each.here : each.there, off.along = each.on_here ? each.there : each.here;
        off.sign = -1 / on_edge;
        for (const double weight : {0.0, 0.3, 3.0}) {
            on.sign = 1 + weight;
            Term terms[] = {on, off};
            if (highest_of(terms, car_.parameters().list.size()) < weight * each.off) return false;
        }
        return true;
    };
    return differing.empty() || std::any_of(differing.begin(), differing.end(), may_be_first);
}

// Whether it may get so much more in one of the stands in which it is off that it comes on again.
bool Together::comes_on(const Falling& falling) {
    Term on, off;
    on.bench = off.bench = complaining_->bench.get(), on.along = off.along = falling.feed;
    on.stand = falling.stand, on.sign = -1;
    return std::any_of(falling.rises.begin(), falling.rises.end(), [&](const Stand& stand) {
        off.stand = stand, off.sign = std::min(falling.plays, on_edge);
        Term terms[] = {off, on};
        return highest_of(terms, car_.parameters().list.size()) >= 0;
    });
}

// Whether the car stands as when it is complained of: what rattles there rattles here.
bool Together::rattles_too(Rig& bare) const { return bare.setting().network->branches == complaining_->network->branches; }

// What falls off there and stays on here gets more here.
bool Together::stays(const Setting& setting, const Stand& stand, const Complaining& falling) {
    const auto more = [&](std::vector<Along> feed) {
        Term here, there;
        here.bench = setting.bench.get(), here.stand = stand, here.along = std::move(feed);
        there.bench = complaining_->bench.get(), there.stand = falling.stand, there.along = falling.along, there.sign = -1 / on_edge;
        Term terms[] = {here, there};
        return highest_of(terms, car_.parameters().list.size()) >= 0;
    };
    const Network& network = *setting.network;
    for (std::size_t i = 0; i < network.relays.size(); ++i)
        if (network.relays[i].part == falling.falls && stand.in[i]) return more(pull_of(network, network.relays[i]));
    for (std::size_t i = 0; i < network.modules.size(); ++i)
        if (network.modules[i].part == falling.falls && stand.alive[i] && network.modules[i].supplies.size() == 1)
            return more({{network.modules[i].supplies.front(), 1}});
    return true;
}

// Whether slack + the sum of the terms, and what the complaint leaves, can both be positive.
bool Together::reaches(const std::vector<Part>& parts, double slack) {
    std::size_t all = stands_.size();
    for (const Part& each : parts) {
        if (each.rig->stands().chatters) return true;
        all *= each.rig->stands().list.size();
    }
    if (all > most_stands) return true;
    for (std::size_t pick = 0; pick < all; ++pick) {
        std::vector<Term> sum;
        std::size_t rest = pick;
        bool together = true;
        for (const Part& each : parts) {
            const std::vector<Stand>& list = each.rig->stands().list;
            Term term = each.rig->setting().term;
            term.stand = list[rest % list.size()], term.sign = each.sign, term.along = each.along;
            rest /= list.size();
            sum.push_back(std::move(term));
        }
        for (std::size_t i = 0; i < parts.size(); ++i)
            together = together && !(parts[i].rattles && stands_[rest].rattles) &&
                       compatible(parts[i].rig->setting(), sum[i].stand, stands_[rest]);
        if (!together) continue;
        if (stands_[rest].along.empty()) return true;
        Term complaint = complaining_->term;
        complaint.stand = stands_[rest].stand, complaint.along = stands_[rest].along;
        bool apart = false;
        for (const double weight : weights) {
            std::vector<Term> both = sum;
            both.push_back(complaint);
            both.back().sign = -weight;
            apart |= highest_of(both, car_.parameters().list.size()) + slack + weight * stands_[rest].most < 0;
            if (apart) break;
        }
        if (!apart) return true;
    }
    return false;
}

bool Together::relay_may(const Check& check, PartId relay, bool in) {
    Rig& rig = car_.rig(setup_of(check));
    const Setting& setting = rig.setting();
    const Stands& stands = rig.stands();
    const bool rattles = rattles_too(rig);
    if (stands.chatters) return true;
    for (const Stand& stand : stands.list)
        for (std::size_t i = 0; i < setting.network->relays.size(); ++i)
            if (setting.network->relays[i].part == relay && (stand.in[i] != 0) == in)
                for (const Complaining& complaining : stands_)
                    if (!(rattles && complaining.rattles) && compatible(setting, stand, complaining)) return true;
    return false;
}

bool Together::possible(const Check& check, const RowPrediction* made, std::size_t row, Answer answer) {
    if (any_) return true;
    if (check.measure == MeasureKind::look) {
        if (check.look_states.list.size() == 1 && check.look_states.list.front().verb == StateVerb::works &&
            car_.circuit().parts[check.look_states.list.front().of.part].kind == PartKind::relay)
            return relay_may(check, check.look_states.list.front().of.part, answer == Answer::pass);
        if (answer != Answer::pass || check.look_states.list.size() != 1) return true;
        const State& state = check.look_states.list.front();
        if (!is_good(state.verb) || state.of.part == none || !is_load(car_.circuit().parts[state.of.part].kind)) return true;
        Rig& rig = car_.rig(setup_of(check));
        const std::vector<Along> along = along_load(rig.setting(), state.of.part);
        if (along.empty()) return true;
        return reaches({{&rig, 1, along, rattles_too(rig)}},
                       -needs_of(car_.circuit().parts[state.of.part], car_.parameters().system_volts));
    }
    if (!made || !made->limit || (check.measure != MeasureKind::volts && check.measure != MeasureKind::drop)) return true;
    const Limit& limit = *made->limit;
    const Reading& reading = made->difference ? *made->difference : made->reading;
    if (reading.kind != ReadingKind::number || reading.floats) return true;
    const double error = std::max(reading.bare_low - reading.low, reading.high - reading.bare_high);
    const auto part = [&](const Setup& with, MeasureKind measure, const Row& points, double sign) {
        const Setup setup = placed(with, points);
        const bool rattles = rattles_too(car_.rig(setup));
        return Part{&car_.rig(setup, measure, points, usual(Usual::ohms_test).value), sign, {}, rattles};
    };
    std::vector<Part> reading_of{part(check.with, check.measure, check.rows[row], 1)};
    if (made->difference) {
        const Check& before = plan_.checks[limit.reference];
        const Row* points = &before.rows.front();
        for (const Row& each : before.rows)
            if (each.name == check.rows[row].name) points = &each;
        reading_of.push_back(part(before.with, before.measure, *points, -1));
    }
    // `at least`: reading - least >= 0; `at most`: most - reading >= 0.
    const auto at_least = [&](double least) { return reaches(reading_of, error - least); };
    const auto at_most = [&](double most) {
        std::vector<Part> turned = reading_of;
        for (Part& each : turned)
            each.sign = -each.sign;
        return reaches(turned, error + most);
    };
    const bool within = limit.kind == LimitKind::within;
    const double high = limit.high ? limit.high->si : 0, low = within ? -high : limit.low ? limit.low->si : 0;
    const bool has_high = limit.high.has_value(), has_low = within || limit.low.has_value();
    switch (answer) {
    case Answer::pass: return (!has_high || at_most(high)) && (!has_low || at_least(low));
    case Answer::low: return !has_low || at_most(low);
    case Answer::high: return !has_high || at_least(high);
    case Answer::other: break;
    }
    return true;
}

} // namespace loomsheet
