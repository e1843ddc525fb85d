#include "oracle/technician.hpp"
#include <algorithm>
#include <cmath>

namespace oracle {
namespace {

constexpr double margin = 0.05; // LANGUAGE.md, Margins: of what a load needs, and between works and works not
constexpr int most_checks = 60;
constexpr double least_current = 0.01, sure_current = 0.1; // A: nothing up to the one, surely something from the other

} // namespace

std::string End::words(const Plan& plan) const {
    switch (kind) {
    case Kind::verdict: return plan.verdicts[verdict].label;
    case Kind::stop: return "STOP at " + plan.checks[check].label + (jumped ? ", jumps" : " by outcome " + std::to_string(index + 1));
    case Kind::done: return "DONE at " + plan.checks[check].label;
    case Kind::lost: break;
    }
    return "nowhere";
}

std::string Walk::way_words(const Plan& plan) const {
    std::string words;
    for (const auto& [check, index] : way)
        words += plan.checks[check].label + ":" + std::to_string(index + 1) + " ";
    return words + "-> " + end.words(plan);
}

Stand& Workshop::bare(const Setup& setup) { return with(setup, {}); }
Stand& Workshop::with(const Setup& setup, const Probe& probe) {
    auto& stand = stands_[{&setup, {probe.tool, probe.red, probe.black, probe.instead_of}}];
    if (!stand) stand = std::make_unique<Stand>(loom_, setting_of(setup), probe, shape_);
    return *stand;
}

void Edges::note(int part, bool works, double share) {
    const auto [place, is_new] = at.try_emplace(part, 1e9, 0.0);
    if (works)
        place->second.first = std::min(place->second.first, share);
    else
        place->second.second = std::max(place->second.second, share);
}
bool Edges::blurred() const {
    return std::any_of(at.begin(), at.end(), [](const auto& each) { return each.second.first < (1 + margin) * each.second.second; });
}

// Volts of relays' coils and of control units, in every set-up that is met. Of what rattles each round counts: what it gets here decides
// how it stands next.
void Technician::note_edges(const Rest& rest, Stand& stand) {
    for (std::size_t n = 0; n < rest.cycle.size(); ++n) {
        const Solved& now = rest.cycle[n];
        const States_of& next = rest.cycle[(n + 1) % rest.cycle.size()].states;
        for (std::size_t i = 0; i < plan_.parts.size(); ++i) {
            const Part& part = plan_.parts[i];
            const int index = static_cast<int>(i);
            if (part.kind == "module" && !car_.dead[i])
                edges.note(index, next.alive[i], std::max(0.0, now.volts[loom_.supply(index)] - now.volts[loom_.ground(index)]));
            if (part.kind != "relay" || !stand.there_part(index)) continue;
            double share = 0;
            for (const int branch : loom_.of_part(index))
                if (loom_.branches[branch].element != none && part.elements[loom_.branches[branch].element].kind == "coil" &&
                    car_.copper[branch] > 0)
                    share += std::abs(stand.amperes(car_, now.states, now.volts, branch)) * car_.sound_ohms[branch];
            edges.note(index, next.pulled[i], share);
        }
    }
}

void Technician::use_before() {
    const auto use = [&](const Setup& setup) {
        Stand& stand = shop_.bare(setup);
        if (stand.setting().untouched() && stand.setting().understood) stand.settle(car_);
    };
    use(plan_.complaint_with);
    for (const Check& check : plan_.checks)
        use(check.with);
}

// `share` of what it needs: less for an owner, who complains of what is plainly poor only.
bool Technician::part_works(const Solved& at, Stand& stand, int index, double share) {
    const Part& part = plan_.parts[index];
    if (part.kind == "relay") return stand.there_part(index) && at.states.pulled[index];
    if (part.kind == "module") return at.states.alive[index];
    if (part.kind == "assembly") {
        bool all = true;
        for (std::size_t i = 0; i < plan_.parts.size(); ++i)
            if (plan_.parts[i].in == index) all = all && part_works(at, stand, static_cast<int>(i), share);
        return all;
    }
    if (part.kind == "fuse" || part.kind == "breaker") {
        for (const int branch : loom_.of_part(index))
            if (car_.blown[branch] || car_.open[branch]) return false;
        return true;
    }
    for (const int branch : loom_.of_part(index)) {
        const Branch& each = loom_.branches[branch];
        const double volts = std::abs(at.volts[each.a] - at.volts[each.b]);
        if (car_.open[branch] || car_.still[branch]) continue;
        if (std::any_of(car_.damage.reads.begin(), car_.damage.reads.end(), [&](const auto& one) { return one.first == branch; })) continue;
        const double amps = std::abs(stand.amperes(car_, at.states, at.volts, branch));
        if (amps <= 0) continue;
        const double has = each.law == Law::filament
                               ? loom_.filament_lit(each, volts) / loom_.usual["a lamp is lit from, of its volts"].usual
                               : volts / loom_.needs(index);
        if (std::abs(has / share - 1) < margin) nearest = 0;
        if (has >= share) return true;
    }
    return false;
}

bool Technician::state(const Solved& at, Stand& stand, const State& asked, double share) {
    const int index = asked.of.part;
    if (index == none) return understood_ = false;
    const Part& part = plan_.parts[index];
    if (asked.verb == "works") return part_works(at, stand, index, share);
    if (asked.verb == "fails") return !part_works(at, stand, index, share);
    if (part.kind == "fuse" || part.kind == "breaker") return part_works(at, stand, index, share) == (asked.verb == "whole");
    if (part.kind == "relay") return part_works(at, stand, index, share) == (asked.verb != "still");
    const bool works = part_works(at, stand, index, share);
    bool turns = false, glows = false;
    for (const int branch : loom_.of_part(index)) {
        const Branch& each = loom_.branches[branch];
        if (!asked.of.pins.empty() && each.element != none) {
            const Element& it = part.elements[each.element];
            if (std::find(asked.of.pins.begin(), asked.of.pins.end(), it.a) == asked.of.pins.end()) continue;
        }
        if (car_.open[branch] || !stand.there(branch)) continue;
        const bool shorted =
            std::any_of(car_.damage.reads.begin(), car_.damage.reads.end(), [&](const auto& one) { return one.first == branch; });
        if (shorted) continue;
        const double volts = at.volts[each.a] - at.volts[each.b], amps = std::abs(stand.amperes(car_, at.states, at.volts, branch));
        if (each.law == Law::motor && !car_.still[branch]) {
            const Flow held = flow(Law::motor, car_.reals[branch], volts, true);
            turns = turns || (std::abs(held.amps) > amps + 1e-9 && amps > 0);
        }
        if (each.law == Law::filament && amps > 0) {
            const double lit = loom_.filament_lit(each, volts), dark = loom_.usual["a lamp is dark below, of its volts"].usual;
            if (std::abs(lit / dark - 1) < margin) nearest = 0;
            glows = glows || lit >= dark;
        }
    }
    if (part.kind == "lamp") return asked.verb == "lit" ? works : asked.verb == "dark" ? !glows : glows && !works;
    if (part.kind == "motor") {
        if (!asked.from.empty()) return understood_ = false;
        return asked.verb == "runs" ? works && turns : asked.verb == "still" ? !turns : turns && !works;
    }
    return understood_ = false;
}

Holds Technician::holds(const Rest& rest, Stand& stand, const States& states, double share) {
    const auto in = [&](const Solved& at) {
        bool all = true, any = false;
        for (const State& each : states.list) {
            bool it = false;
            if (each.verb == "chatters") {
                for (const Solved& one : rest.cycle)
                    it = it || one.states.pulled[each.of.part] != rest.cycle.front().states.pulled[each.of.part];
            } else {
                it = state(at, stand, each, share);
            }
            all = all && it, any = any || it;
        }
        return states.any ? any : all;
    };
    std::size_t count = 0;
    for (const Solved& each : rest.cycle)
        count += in(each) ? 1 : 0;
    return count == 0 ? Holds::no : count == rest.cycle.size() ? Holds::yes : Holds::chatters;
}

Holds Technician::complains() {
    if (plan_.complaint_is_measured) return understood_ = false, Holds::no;
    const auto there = [&](const Setup& setup, const States& states) {
        Stand& stand = shop_.bare(setup);
        const Rest rest = stand.settle(car_);
        note_edges(rest, stand);
        return holds(rest, stand, states, 1 - margin);
    };
    if (!plan_.complaint.list.empty()) return there(plan_.complaint_with, plan_.complaint);
    // No more than words: something that is used does not do its work.
    for (const Check& check : plan_.checks) {
        Stand& stand = shop_.bare(check.with);
        if (!stand.setting().untouched()) continue;
        States asked{true, {}};
        for (const auto& states : {check.states})
            for (const State& each : states.list)
                asked.list.push_back({each.of, "fails", "", ""});
        if (!asked.list.empty())
            if (const Holds holds = there(check.with, asked); holds != Holds::no) return holds;
    }
    return Holds::no;
}

const Limit* Technician::limit_for(const Check& check, const Row& row) const {
    const Limit* all = nullptr;
    for (const Limit& limit : check.limits) {
        if (!limit.row.empty() && limit.row == row.name) return &limit;
        if (limit.row.empty()) all = &limit;
    }
    return all;
}

// side: -1 low, 1 high, 0 within or neither. A band is a limit too.
bool Technician::within(const Check& check, std::size_t row, const Limit& limit, const Reading& reading, int& side) {
    side = 0;
    if (limit.kind == "open") return reading.kind == Reading::Kind::open;
    if (limit.kind == "yes" || limit.kind == "no") return (reading.kind == Reading::Kind::yes) == (limit.kind == "yes");
    if (reading.kind == Reading::Kind::open) {
        if (limit.kind == "above") return true;
        return side = 1, false;
    }
    double value = reading.shown, truth = reading.value;
    const auto against = [&](double end) {
        if (std::abs(truth - end) <= std::max(margin * std::abs(end), meter_error(plan_, check.measure, truth))) near_ = true;
    };
    if (limit.kind == "within") {
        const auto before = read_.find(limit.of);
        if (before == read_.end()) return understood_ = false;
        const Reading& other = before->second[std::min(row, before->second.size() - 1)];
        // The page gives one sum: the earlier reading less what may be lost, or plus it.
        const bool least = std::any_of(check.ways.begin(), check.ways.end(),
                                       [](const Way& way) { return way.words.find("that or more") != std::string::npos; });
        const double end = other.shown + (least ? -*limit.high : *limit.high);
        against(other.value + (least ? -*limit.high : *limit.high));
        side = least ? (value < end ? -1 : 0) : value > end ? 1 : 0;
        return side == 0;
    }
    if (limit.kind == "below" && value < 0) value = -value, truth = -truth; // a negative reading says: swap the two leads
    if (limit.low) against(*limit.low);
    if (limit.high) against(*limit.high);
    if (limit.low && value < *limit.low) side = -1;
    if (limit.high && value > *limit.high) side = 1;
    return side == 0;
}

std::size_t Technician::outcome_of_look(const Check& check) {
    Stand& stand = shop_.bare(check.with);
    const Rest rest = stand.settle(car_);
    note_edges(rest, stand);
    std::size_t fail = check.outcomes.size(), pass = fail;
    for (std::size_t i = 0; i < check.outcomes.size(); ++i) {
        if (check.outcomes[i].kind == "fail") fail = i;
        if (check.outcomes[i].kind == "pass") pass = i;
    }
    if (!check.states.list.empty() && holds(rest, stand, check.states) == Holds::yes) return pass;
    for (std::size_t i = 0; i < check.outcomes.size(); ++i) // in the order of the page it is the first that fits
        if (check.outcomes[i].kind == "answer" && !check.outcomes[i].states.list.empty() &&
            holds(rest, stand, check.outcomes[i].states) == Holds::yes)
            return i;
    if (check.states.list.empty()) understood_ = false;
    return fail;
}

std::size_t Technician::bad_row(const Check& check, std::size_t row, const Reading& reading, int side) {
    const std::string& name = check.rows.size() > row ? check.rows[row].name : std::string();
    const auto find = [&](const char* kind, bool own) -> std::size_t {
        for (std::size_t i = 0; i < check.outcomes.size(); ++i)
            if (check.outcomes[i].kind == kind &&
                (own ? !check.outcomes[i].row.empty() && check.outcomes[i].row == name : check.outcomes[i].row.empty()))
                return i;
        return check.outcomes.size();
    };
    int unused = 0;
    for (std::size_t i = 0; i < check.outcomes.size(); ++i) {
        const Outcome& each = check.outcomes[i];
        if (each.kind == "band" && each.band && (each.row.empty() || each.row == name) && reading.kind == Reading::Kind::number &&
            within(check, row, *each.band, reading, unused))
            return i;
    }
    for (const bool own : {true, false}) {
        if (reading.kind == Reading::Kind::open)
            if (const std::size_t i = find("open", own); i < check.outcomes.size()) return i;
        if (side != 0)
            if (const std::size_t i = find(side < 0 ? "low" : "high", own); i < check.outcomes.size()) return i;
        if (const std::size_t i = find("fail", own); i < check.outcomes.size()) return i;
    }
    return check.outcomes.size();
}

std::size_t Technician::outcome_of_rows(int index) {
    const Check& check = plan_.checks[index];
    std::vector<Reading>& readings = read_[index];
    readings.clear();
    for (const Row& row : check.rows)
        readings.push_back(read(check, row));
    {
        Stand& stand = shop_.bare(check.with);
        note_edges(stand.settle(car_), stand);
    }
    // Where so little flows that one sees it and another does not, it is drawn who this is.
    const double seen_from = hand_.log_between(least_current, sure_current);
    bool current = true;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        if (readings[i].kind == Reading::Kind::jumps) return ~std::size_t{0};
        current = current && readings[i].current > seen_from;
    }
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const Limit* limit = limit_for(check, check.rows[i]);
        int side = 0;
        if (!limit) return understood_ = false, check.outcomes.size();
        if (!within(check, i, *limit, readings[i], side)) return bad_row(check, i, readings[i], side);
    }
    for (const char* kind : {"no current", "pass"})
        for (std::size_t i = 0; i < check.outcomes.size(); ++i)
            if (check.outcomes[i].kind == kind && (check.outcomes[i].kind == "pass" || !current)) return i;
    return check.outcomes.size();
}

std::size_t Technician::outcome(int index) {
    const Check& check = plan_.checks[index];
    const Setting setting = setting_of(check.with);
    if (!setting.understood || check.measure == "read" || check.measure == "nothing") return understood_ = false, check.outcomes.size();
    return check.measure == "look" ? outcome_of_look(check) : outcome_of_rows(index);
}

Walk Technician::walk(const std::function<bool(int)>& blames) {
    Walk walk;
    near_ = false, understood_ = true, nearest = 1;
    int at = 0;
    for (int steps = 0; steps < most_checks; ++steps) {
        const Check& check = plan_.checks[at];
        const std::size_t index = outcome(at);
        walk.way.emplace_back(at, index);
        if (index == ~std::size_t{0}) {
            walk.end = {End::Kind::stop, none, at, index, true};
            break;
        }
        const auto way = std::find_if(check.ways.begin(), check.ways.end(), [&](const Way& each) { return each.index == index; });
        std::string sign = way == check.ways.end() ? "" : way->sign;
        if (sign == "STOP" || sign == "DONE") {
            walk.end = {sign == "STOP" ? End::Kind::stop : End::Kind::done, none, at, index, false};
            break;
        }
        for (std::size_t v = 0; v < plan_.verdicts.size(); ++v)
            if (plan_.verdicts[v].sign == sign) {
                walk.end = {End::Kind::verdict, static_cast<int>(v), none, 0, false};
                sign = blames(static_cast<int>(v)) ? "" : plan_.verdicts[v].goes_on; // what is blamed is mended; the car is well
                break;
            }
        if (sign.empty()) break;
        const auto next = std::find_if(plan_.checks.begin(), plan_.checks.end(), [&](const Check& each) { return each.sign == sign; });
        if (next == plan_.checks.end()) break;
        walk.end = {};
        at = static_cast<int>(next - plan_.checks.begin());
    }
    walk.near = near_ || nearest < 1;
    walk.understood = understood_;
    return walk;
}

} // namespace oracle
