// What instruments show.
#include "oracle/technician.hpp"
#include <algorithm>
#include <cmath>

namespace oracle {
namespace {

// The last place of a display of 2000 steps.
double step_of(const std::string& measure, double value) {
    const bool ohms = measure == "ohms" || measure == "continuity";
    double full = ohms ? 200 : 2, step = ohms ? 0.1 : 0.001;
    while (std::abs(value) >= full && full < 1e9)
        full *= 10, step *= 10;
    return step;
}
bool is_volts(const std::string& measure) { return measure == "volts" || measure == "drop"; }

} // namespace

double meter_error(const Plan& plan, const std::string& measure, double value) {
    const std::string function = is_volts(measure) ? "volts" : measure == "continuity" ? "ohms" : measure;
    for (const auto& [name, within] : plan.meters)
        if (name == function) return within;
    const double step = step_of(measure, value), size = std::abs(value);
    if (function == "volts") return 0.005 * size + 2 * step;
    if (function == "ohms") return 0.008 * size + 2 * step;
    if (function == "amps") return 0.015 * size + 3 * step;
    return 0.02 * size + 10 * step;
}

double Technician::shown(const std::string& measure, double value) {
    const double error = meter_error(plan_, measure, value);
    const bool said = std::any_of(plan_.meters.begin(), plan_.meters.end(),
                                  [&](const auto& row) { return row.first == measure || (row.first == "volts" && is_volts(measure)); });
    const double gain = is_volts(measure) ? car_.meter_gain : measure == "clamp" ? car_.clamp_gain : car_.ohms_gain;
    const double share = is_volts(measure) ? 0.005 : measure == "clamp" ? 0.02 : measure == "amps" ? 0.015 : 0.008;
    // The gain is the instrument's own, the digits come as they come.
    const double proportional = share * std::abs(value), rest = error - proportional;
    if (said || rest < 0) return value + (car_.meter_gain == 0 ? 0 : hand_.between(-error, error));
    return value + gain * value + (car_.meter_gain == 0 ? 0 : hand_.between(-rest, rest));
}

// Amperes on the nearest way of metal between the points, in one of its wires, as the hand takes it; without a wire the most of what is
// there. 0 where there is no way.
double Technician::along(Stand& stand, const Rest& rest, const Probe& probe) {
    std::vector<int> by(loom_.nodes, none); // the branch that a node was reached by
    std::vector<int> queue{probe.red};
    const auto far = [&](int branch, int node) {
        return loom_.branches[branch].a == node   ? loom_.branches[branch].b
               : loom_.branches[branch].b == node ? loom_.branches[branch].a
                                                  : none;
    };
    for (std::size_t next = 0; next < queue.size() && by[probe.black] == none; ++next)
        for (std::size_t i = 0; i < loom_.branches.size(); ++i) {
            const int branch = static_cast<int>(i), there = far(branch, queue[next]);
            if (there == none || there == probe.red || by[there] != none || !loom_.branches[i].carries()) continue;
            if (!stand.there(branch) || !stand.conducts(car_, rest.now.states, branch)) continue;
            by[there] = branch;
            queue.push_back(there);
        }
    double most = 0;
    std::vector<double> in_wires;
    for (int node = probe.black; by[node] != none; node = far(by[node], node)) {
        const double amps = std::abs(stand.amperes(car_, rest.now.states, rest.now.volts, by[node]));
        most = std::max(most, amps);
        if (loom_.branches[by[node]].wire != none) in_wires.push_back(amps);
    }
    return in_wires.empty() ? most : in_wires[hand_.number(in_wires.size())];
}

Reading Technician::read(const Check& check, const Row& row) {
    const std::string& how = check.measure;
    Reading made;
    if (how == "clamp") {
        Stand& stand = shop_.bare(check.with);
        const Rest rest = stand.settle(car_);
        if (rest.chatters()) return {Reading::Kind::jumps};
        double sum = 0;
        for (std::size_t i = 0; i < loom_.branches.size(); ++i) {
            const Branch& each = loom_.branches[i];
            if (each.wire == none) continue;
            const Wire& wire = plan_.wires[each.wire];
            const double amps = stand.amperes(car_, rest.now.states, rest.now.volts, static_cast<int>(i));
            if (row.red.wire != none ? each.wire == row.red.wire : wire.from == row.red.pin)
                sum += amps;
            else if (row.red.wire == none && wire.to == row.red.pin)
                sum -= amps;
        }
        made.value = std::abs(sum);
        made.shown = std::abs(shown(how, made.value));
        return made;
    }
    Probe probe{Tool::voltmeter, loom_.node(row.red), loom_.node(row.black)};
    if (how == "amps") {
        for (std::size_t i = 0; i < loom_.branches.size(); ++i) {
            const Branch& each = loom_.branches[i];
            const bool link = row.red.part != none && each.part == row.red.part && each.gate == Gate::link;
            if (link)
                probe = {Tool::ammeter, loom_.wire_side(plan_.parts[each.part].pins[0]), loom_.wire_side(plan_.parts[each.part].pins[1]),
                         static_cast<int>(i)};
            if (row.red.wire != none && each.wire == row.red.wire) probe = {Tool::ammeter, each.a, each.b, static_cast<int>(i)};
        }
        if (probe.tool != Tool::ammeter) probe = {};
    }
    if (how == "ohms" || how == "continuity") probe.tool = Tool::ohmmeter;
    if (how == "testlamp") probe.tool = Tool::testlamp;
    if (probe.red == none || probe.black == none || how == "volts ac") {
        understood_ = false;
        return made;
    }
    Stand& stand = shop_.with(check.with, probe);
    const Rest rest = stand.settle(car_);
    if (rest.chatters()) return {Reading::Kind::jumps};
    const double volts = rest.now.volts[probe.red] - rest.now.volts[probe.black];
    const bool joined = stand.joined(car_, rest.now.states, rest.now.volts, probe.red, probe.black);
    if (is_volts(how)) {
        made.floats = !joined;
        made.value = joined ? volts : car_.meter_gain == 0 ? 0 : hand_.between(-0.04, 0.04) * plan_.system;
        made.shown = shown(how, made.value);
        if (how == "drop") made.current = along(stand, rest, probe);
    } else if (probe.tool == Tool::ammeter) {
        made.value = std::abs(stand.instrument_amperes(car_, rest.now.volts));
        made.shown = std::abs(shown(how, made.value));
    } else if (probe.tool == Tool::testlamp) {
        made.value = volts;
        made.kind = std::abs(volts) >= car_.lamp_lit_at * plan_.system ? Reading::Kind::yes : Reading::Kind::no;
    } else {
        const double amps = -stand.instrument_amperes(car_, rest.now.volts);
        if (!joined || amps <= 1e-9) return {how == "ohms" ? Reading::Kind::open : Reading::Kind::no};
        made.value = volts / amps + car_.leads;
        made.shown = std::max(0.0, shown("ohms", made.value));
        if (how == "continuity") made.kind = made.value < car_.beeps_at ? Reading::Kind::yes : Reading::Kind::no;
    }
    return made;
}

} // namespace oracle
