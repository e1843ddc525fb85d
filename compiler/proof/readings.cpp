#include "proof/readings.hpp"
#include "circuit/fault.hpp"
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
constexpr double least_carried = 0.01;                     // A: less drops nothing that a meter shows

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
    std::string reads() const { return words_of(reading()); }
    // "12.36 .. 12.94 V, most of them 12.5 .. 12.8 V"
    std::string words_of(const Reading& of) const {
        std::string words = range_words(circuit(), of, check.measure);
        Reading likely = of;
        likely.low = of.likely_low, likely.high = of.likely_high;
        if (of.kind == ReadingKind::number) words += fmt::format(", most of them {}", range_words(circuit(), likely, check.measure));
        return words;
    }
    std::string write_instead() const {
        const auto limit = made.limit ? widened_limit(circuit(), check.measure, reading(), *made.limit)
                                      : computed_limit(circuit(), check.measure, reading());
        return limit ? fmt::format("write `expect {}`, or leave `expect` out: it is computed then", written_limit(plan, *limit))
                     : std::string();
    }
};

bool is_ohms(MeasureKind measure) { return measure == MeasureKind::ohms || measure == MeasureKind::continuity; }

// --- LS605, LS614, LS615, LS616, LS619, LS620: where there is no number ------------------------------------------------------
bool prove_number(const Look& look) {
    const auto add = [&](int code, Span at, std::string says, std::string help) {
        look.findings.add(code, at, look.name() + says, std::move(help));
        return false;
    };
    switch (look.reading().kind) {
    case ReadingKind::beyond:
        if (look.made.limit && !look.made.limit->not_computed)
            return add(619, look.row.at, fmt::format("what this reads is not computed: {}", look.reading().why),
                       "take the limit from the maker's data, and write `not computed` behind it");
        if (!look.made.limit)
            return add(620, look.row.at, fmt::format("no limit can be computed here: {}", look.reading().why),
                       "write `expect` with the maker's limit, and `not computed` behind it");
        return false;
    case ReadingKind::floating:
        return add(605, look.row.at,
                   fmt::format("nothing joins {} and {} in this set-up: the meter shows a ghost, whatever is wrong",
                               written_point(look.circuit(), look.row.red), written_point(look.circuit(), look.row.black)),
                   "put the black lead on G1.- or `ground`, or leave on what joins the two points");
    case ReadingKind::chatters:
        return add(615, look.check.at, "the circuit comes to no rest in this set-up: a relay or a diode goes on and off",
                   "look for a relay whose own contact feeds its coil");
    case ReadingKind::history:
        return add(616, look.check.at, "what this reads hangs on what was on before: a relay holds itself, or its coil gets too little to pull in and enough to hold",
                   "say in `with` what makes it certain, such as `K5 pulled`");
    default: return true;
    }
}

void prove_certain(const Look& look) {
    for (const InDoubt& each : look.reading().in_doubt) {
        const Part& part = look.circuit().parts[each.part];
        const bool relay = part.kind == PartKind::relay;
        look.findings.add(614, look.check.at,
                          fmt::format("{} gets {:.1f} .. {:.1f} V here: {} surely from {} V and surely not up to {} V, so it may do either on a sound car",
                                      look.circuit().part_name(each.part), each.low, each.high, relay ? "it pulls in" : "it works",
                                      number_words(each.on), number_words(each.off)),
                          relay ? "take what is in series with its coil out of this set-up" : "feed it fully in this set-up");
    }
}

// --- LS606, LS609, LS610, LS612: the instrument and what flows ----------------------------------------------------------------
bool prove_instrument(const Look& look) {
    const Reading& reading = look.reading();
    if (is_ohms(look.check.measure) && reading.residual > most_residual) {
        look.findings.add(606, look.row.at,
                          fmt::format("{}what flows here already is {:.0f} % of the test current: `{}` reads false", look.name(),
                                      reading.residual * 100, measure_word(look.check.measure)),
                          "switch everything off, or write `drop` instead");
        return false;
    }
    if (look.check.measure == MeasureKind::amps && reading.kind == ReadingKind::number) {
        if (reading.bare_high > most_in_line) {
            look.findings.add(609, look.row.at,
                              fmt::format("{}{} would flow through the meter: its jack carries {:.0f} A", look.name(), range_words(look.circuit(), reading, look.check.measure), most_in_line),
                              fmt::format("write `clamp {}`", written_point(look.circuit(), look.row.red)));
            return false;
        }
        if (reading.burden > most_burden)
            look.findings.add(610, look.row.at,
                              fmt::format("{}the meter in line takes {:.0f} % off what it measures", look.name(), reading.burden * 100),
                              fmt::format("write `clamp {}`", written_point(look.circuit(), look.row.red)));
    }
    if (look.check.measure == MeasureKind::drop && reading.carried < least_carried) {
        look.findings.add(612, look.row.at,
                          fmt::format("{}no current flows from {} to {} here: a sound and a broken way both read 0 V", look.name(),
                                      written_point(look.circuit(), look.row.red), written_point(look.circuit(), look.row.black)),
                          "switch the load on in `with`, or write `volts` to G1.- with a test load");
        return false;
    }
    return true;
}

// --- LS601 to LS604, LS621: the limits -----------------------------------------------------------------------------------------
// What a reading can come to at all: nothing, or all that the supply gives.
double most_volts(const Look& look) {
    double most = 0;
    for (const std::vector<ParameterId>& emfs : look.sound.parameters().emf)
        for (const ParameterId emf : emfs)
            most = std::max(most, look.sound.parameters().list[emf].high);
    return most;
}

bool nothing_misses(const Look& look, const Limit& limit) {
    const bool volts = look.check.measure == MeasureKind::volts || look.check.measure == MeasureKind::drop;
    switch (limit.kind) {
    case LimitKind::below: return volts && limit.high->si >= most_volts(look);
    case LimitKind::above: return limit.low->si <= 0;
    case LimitKind::range: return volts && limit.low->si <= 0 && limit.high->si >= most_volts(look);
    case LimitKind::within: return volts && limit.high->si >= most_volts(look);
    default: return false;
    }
}

// ± that the meter has at the edge that decides.
double error_at(const Look& look, const Limit& limit) {
    const MeasureKind measure = look.check.measure;
    const bool ohms = measure == MeasureKind::ohms;
    const Meter meter = meter_for(look.circuit(), ohms                            ? MeterFunction::ohms
                                                  : measure == MeasureKind::amps  ? MeterFunction::amps
                                                  : measure == MeasureKind::clamp ? MeterFunction::clamp
                                                                                  : MeterFunction::volts);
    const double edge = limit.kind == LimitKind::within ? 0 : limit.high ? limit.high->si : 0;
    return meter.error(edge) * (limit.kind == LimitKind::within ? 2 : 1) + (ohms ? usual(Usual::leads).high : 0);
}

bool is_blunt(const Look& look, const Limit& limit) {
    switch (limit.kind) {
    case LimitKind::below:
    case LimitKind::within: return limit.high->si < error_at(look, limit);
    case LimitKind::range: return limit.high->si - limit.low->si < 2 * error_at(look, limit);
    default: return false;
    }
}

void prove_limit(const Look& look) {
    if (!look.made.limit || look.made.limit->not_computed) return;
    const Limit& limit = *look.made.limit;
    const std::string says = written_limit(look.plan, limit);
    const Reading& compared = look.made.difference ? *look.made.difference : look.reading();
    if (compared.kind == ReadingKind::number && nothing_misses(look, limit)) {
        look.findings.add(603, look.limit_at(), fmt::format("{}nothing can miss `{}`: this check passes whatever is wrong", look.name(), says),
                          look.write_instead());
        return;
    }
    if (compared.kind == ReadingKind::number && is_blunt(look, limit)) {
        look.findings.add(604, look.limit_at(),
                          fmt::format("{}the meter reads ±{} here: it cannot tell `{}` from a miss", look.name(),
                                      value_words(error_at(look, limit), 1e-3, look.check.measure), says),
                          look.check.measure == MeasureKind::ohms ? "measure the drop under load instead" : look.write_instead());
        return;
    }
    if (limit.kind != LimitKind::within && compared.kind == ReadingKind::number && compared.bare_high < -least_carried && limit.high && limit.high->si > 0) {
        look.findings.add(621, look.row.at, fmt::format("{}sound cars read {}: below zero", look.name(), look.reads()),
                          "change the two points");
        return;
    }
    if (look.made.fit != Fit::may_miss && look.made.fit != Fit::fails) return;
    const bool none_passes = look.made.fit == Fit::fails;
    std::string reads = look.words_of(compared);
    if (compared.kind == ReadingKind::unsure)
        reads = look.check.measure == MeasureKind::continuity ? fmt::format("{:.0f} .. {:.0f} ohm: may beep or not", compared.low, compared.high)
                                                              : fmt::format("{:.1f} .. {:.1f} V at the lamp: may glow or not", compared.low, compared.high);
    if (look.made.difference) {
        const double off = std::max(std::abs(compared.low), std::abs(compared.high));
        look.findings.add(none_passes ? 602 : 601, look.limit_at(),
                          fmt::format("{}sound cars differ by {}, and the limit is {}", look.name(), reads, says),
                          fmt::format("write `within {}`", value_words(std::ceil(off * 10) / 10, 0.1, look.check.measure)));
        return;
    }
    look.findings.add(none_passes ? 602 : 601, look.limit_at(),
                      fmt::format("{}sound cars read {}, and the limit is {}: {}", look.name(), reads, says,
                                  none_passes ? "all of them fail" : "some of them fail"),
                      look.write_instead());
}

// A look that no sound car passes.
void prove_look(const Check& check, const CheckPrediction& made, Findings& findings) {
    const auto is_good = [](const State& state) {
        return state.verb == StateVerb::runs || state.verb == StateVerb::runs_to || state.verb == StateVerb::lit ||
               state.verb == StateVerb::works || state.verb == StateVerb::whole;
    };
    const auto& states = check.look_states.list;
    if (made.look != Truth::no || !std::all_of(states.begin(), states.end(), is_good)) return;
    findings.add(602, check.measure_at, "on a sound car the answer is NO in this set-up, always",
                 "`with` is the whole set-up: say all that must be on, and leave on what must be plugged in");
}

} // namespace

void prove_readings(const Plan& plan, const Predictor& sound, const Prediction& prediction, Findings& findings) {
    for (std::size_t i = 0; i < plan.checks.size(); ++i) {
        const Check& check = plan.checks[i];
        if (check.measure == MeasureKind::look) prove_look(check, prediction[i], findings);
        if (check.measure == MeasureKind::read || check.measure == MeasureKind::volts_ac) continue;
        for (std::size_t r = 0; r < check.rows.size(); ++r) {
            const Look look{plan, sound, check, check.rows[r], prediction[i].rows[r], findings};
            if (!prove_number(look)) {
                if (look.reading().kind == ReadingKind::chatters || look.reading().kind == ReadingKind::history) break;
                continue;
            }
            if (r == 0) prove_certain(look);
            if (!prove_instrument(look)) continue;
            if (prove_way(plan, sound, check, check.rows[r], prediction[i].rows[r], findings)) continue;
            if (look.reading().in_doubt.empty()) prove_limit(look);
        }
    }
    prove_use(plan, sound, findings);
}

} // namespace loomsheet
