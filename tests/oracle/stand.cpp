#include "oracle/stand.hpp"
#include <algorithm>
#include <cmath>
#include <numeric>

namespace oracle {
namespace {

constexpr double friction = 0.1;        // share of its current at which a motor just turns
constexpr double filament_power = 0.55; // a filament's current grows with this power of the volts
constexpr double rated_lamp = 12;
constexpr int most_newton = 60, most_steps = 40;

double test_volts(const Plan& plan) { return plan.system; }

} // namespace

Flow flow(Law law, const Real& real, double volts, bool held) {
    const double size = std::abs(volts), sign = volts < 0 ? -1 : 1;
    switch (law) {
    case Law::ohms: return {volts / real.ohms, 1 / real.ohms};
    case Law::source: return {(volts - real.volts) / real.ohms, 1 / real.ohms};
    case Law::filament: {
        const double cold = size / real.ohms, hot = real.amps * std::pow(size / real.volts, filament_power);
        if (cold <= hot) return {volts / real.ohms, 1 / real.ohms};
        return {sign * hot, filament_power * hot / size};
    }
    case Law::motor: {
        const double stands = size / real.ohms, slope = (1 - friction) * real.amps / real.volts,
                     turns = friction * real.amps + slope * size;
        if (held || stands <= turns) return {volts / real.ohms, 1 / real.ohms};
        return {sign * turns, slope};
    }
    case Law::diode: break;
    }
    if (volts <= real.volts) return {0, 0};
    return {(volts - real.volts) / real.ohms, 1 / real.ohms};
}

Stand::Stand(const Loom& loom, const Setting& setting, const Probe& probe, const Damage& shape)
    : loom_(loom), setting_(setting), probe_(probe), there_(loom.branches.size(), 1) {
    const Plan& plan = loom.plan;
    for (std::size_t i = 0; i < there_.size(); ++i) {
        const Branch& each = loom.branches[i];
        if (each.gate == Gate::given) there_[i] = 0;
        for (const int pin : each.pins) {
            const int part = plan.pins[pin].part;
            if (setting.unplugged.contains(part) || setting.pulled.contains(part) || setting.disconnected.contains(pin)) there_[i] = 0;
        }
        if (each.gate == Gate::contact && plan.parts[each.part].kind == "switch" && !switch_closed(each))
            there_[i] = 2; // only if it sticks
    }
    if (probe.instead_of != none) there_[probe.instead_of] = 0;
    for (std::size_t i = 0; i < plan.parts.size(); ++i) {
        if (plan.parts[i].kind == "battery") choose_given(static_cast<int>(i), plan.parts[i].gives, false);
        if (plan.parts[i].kind == "module") choose_given(static_cast<int>(i), plan.parts[i].draws, true);
    }
    std::vector<std::pair<int, int>> pairs;
    for (std::size_t i = 0; i < there_.size(); ++i)
        if (there_[i]) own_.push_back(static_cast<int>(i));
    for (std::size_t i = 0; i < shape.split.size(); ++i)
        leads_.push_back({loom.nodes + static_cast<int>(i), loom.branches[shape.split[i]].b, Law::ohms, Lead::Of::split, i});
    for (std::size_t i = 0; i < shape.laid.size(); ++i)
        leads_.push_back({shape.laid[i].a, shape.laid[i].b, Law::ohms, Lead::Of::laid, i});
    for (std::size_t i = 0; i < setting.bridges.size(); ++i)
        leads_.push_back({loom.node(setting.bridges[i].a), loom.node(setting.bridges[i].b), Law::ohms, Lead::Of::bridge, i});
    for (std::size_t i = 0; i < setting.loads.size(); ++i) {
        const bool across = setting.loads[i].across_points;
        const int a = across ? probe.red : loom.node(setting.loads[i].a), b = across ? probe.black : loom.node(setting.loads[i].b);
        leads_.push_back({a, b, setting.loads[i].value->unit == "W" ? Law::filament : Law::ohms, Lead::Of::load, i});
    }
    if (probe.tool != Tool::nothing)
        leads_.push_back({probe.red, probe.black,
                          probe.tool == Tool::ohmmeter   ? Law::source
                          : probe.tool == Tool::testlamp ? Law::filament
                                                         : Law::ohms,
                          Lead::Of::tool, 0});
    leads_.erase(std::remove_if(leads_.begin(), leads_.end(), [](const Lead& lead) { return lead.a == none || lead.b == none; }),
                 leads_.end());
    for (const int branch : own_) {
        std::pair<int, int> at{loom.branches[branch].a, loom.branches[branch].b};
        for (const auto& [moved, node] : shape.moved)
            if (moved == branch) at.second = node;
        for (std::size_t i = 0; i < shape.split.size(); ++i)
            if (shape.split[i] == branch) at.second = loom.nodes + static_cast<int>(i);
        pairs.push_back(at);
    }
    for (const Lead& lead : leads_)
        pairs.emplace_back(lead.a, lead.b);
    const int nodes = loom.nodes + shape.own_nodes;
    elimination_ = std::make_unique<Elimination>(nodes, pairs);
    siemens_.resize(pairs.size()), entering_.resize(nodes), guess_.assign(nodes, 0);
}

bool Stand::switch_closed(const Branch& contact) const {
    const Part& part = loom_.plan.parts[contact.part];
    const Element& it = part.elements[contact.element];
    if (part.positions.empty()) return setting_.holds(it.when);
    const auto stands = setting_.position.find(contact.part);
    for (const TableRow& row : part.positions)
        if (stands == setting_.position.end() ? &row == &part.positions.front() : row.position == stands->second)
            return std::any_of(row.closed.begin(), row.closed.end(), [&](const auto& pair) {
                return (pair.first == it.a && pair.second == it.b) || (pair.first == it.b && pair.second == it.a);
            });
    return false;
}

// What is given under a condition that holds, else what is given without one.
void Stand::choose_given(int part, const std::vector<Draw>& list, bool draws) {
    int chosen = draws && list.empty() ? (setting_.asleep ? 1 : 0) : none;
    for (std::size_t i = 0; i < list.size(); ++i)
        if (!list[i].when && chosen == none) chosen = static_cast<int>(i);
    for (std::size_t i = 0; i < list.size(); ++i)
        if (list[i].when && setting_.holds(list[i].when)) chosen = static_cast<int>(i);
    if (chosen == none) return;
    for (const int branch : loom_.of_part(part))
        if (loom_.branches[branch].gate == Gate::given && loom_.branches[branch].choice == (draws ? -2 - chosen : chosen))
            there_[branch] = 1;
}

bool Stand::there_part(int part) const { return !setting_.pulled.contains(part); }

Real Stand::real_of(const Car& car, int branch) const {
    const Branch& each = loom_.branches[branch];
    Real real = car.reals[branch];
    if (each.ohms_there) real.ohms = each.ohms_there(real, setting_);
    return real;
}

Real Stand::lead_real(const Car& car, const Lead& lead) const {
    const Usual& usual = loom_.usual;
    const double volts = test_volts(loom_.plan);
    switch (lead.of) {
    case Lead::Of::split: return {std::max(1e-6, car.reals[car.damage.split[lead.index]].ohms * (1 - car.split_at))};
    case Lead::Of::laid: return {car.damage.laid[lead.index].ohms};
    case Lead::Of::bridge: return {usual["a jumper lead with its fuse"].usual};
    case Lead::Of::load: {
        const Quantity& value = *setting_.loads[lead.index].value;
        if (value.unit == "W") return {usual["a filament, cold to hot ohms"].usual * volts * volts / value.si, volts, value.si / volts};
        return {volts / value.si};
    }
    case Lead::Of::tool: break;
    }
    switch (probe_.tool) {
    case Tool::voltmeter: return {usual["a voltmeter"].usual};
    case Tool::ammeter: return {car.in_line};
    case Tool::testlamp:
        return {usual["a filament, cold to hot ohms"].usual * volts * volts / car.lamp_watts, volts, car.lamp_watts / volts};
    default: break;
    }
    return {car.open_volts / 1e-3, car.open_volts, 0}; // an ohmmeter: 1 mA at most
}

bool Stand::driver_on(const Car& car, const States_of& states, const Branch& driver) const {
    if (!states.alive[driver.part] || car.dead[driver.part]) return false;
    const Element& it = loom_.plan.parts[driver.part].elements[driver.element];
    if (setting_.on.contains(it.a)) return true;
    if (it.follows == none) return false;
    const Part& hand = loom_.plan.parts[it.follows];
    const auto stands = setting_.position.find(it.follows);
    const bool moved = stands != setting_.position.end() && !hand.positions.empty() && stands->second != hand.positions.front().position;
    const Loom::Heard heard = loom_.heard(driver.part, driver.element);
    return heard.pin == none ? moved : (states.high[heard.pin] != 0) == heard.high;
}

double Stand::level(const Car& car, const std::vector<double>& volts, int module, int input) const {
    const std::vector<Element>& all = loom_.plan.parts[module].elements;
    double full = loom_.plan.system;
    bool open = true;
    for (const int branch : loom_.of_part(module)) {
        const Branch& each = loom_.branches[branch];
        if (each.element == none || all[each.element].a != all[input].a || all[each.element].kind == "output") continue;
        if (car.open[branch]) continue;
        open = false;
        if (all[each.element].kind == "pull-up") full = all[each.element].value->si;
    }
    return open ? 0 : (volts[loom_.part_side(all[input].a)] - volts[loom_.ground(module)]) / full;
}

bool Stand::conducts(const Car& car, const States_of& states, int branch) const {
    if (car.open[branch]) return false;
    const Branch& each = loom_.branches[branch];
    switch (each.gate) {
    case Gate::always:
    case Gate::joint: return true;
    case Gate::given: return each.law == Law::source || !car.dead[each.part];
    case Gate::link: return !car.blown[branch];
    case Gate::fed: return states.alive[each.part] && !car.dead[each.part];
    case Gate::driver: return car.closed[branch] || driver_on(car, states, each);
    case Gate::contact: break;
    }
    if (car.closed[branch]) return true;
    if (loom_.plan.parts[each.part].kind == "switch") return there_[branch] == 1;
    const bool in = car.armature[each.part] != 0 ? car.armature[each.part] > 0 : states.pulled[each.part];
    return each.make == in;
}

std::pair<int, int> Stand::ends(const Car& car, int branch) const {
    std::pair<int, int> at{loom_.branches[branch].a, loom_.branches[branch].b};
    for (const auto& [moved, node] : car.damage.moved)
        if (moved == branch) at.second = node;
    for (std::size_t i = 0; i < car.damage.split.size(); ++i)
        if (car.damage.split[i] == branch) at.second = loom_.nodes + static_cast<int>(i);
    return at;
}

void Stand::solve(const Car& car, const States_of& states, std::vector<double>& volts) {
    struct Bent {
        std::size_t slot;
        int a, b;
        Law law;
        Real real;
        bool held;
        double at; // volts that it was last laid a tangent at
    };
    std::vector<Bent> bent;
    std::fill(siemens_.begin(), siemens_.end(), 0.0);
    std::vector<double> steady(entering_.size(), 0.0);
    const auto lay = [&](std::size_t slot, std::pair<int, int> at, Law law, const Real& real, bool held) {
        if (law == Law::ohms) {
            siemens_[slot] = 1 / std::max(real.ohms, 1e-7);
        } else if (law == Law::source) {
            siemens_[slot] = 1 / std::max(real.ohms, 1e-7);
            steady[at.first] += real.volts * siemens_[slot], steady[at.second] -= real.volts * siemens_[slot];
        } else {
            const bool known = static_cast<int>(volts.size()) > std::max(at.first, at.second);
            bent.push_back({slot, at.first, at.second, law, real, held,
                            known               ? volts[at.first] - volts[at.second]
                            : law == Law::diode ? 0
                                                : real.volts});
        }
    };
    for (std::size_t i = 0; i < own_.size(); ++i) {
        const int branch = own_[i];
        if (!conducts(car, states, branch)) continue;
        Real real = real_of(car, branch);
        Law law = loom_.branches[branch].law;
        if (std::any_of(car.damage.reads.begin(), car.damage.reads.end(), [&](const auto& one) { return one.first == branch; }))
            law = Law::ohms;
        if (std::find(car.damage.split.begin(), car.damage.split.end(), branch) != car.damage.split.end())
            real.ohms = std::max(1e-6, real.ohms * car.split_at);
        lay(i, ends(car, branch), law, real, car.still[branch]);
    }
    for (std::size_t i = 0; i < leads_.size(); ++i)
        lay(own_.size() + i, {leads_[i].a, leads_[i].b}, leads_[i].law, lead_real(car, leads_[i]), false);
    double damping = 1;
    for (int round = 0; round < most_newton; ++round) {
        entering_ = steady;
        for (Bent& each : bent) {
            const Flow now = flow(each.law, each.real, each.at, each.held);
            siemens_[each.slot] = now.siemens;
            const double constant = now.amps - now.siemens * each.at; // amperes at no volts, on the tangent
            entering_[each.a] -= constant, entering_[each.b] += constant;
        }
        elimination_->solve(siemens_, entering_, volts);
        double furthest = 0;
        for (Bent& each : bent) {
            const double there = volts[each.a] - volts[each.b], step = there - each.at;
            // Where both sides of a corner are straight, what counts is the side.
            const bool same_side = each.law == Law::diode && (there > each.real.volts) == (each.at > each.real.volts);
            if (!same_side) furthest = std::max(furthest, std::abs(step));
            each.at += damping * step;
        }
        if (furthest < 1e-7) return;
        if (round > 20) damping = 0.5;
        if (round > 40) damping = 0.2;
    }
}

double Stand::amperes(const Car& car, const States_of& states, const std::vector<double>& volts, int branch) const {
    if (!there_[branch] || !conducts(car, states, branch)) return 0;
    const auto [a, b] = ends(car, branch);
    Real real = real_of(car, branch);
    Law law = loom_.branches[branch].law;
    if (std::any_of(car.damage.reads.begin(), car.damage.reads.end(), [&](const auto& one) { return one.first == branch; }))
        law = Law::ohms;
    if (std::find(car.damage.split.begin(), car.damage.split.end(), branch) != car.damage.split.end())
        real.ohms = std::max(1e-6, real.ohms * car.split_at);
    return flow(law, real, volts[a] - volts[b], car.still[branch]).amps;
}

double Stand::instrument_amperes(const Car& car, const std::vector<double>& volts) const {
    const Lead& lead = leads_.back();
    return flow(lead.law, lead_real(car, lead), volts[lead.a] - volts[lead.b], false).amps;
}

bool Stand::joined(const Car& car, const States_of& states, const std::vector<double>& volts, int a, int b) const {
    std::vector<int> same(volts.size());
    std::iota(same.begin(), same.end(), 0);
    const auto first = [&](int node) {
        while (same[node] != node)
            node = same[node] = same[same[node]];
        return node;
    };
    for (const int branch : own_) {
        if (!conducts(car, states, branch)) continue;
        const auto [from, to] = ends(car, branch);
        if (loom_.branches[branch].law == Law::diode && flow(Law::diode, car.reals[branch], volts[from] - volts[to], false).amps <= 0)
            continue;
        same[first(from)] = first(to);
    }
    for (const Lead& lead : leads_)
        if (lead.of != Lead::Of::tool) same[first(lead.a)] = first(lead.b);
    return first(a) == first(b);
}

// Several coils on one armature have the same turns: their ampere-turns add up.
bool Stand::pulls(const Car& car, int relay, bool in, const States_of& states, const std::vector<double>& volts) const {
    const Part& part = loom_.plan.parts[relay];
    const double scale = loom_.plan.system > 18 ? 2 : 1;
    const double pulls_in = part.pulls_in ? part.pulls_in->si : loom_.usual["a 12 V relay pulls in"].usual * scale;
    const double drops_out = part.drops_out ? part.drops_out->si : loom_.usual["a 12 V relay drops out"].usual * scale;
    double amperes_now = 0, to_pull = 0, most_ohms = 0;
    for (const int branch : loom_.of_part(relay)) {
        const Branch& each = loom_.branches[branch];
        if (each.element == none || part.elements[each.element].kind != "coil") continue;
        const double ohms = car.sound_ohms[branch];
        to_pull += pulls_in / ohms, most_ohms = std::max(most_ohms, ohms);
        if (!there_[branch] || car.open[branch] || car.copper[branch] <= 0) continue; // shorted turns pull nothing
        amperes_now += amperes(car, states, volts, branch);
    }
    if (most_ohms <= 0) return false;
    return std::abs(amperes_now) >= (in ? drops_out / most_ohms : to_pull);
}

States_of Stand::next(const Car& car, const States_of& states, const std::vector<double>& volts) const {
    States_of made = states;
    for (std::size_t i = 0; i < loom_.plan.parts.size(); ++i) {
        const Part& part = loom_.plan.parts[i];
        const int index = static_cast<int>(i);
        if (part.kind == "relay") made.pulled[i] = car.armature[i] >= 0 && pulls(car, index, states.pulled[i], states, volts);
        if (part.kind != "module") continue;
        made.alive[i] = !car.dead[i] && volts[loom_.supply(index)] - volts[loom_.ground(index)] >= loom_.needs(index);
        for (std::size_t e = 0; e < part.elements.size(); ++e) {
            if (part.elements[e].kind != "input" && part.elements[e].kind != "pull-up") continue;
            const double reads = level(car, volts, index, static_cast<int>(e));
            char& high = made.high[part.elements[e].a];
            if (reads >= loom_.usual["an input reads high from, of its pull-up's or the system's volts"].usual) high = 1;
            if (reads <= loom_.usual["an input reads low up to, of the same"].usual) high = 0;
        }
    }
    return made;
}

int Stand::worst_fuse(const Car& car, const Solved& at, double Car::Blows::*by, double& strain) const {
    int worst = none;
    for (const int branch : own_) {
        if (loom_.branches[branch].gate != Gate::link || car.blown[branch] || car.open[branch]) continue;
        const double now = std::abs(amperes(car, at.states, at.volts, branch)) / (car.blows[branch].*by);
        if (now > strain) strain = now, worst = branch;
    }
    return worst;
}

Rest Stand::settle(Car& car, bool fuses_blow) {
    for (;;) {
        Rest rest;
        States_of states{std::vector<char>(loom_.plan.parts.size()), std::vector<char>(loom_.plan.parts.size()),
                         std::vector<char>(loom_.plan.pins.size())};
        std::vector<Solved> seen;
        std::vector<double> volts = guess_;
        for (int step = 0; step < most_steps; ++step) {
            solve(car, states, volts);
            const auto before = std::find_if(seen.begin(), seen.end(), [&](const Solved& each) { return each.states == states; });
            if (before != seen.end()) {
                rest.cycle.assign(before, seen.end());
                break;
            }
            seen.push_back({volts, states});
            const States_of after = next(car, states, volts);
            if (after == states) {
                rest.cycle = {seen.back()};
                break;
            }
            states = after;
        }
        if (rest.cycle.empty()) rest.cycle = {seen.back()};
        rest.now = rest.cycle.back();
        if (!fuses_blow) return rest;
        double strain = 1;
        int worst = none;
        for (std::size_t i = 0; i + rest.cycle.size() < seen.size() && worst == none; ++i)
            worst = worst_fuse(car, seen[i], &Car::Blows::passing, strain);
        if (worst == none)
            for (const Solved& each : rest.cycle)
                if (const int fuse = worst_fuse(car, each, rest.chatters() ? &Car::Blows::rattling : &Car::Blows::at, strain); fuse != none)
                    worst = fuse;
        if (worst == none) return rest;
        car.blown[worst] = 1;
    }
}

} // namespace oracle
