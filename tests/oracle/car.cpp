#include "oracle/car.hpp"
#include <algorithm>
#include <cmath>

namespace oracle {
namespace {

// LANGUAGE.md, A fuse: times its rating. What passes or rattles counts alike for all fuses of a car, so that their order stays; a passing
// current may leave any fuse whole, so that the last figure only ends the drawing.
constexpr Range blows_at{1.1, 1.2, 1.35};
constexpr double rattling_surely = 6, passing_from = 3.5, passing_most = 50;
constexpr double least_short = 0.002, most_short = 0.05; // ohm where metal meets metal

// The branches that a point names: an element by its pins, a part with all its elements, a wire, a joint.
std::vector<int> named(const Loom& loom, const Point& at) {
    const Plan& plan = loom.plan;
    std::vector<int> found;
    for (std::size_t i = 0; i < loom.branches.size(); ++i) {
        const Branch& each = loom.branches[i];
        const int index = static_cast<int>(i);
        if (at.wire != none) {
            if (each.wire == at.wire) found.push_back(index);
        } else if (at.metal == "joint") {
            if (std::find(each.pins.begin(), each.pins.end(), at.pin) != each.pins.end()) found.push_back(index);
        } else if (!at.pins.empty()) {
            if (each.part != at.part || each.element == none) continue;
            const Element& it = plan.parts[each.part].elements[each.element];
            const int end = each.gate == Gate::contact && !each.make ? it.c : it.b;
            const bool one = at.pins.size() == 1 && it.a == at.pins[0];
            const bool two =
                at.pins.size() == 2 && ((it.a == at.pins[0] && end == at.pins[1]) || (it.a == at.pins[1] && end == at.pins[0]));
            if (one || two) found.push_back(index);
        } else if (at.part != none && (each.part == at.part || (each.part != none && plan.parts[each.part].in == at.part))) {
            found.push_back(index);
        }
    }
    return found;
}

// All that hangs on a splice comes off it.
void open_splice(const Loom& loom, int part, Damage& damage) {
    const int node = loom.wire_side(loom.plan.parts[part].pins.front());
    for (std::size_t i = 0; i < loom.branches.size(); ++i)
        if (loom.branches[i].a == node || loom.branches[i].b == node) damage.open.push_back(static_cast<int>(i));
}

void add_in_series(const Loom& loom, const std::vector<int>& at, double ohms, Damage& damage) {
    for (const int branch : at) {
        const Branch& each = loom.branches[branch];
        if (each.law == Law::ohms || each.law == Law::source) {
            damage.added.emplace_back(branch, ohms);
            continue;
        }
        const int between = loom.nodes + damage.own_nodes++;
        damage.moved.emplace_back(branch, between);
        damage.laid.push_back({between, each.b, ohms});
    }
}

void stick(const Loom& loom, const std::vector<int>& at, bool closed, Damage& damage) {
    for (const int branch : at) {
        const Branch& each = loom.branches[branch];
        (closed ? damage.closed : damage.never).push_back(branch);
        if (closed && each.gate == Gate::contact && loom.plan.parts[each.part].kind == "relay")
            damage.armature.emplace_back(each.part, each.make);
    }
}

} // namespace

Damage damage_of(const Loom& loom, const Fault& fault, Dice& hand) {
    const Plan& plan = loom.plan;
    Damage damage;
    const std::vector<int> at = named(loom, fault.at);
    const Part* part = fault.at.part == none ? nullptr : &plan.parts[fault.at.part];
    const bool whole = fault.at.metal == "whole" && fault.at.pins.empty() && fault.at.wire == none && part;
    const auto drawn_ohms = [&] {
        const double low = fault.value->low(), high = fault.value->high();
        return high > low ? hand.log_between(std::max(low, 1e-6), high) : fault.value->si;
    };
    const auto is_whole = [&](const char* kind) { return whole && part->kind == kind; };
    if (fault.kind == "open" || fault.kind == "blown") {
        if (is_whole("splice"))
            open_splice(loom, fault.at.part, damage);
        else
            damage.open = at;
        if (is_whole("module")) damage.dead.push_back(fault.at.part);
    } else if (fault.kind == "added" && fault.value) {
        add_in_series(loom, at, drawn_ohms(), damage);
    } else if (fault.kind == "reads" && fault.value) {
        for (const int branch : at)
            damage.reads.emplace_back(branch, drawn_ohms());
    } else if (fault.kind == "stuck open" || fault.kind == "stuck closed") {
        stick(loom, at, fault.kind == "stuck closed", damage);
    } else if (fault.kind == "seized") {
        for (const int branch : at)
            if (loom.branches[branch].law == Law::motor) damage.held_still.push_back(branch);
    } else if (fault.kind == "weak") {
        for (const int branch : at)
            if (loom.branches[branch].law == Law::source) damage.weak.emplace_back(branch, 0.92);
        damage.weak_ohms = 8;
    } else if (fault.kind == "aged") { // tried by nobody else: less volts and more ohms, each by itself
        const double volts = hand.between(0.97, 1);
        for (const int branch : at)
            if (loom.branches[branch].law == Law::source) damage.weak.emplace_back(branch, volts);
        damage.weak_ohms = hand.between(1, 20);
    } else if (fault.kind == "to ground" || fault.kind == "to supply" || fault.kind == "touches") {
        const double ohms = fault.value ? drawn_ohms() : hand.log_between(least_short, most_short);
        int spot = none;
        if (fault.at.wire != none && !at.empty()) {
            spot = loom.nodes + damage.own_nodes++;
            damage.split.push_back(at.front());
        } else {
            spot = loom.node(fault.at);
        }
        if (spot != none && fault.kind == "to ground") damage.laid.push_back({spot, loom.body(), ohms});
    }
    return damage;
}

Car::Car(const Loom& loom, Dice& dice, const Damage& wrong, Dice& hand)
    : reals(loom.branches.size()), copper(loom.branches.size()), open(loom.branches.size()), closed(loom.branches.size()),
      still(loom.branches.size()), dead(loom.plan.parts.size()), armature(loom.plan.parts.size()), blows(loom.branches.size()),
      blown(loom.branches.size()), damage(wrong) {
    const double rattling = hand.log_between(1, rattling_surely / blows_at.high),
                 passing = hand.log_between(passing_from / blows_at.low, passing_most);
    for (std::size_t i = 0; i < reals.size(); ++i) {
        reals[i] = loom.branches[i].real(dice);
        if (loom.branches[i].gate == Gate::link) {
            const double at = loom.plan.parts[loom.branches[i].part].rating->si * dice(blows_at);
            blows[i] = {at, at * rattling, at * passing};
        }
        copper[i] = reals[i].ohms;
    }
    sound_ohms = copper;
    for (const auto& [branch, ohms] : wrong.added)
        reals[branch].ohms += ohms;
    for (const auto& [branch, ohms] : wrong.reads)
        reals[branch].ohms = ohms, copper[branch] = 0;
    for (const int branch : wrong.open)
        open[branch] = 1;
    for (const int branch : wrong.never)
        open[branch] = 1;
    for (const int branch : wrong.closed)
        closed[branch] = 1;
    for (const int branch : wrong.held_still)
        still[branch] = 1;
    for (const auto& [relay, in] : wrong.armature)
        armature[relay] = in ? 1 : -1;
    for (const int module : wrong.dead)
        dead[module] = 1;
    for (const auto& [branch, volts] : wrong.weak)
        reals[branch].volts *= volts, reals[branch].ohms *= wrong.weak_ohms;
    split_at = hand.between(0.05, 0.95);
    const Usual& usual = loom.usual;
    const bool perfect = dice.usual();
    const auto gain = [&](double share) { return perfect ? 0 : hand.between(-share, share); };
    meter_gain = gain(0.005), clamp_gain = gain(0.02), ohms_gain = gain(0.008);
    leads = dice(usual["two test leads"]);
    open_volts = dice(usual["an ohmmeter: open volts; 1 mA at most"]);
    in_line = dice(usual["an ammeter in line, with its leads"]);
    lamp_watts = dice(usual["a test lamp, 12 V"]);
    beeps_at = dice(usual["a beeper: sure below, silent above"]);
    lamp_lit_at = dice(usual["a test lamp: dark below, lit above, of its volts"]);
}

} // namespace oracle
