#include "proof/readings.hpp"
#include "circuit/extent.hpp"
#include "circuit/fault.hpp"
#include "circuit/setting.hpp"
#include "circuit/situation.hpp"
#include "faults/together.hpp"
#include "proof/computed.hpp"
#include "proof/reading_table.hpp"
#include "proof/words.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace loomsheet {
namespace {

constexpr double most_residual = 0.01, most_burden = 0.02; // shares: of the test current, of the reading
constexpr double most_in_line = 10;                        // A: the jack of a meter is fused there, common practice
constexpr double least_carried = 1e-3;                     // A: less drops nothing that a meter shows, even in 5 ohm
constexpr double noise = 0.02;                             // V, A: the last digits of a display

struct Look { // one row and all that is said of it
    const Plan& plan;
    const Predictor& sound;
    const Check& check;
    const Row& row;
    const RowPrediction& made;
    Findings& findings;

    const Circuit& circuit() const { return plan.circuit; }
    const Reading& reading() const { return made.reading; }
    // Its own limit, or the one that holds for all rows; else the row itself.
    Span limit_at() const { return made.limit && made.limit->at.end > made.limit->at.begin ? made.limit->at : row.at; }
    std::string name() const { return row.name.empty() ? std::string() : fmt::format("\"{}\": ", row.name); }
    std::string range_of(const Reading& of) const {
        return is_nothing(of) ? "0 " + std::string(unit()) : range_words(circuit(), of, check.measure);
    }
    // Dead: what the display shows is its own noise.
    bool is_nothing(const Reading& of) const {
        return of.kind == ReadingKind::number && !is_ohms(check.measure) && std::max(-of.low, of.high) <= noise;
    }
    std::string_view unit() const { return is_current(check.measure) ? "A" : "V"; }
    // The limit as the plan has it, no wider than it must be; or the one that the circuit gives.
    std::string write_widened() const { return write(widened_limit(circuit(), check.measure, reading(), *made.limit)); }
    std::string write_computed() const { return write(computed_limit(circuit(), check.measure, reading())); }
    std::string write(const std::optional<Limit>& limit) const {
        return limit ? fmt::format("write `{}`, or leave `expect` out: it is computed then", expect(*limit)) : std::string();
    }
    std::string expect(const Limit& limit) const {
        const std::string of_row = check.rows.size() > 1 ? fmt::format("\"{}\" ", row.name) : std::string();
        return fmt::format("expect {}{}", of_row, written_limit(plan, limit));
    }
    std::string points() const { return fmt::format("{} to {}", point(row.red), point(row.black)); }
    std::string point(const PointRef& of) const { return written_point(circuit(), of); }
    std::string minus_clamp() const {
        const auto battery =
            std::find_if(circuit().parts.begin(), circuit().parts.end(), [](const Part& part) { return part.kind == PartKind::battery; });
        return battery == circuit().parts.end() ? std::string("the battery") : battery->id + ".-";
    }
    // Where a clamp would go round: the wire at the socket of what was pulled for the meter, else the point itself.
    std::string clamp_instead() const {
        std::string at = point(row.red);
        if (row.red.pin == none && row.red.part != none)
            for (const PinId pin : circuit().parts[row.red.part].pins)
                if (const auto wires = circuit().wires_at(pin); wires.size() == 1) at = circuit().wires[wires.front()].id;
        return fmt::format("write `clamp {}`, nothing taken out", at);
    }
};

// --- LS605, LS614, LS615, LS616, LS619, LS620: where there is no number
// ------------------------------------------------------
bool is_relay(const Look& look, const InDoubt& each) { return look.circuit().parts[each.part].kind == PartKind::relay; }

// "U2.S" of an input, "K5 (Fan relay)".
std::string device_name(const Look& look, const InDoubt& each) {
    return each.input == none ? look.circuit().part_name(each.part) : look.circuit().pin_name(each.input);
}
std::string goes_on(const Look& look, const InDoubt& each) {
    return each.input != none ? "read high" : is_relay(look, each) ? "pull in" : "start";
}

std::string chatters_words(const Look& look) {
    if (look.reading().in_doubt.empty()) return "the circuit comes to no rest in this set-up";
    const InDoubt& each = look.reading().in_doubt.front();
    return fmt::format("{} {} without end in this set-up", device_name(look, each),
                       each.input != none     ? "reads high and low"
                       : is_relay(look, each) ? "pulls in and lets go"
                                              : "starts and stops");
}

std::string history_words(const Look& look) {
    const std::vector<InDoubt>& doubts = look.reading().in_doubt;
    if (doubts.empty()) return "what this reads hangs on what was on before";
    const auto too_little = std::find_if(doubts.begin(), doubts.end(), [](const InDoubt& each) { return each.low > each.off; });
    if (too_little == doubts.end())
        return fmt::format("what this reads hangs on what was on before: once on, {} holds itself", device_name(look, doubts.front()));
    return fmt::format("what this reads hangs on what was on before: {} gets {:.1f} V, too little to {} ({} V) and enough to hold on",
                       device_name(look, *too_little), too_little->low, goes_on(look, *too_little), number_words(too_little->on));
}

bool not_at_rest(const Look& look, int code, const std::string& says, std::string help) {
    const bool as_it_stands = look.made.limit && look.made.limit->not_computed;
    if (!as_it_stands) look.findings.add(code, look.check.at, look.name() + says, std::move(help));
    return false;
}

bool prove_number(const Look& look) {
    const auto add = [&](int code, Span at, const std::string& says, std::string help) {
        look.findings.add(code, at, look.name() + says, std::move(help));
        return false;
    };
    switch (look.reading().kind) {
    case ReadingKind::beyond:
        if (look.made.limit && !look.made.limit->not_computed)
            return add(finding::beyond_what_is_computed, look.row.at,
                       fmt::format("what this reads is not computed: {}", look.reading().why),
                       "where the limit is the maker's, write `not computed` behind it");
        if (!look.made.limit)
            return add(finding::limit_not_computed, look.row.at, fmt::format("no limit can be computed here: {}", look.reading().why),
                       "write `expect` with the maker's limit and `not computed` behind it");
        return false;
    case ReadingKind::floating:
        return add(finding::points_float, look.row.at,
                   fmt::format("nothing joins {} and {} in this set-up: the meter shows a ghost, whatever is wrong",
                               look.point(look.row.red), look.point(look.row.black)),
                   "`with` is the whole set-up: leave on and switch on what joins the two points");
    case ReadingKind::chatters:
        return not_at_rest(look, finding::circuit_chatters, chatters_words(look),
                           "look for a relay whose own contact feeds its coil; where that is meant, write `not "
                           "computed` behind the limit");
    case ReadingKind::history:
        return not_at_rest(look, finding::depends_on_before, history_words(look),
                           "say in `with` what makes it certain: what is on, or what is pulled");
    default: return true;
    }
}

void prove_certain(const Look& look) {
    for (const InDoubt& each : look.reading().in_doubt) {
        const bool relay = is_relay(look, each), input = each.input != none, lets_go = each.low <= each.off && each.high < each.on;
        const std::string sure = lets_go
                                     ? fmt::format("{} for sure only up to {} V: on a sound car it may {}", input ? "reads low" : "lets go",
                                                   number_words(each.off), input ? "read high" : "stay in")
                                     : fmt::format("{} for sure only from {} V: on a sound car it may not",
                                                   input   ? "reads high"
                                                   : relay ? "pulls in"
                                                           : "works",
                                                   number_words(each.on));
        look.findings.add(finding::relay_in_doubt, look.check.at,
                          fmt::format("{} gets {:.1f} .. {:.1f} V here, and {}", device_name(look, each), each.low, each.high, sure),
                          relay   ? "take what is in series with its coil out of this set-up"
                          : input ? "take what is in series with the switch out of this set-up"
                                  : "feed it fully in this set-up");
    }
}

// --- LS606, LS609, LS610, LS612: the instrument and what flows
// ----------------------------------------------------------------
bool prove_instrument(const Look& look) {
    const Reading& reading = look.reading();
    if (is_ohms(look.check.measure) && reading.residual > most_residual) {
        look.findings.add(finding::ohms_where_current_flows, look.row.at,
                          fmt::format("{}a current flows here already, {} A, and an ohmmeter tests with {} A: `{}` reads false",
                                      look.name(), fmt::format("{:.3g}", reading.residual * ohms_test_amps), ohms_test_amps,
                                      measure_word(look.check.measure)),
                          fmt::format("add `{} disconnected` to the set-up, or write `drop` instead", look.minus_clamp()));
        return false;
    }
    if (look.check.measure == MeasureKind::amps && reading.kind == ReadingKind::number) {
        if (reading.bare_high > most_in_line) {
            look.findings.add(finding::more_amperes_than_meter_carries, look.row.at,
                              fmt::format("{}{} would flow through the meter: its jack carries {:.0f} A", look.name(),
                                          look.range_of(reading), most_in_line),
                              look.clamp_instead());
            return false;
        }
        if (reading.burden > most_burden)
            look.findings.add(
                finding::meter_changes_reading, look.row.at,
                fmt::format("{}the meter in line has {} ohm with its leads and takes {:.0f} % off the current that it measures",
                            look.name(), usual(Usual::in_line).value, reading.burden * 100),
                look.clamp_instead());
    }
    if (look.check.measure == MeasureKind::drop && reading.carried < least_carried) {
        look.findings.add(finding::drop_where_nothing_flows, look.row.at,
                          fmt::format("{}no current to speak of flows from {} here: a good joint and a bad one both read 0 V", look.name(),
                                      look.points()),
                          "switch the load on in `with`: a drop needs its current");
        return false;
    }
    return true;
}

// --- LS601 to LS604, LS621: the limits
// ----------------------------------------------------------------------------------------- What a reading can come to
// at all: nothing, or all that the supply gives.
double most_volts(const Look& look) {
    double most = 0;
    for (const std::vector<ParameterId>& emfs : look.sound.parameters().emf)
        for (const ParameterId emf : emfs)
            most = std::max(most, look.sound.parameters().list[emf].high);
    return most;
}

bool nothing_misses(const Look& look, const Limit& limit) {
    const bool running = Situation(look.circuit(), look.check.with).running(); // an alternator that is not held gives more
    const bool volts = !running && (look.check.measure == MeasureKind::volts || look.check.measure == MeasureKind::drop);
    switch (limit.kind) {
    case LimitKind::below: return volts && limit.high->si >= most_volts(look);
    case LimitKind::above: return limit.low->si <= 0;
    case LimitKind::range: return volts && limit.low->si <= 0 && limit.high->si >= most_volts(look);
    case LimitKind::within: return volts && limit.high->si >= most_volts(look);
    case LimitKind::open:
    case LimitKind::yes:
    case LimitKind::no: break;
    }
    return false;
}

// ± that the meter has at the edge that decides.
double error_at(const Look& look, const Limit& limit) {
    const MeasureKind measure = look.check.measure;
    const bool ohms = measure == MeasureKind::ohms;
    const Meter meter = meter_for(look.circuit(), shown_as(measure));
    const double edge = limit.kind == LimitKind::within ? 0 : limit.high ? limit.high->si : 0;
    return meter.error(edge) * (limit.kind == LimitKind::within ? 2 : 1) + (ohms ? usual(Usual::leads).high : 0);
}

bool is_blunt(const Look& look, const Limit& limit) {
    switch (limit.kind) {
    case LimitKind::below:
    case LimitKind::within: return limit.high->si < error_at(look, limit);
    case LimitKind::range: return limit.high->si - limit.low->si < 2 * error_at(look, limit);
    case LimitKind::above:
    case LimitKind::open:
    case LimitKind::yes:
    case LimitKind::no: break;
    }
    return false;
}

std::string how_many_fail(const Look& look, const Reading& compared) {
    if (look.made.fit == Fit::fails) return "all of them fail";
    Reading likely = compared;
    likely.low = compared.likely_low, likely.high = compared.likely_high;
    return compared.kind == ReadingKind::number && fit_of(likely, *look.made.limit, look.check.measure) == Fit::passes
               ? "a few of them fail"
               : "some of them fail";
}

// "sound cars read 12.3 .. 12.9 V", "on sound cars the test lamp is dark"
std::string sound_cars(const Look& look, const Reading& reading) {
    const bool beeper = look.check.measure == MeasureKind::continuity;
    const std::string_view shows = beeper ? "the meter" : "the test lamp";
    switch (reading.kind) {
    case ReadingKind::yes: return fmt::format("on sound cars {} {}", shows, beeper ? "beeps" : "is lit");
    case ReadingKind::no: return fmt::format("on sound cars {} is {}", shows, beeper ? "silent" : "dark");
    case ReadingKind::unsure:
        if (beeper) return fmt::format("sound cars have {:.0f} .. {:.0f} ohm, and the meter may beep or not", reading.low, reading.high);
        return fmt::format("on sound cars the test lamp gets {:.1f} .. {:.1f} V and may glow or not", reading.low, reading.high);
    default: return "sound cars read " + look.range_of(reading);
    }
}

// Whether it was said.
bool prove_sign(const Look& look) {
    const std::optional<Limit>& limit = look.made.limit;
    if (limit && (limit->not_computed || limit->kind == LimitKind::within)) return false;
    const bool positive = !limit || (limit->high && limit->high->si > 0) || (limit->low && limit->low->si >= 0);
    if (!positive || look.reading().kind != ReadingKind::number || look.reading().bare_high >= -noise) return false;
    look.findings.add(
        finding::reading_below_zero, look.row.at,
        fmt::format("{}sound cars read {}, below zero: the two leads lie the wrong way round", look.name(), look.range_of(look.reading())),
        fmt::format("write `{} {} to {}`", measure_word(look.check.measure), look.point(look.row.black), look.point(look.row.red)));
    return true;
}

void prove_limit(const Look& look) {
    if (!look.made.limit || look.made.limit->not_computed) return;
    const Limit& limit = *look.made.limit;
    const std::string says = written_limit(look.plan, limit);
    const Reading& compared = look.made.difference ? *look.made.difference : look.reading();
    if (compared.kind == ReadingKind::number && nothing_misses(look, limit)) {
        const std::string why = limit.high ? fmt::format(" (no supply gives more than {:.1f} V)", most_volts(look)) : std::string();
        look.findings.add(finding::limits_miss_nothing, look.limit_at(),
                          fmt::format("{}nothing can miss `{}`: this check passes whatever is wrong{}", look.name(), says, why),
                          look.write_computed());
        return;
    }
    if (compared.kind == ReadingKind::number && is_blunt(look, limit)) {
        look.findings.add(
            finding::meter_cannot_resolve, look.limit_at(),
            fmt::format("{}the meter{} reads ±{} here: it cannot tell `{}` from a miss", look.name(),
                        look.check.measure == MeasureKind::ohms ? " with its leads" : "",
                        value_words(error_at(look, limit), look.check.measure == MeasureKind::ohms ? 0.1 : 1e-3, look.check.measure), says),
            look.check.measure == MeasureKind::ohms ? "write `drop`, with the load on"
            : limit.kind == LimitKind::within
                ? fmt::format("write at least `within {}`", value_words(rounded_up(error_at(look, limit), 0.01), 0.01, look.check.measure))
                : look.write_widened());
        return;
    }
    if (look.made.fit != Fit::may_miss && look.made.fit != Fit::fails) return;
    if (look.made.difference && compared.kind != ReadingKind::number) return; // the earlier reading has its own finding
    const bool none_passes = look.made.fit == Fit::fails;
    if (look.made.difference) {
        const double off = std::max(std::abs(compared.low), std::abs(compared.high));
        look.findings.add(none_passes ? finding::no_sound_car_meets_limits : finding::sound_car_may_miss_limits, look.limit_at(),
                          fmt::format("{}sound cars differ by {}, and the limit is {}: {}", look.name(), look.range_of(compared), says,
                                      how_many_fail(look, compared)),
                          fmt::format("write `expect within {} of {}`", value_words(rounded_up(off, 0.1), 0.1, look.check.measure),
                                      look.plan.checks[limit.reference].label));
        return;
    }
    const std::string help = compared.may_be_open
                                 ? "the meter's own volts decide whether the diode conducts: write `drop` over it, with its load on"
                             : !none_passes              ? look.write_widened()
                             : look.is_nothing(compared) ? "`with` is the whole set-up: does it lack what must be on?"
                                                         : look.write_computed();
    look.findings.add(
        none_passes ? finding::no_sound_car_meets_limits : finding::sound_car_may_miss_limits, look.limit_at(),
        fmt::format("{}{}, and the limit is {}: {}", look.name(), sound_cars(look, compared), says, how_many_fail(look, compared)), help);
}

// A look that no sound car passes, or not every one.
void prove_look(const Plan& plan, const Predictor& sound, const Check& check, const CheckPrediction& made, Findings& findings) {
    const auto is_good = [](const State& state) { return shows(state.verb, Doing::well); };
    const auto& states = check.look_states.list;
    if (states.empty() || !std::all_of(states.begin(), states.end(), is_good)) return;
    if (made.look == Truth::no)
        findings.add(finding::no_sound_car_meets_limits, check.measure_at, "on a sound car the answer is always NO in this set-up",
                     "`with` is the whole set-up: say all that must be on, and leave on what must be plugged in");
    const PartId load = states.front().of.part;
    if (made.look != Truth::maybe || states.size() != 1 || load == none || !is_load(plan.circuit.parts[load].kind)) return;
    const std::optional<Extent> volts = sound.load_volts(setup_of(check), load);
    if (!volts || volts->low <= 0) return; // one that may get nothing: by a fuse or a relay, which has a finding of its own
    const double needs = needs_of(plan.circuit.parts[load], sound.parameters().system_volts);
    findings.add(
        finding::sound_car_may_miss_limits, check.measure_at,
        fmt::format("on a sound car the answer may be NO: {} needs {:.1f} V and gets {:.1f} .. {:.1f} V here", plan.circuit.part_name(load),
                    needs, volts->low, volts->high),
        fmt::format("where it does its work with less, write `needs` with those volts in {}; else say in `with` what feeds it better",
                    plan.circuit.parts[load].id));
}

} // namespace

void prove_readings(const Plan& plan, const Predictor& sound, const Prediction& prediction, Findings& findings) {
    for (std::size_t i = 0; i < plan.checks.size(); ++i) {
        const Check& check = plan.checks[i];
        if (check.measure == MeasureKind::look) prove_look(plan, sound, check, prediction[i], findings);
        if (!row_of(check.measure).computed) continue;
        for (std::size_t r = 0; r < check.rows.size(); ++r) {
            const Look look{plan, sound, check, check.rows[r], prediction[i].rows[r], findings};
            if (!prove_number(look)) {
                if (look.reading().kind == ReadingKind::chatters || look.reading().kind == ReadingKind::history) break;
                continue;
            }
            if (r == 0) prove_certain(look);
            if (!prove_instrument(look)) continue;
            if (prove_way(plan, sound, check, check.rows[r], prediction[i].rows[r], findings)) continue;
            if (look.reading().in_doubt.empty() && !prove_sign(look)) prove_limit(look);
        }
    }
    prove_use(plan, sound, findings);
}

} // namespace loomsheet
