#include "circuit/reading.hpp"
#include "circuit/rig.hpp"
#include <algorithm>
#include <cmath>
#include <limits>

namespace loomsheet {
namespace {

constexpr double display_end_ohms = 20e6; // more shows as open

MeterFunction function_of(MeasureKind measure) {
    if (is_ohms(measure)) return MeterFunction::ohms;
    if (measure == MeasureKind::amps) return MeterFunction::amps;
    return measure == MeasureKind::clamp ? MeterFunction::clamp : MeterFunction::volts;
}

void widen(Reading& reading, double low, double high) {
    reading.low = std::min(reading.low, low), reading.high = std::max(reading.high, high);
}

// Of the shortest way of what conducts from red to black the branch with the most amperes; none where nothing leads there.
int carrier(const Setting& setting) {
    const Network& network = *setting.network;
    const Bench& bench = *setting.bench;
    const Admit flows = [&](const Edge& edge, NodeId, NodeId) {
        const auto index = static_cast<int>(&edge - network.graph.edges.data());
        return !limits_current(edge) && edge.kind != EdgeKind::source && network.branches[index].law != Law::absent;
    };
    const NodeId start[] = {setting.red};
    const Reach way = reach(network.graph, start, flows, setting.black);
    int most = none;
    if (way.has(setting.black))
        for (const int branch : way.way(network.graph, setting.black))
            if (most == none || std::abs(bench.amps(branch)) > std::abs(bench.amps(most))) most = branch;
    return most;
}

Reading of_kind(ReadingKind kind, std::string why = {}) {
    Reading reading;
    reading.kind = kind, reading.why = std::move(why);
    return reading;
}

// V: what stray leakage leaves on a meter between points that nothing joins; its own ohms pull it to 0.
double ghost(double system_volts) { return usual(Usual::ghost).high * system_volts; }

// Volts at an ohmmeter's leads as the ohms that it shows.
double shown_ohms(double volts, double open_volts) {
    const double through = ohms_test_amps * (1 - volts / open_volts);
    return through > 0 ? volts / through : std::numeric_limits<double>::infinity();
}

void put_meter_on(Reading& reading, const Circuit& circuit, MeasureKind measure) {
    reading.bare_low = reading.low, reading.bare_high = reading.high;
    if (is_ohms(measure)) {
        const UsualRow& leads = usual(Usual::leads);
        reading.low += leads.low, reading.high += leads.high;
        reading.value += leads.value, reading.likely_low += leads.low, reading.likely_high += leads.high;
    }
    const Meter meter = meter_for(circuit, function_of(measure));
    reading.likely_low -= meter.error(reading.likely_low) / 2, reading.likely_high += meter.error(reading.likely_high) / 2;
    reading.low -= meter.error(reading.low), reading.high += meter.error(reading.high);
    if (is_ohms(measure) || is_current(measure))
        reading.low = std::max(reading.low, 0.0), reading.likely_low = std::max(reading.likely_low, 0.0);
}

// A lamp or a beeper answers yes or no; what it saw stays beside it.
void as_answer(Reading& reading, double surely_above, double surely_below, ReadingKind above, ReadingKind below) {
    reading.kind = reading.low >= surely_above   ? above
                   : reading.high <= surely_below ? below
                                                  : ReadingKind::unsure;
}

void answer(Reading& reading, MeasureKind measure, double system_volts) {
    if (measure == MeasureKind::testlamp) {
        const UsualRow& seen = usual(Usual::lamp_seen);
        if (reading.kind == ReadingKind::floating) reading.kind = ReadingKind::no;
        if (reading.kind == ReadingKind::number) {
            if (reading.high < -reading.low) std::swap(reading.low, reading.high), reading.low = -reading.low, reading.high = -reading.high;
            as_answer(reading, seen.high * system_volts, seen.low * system_volts, ReadingKind::yes, ReadingKind::no);
        }
    }
    if (measure == MeasureKind::continuity) {
        const UsualRow& beep = usual(Usual::beep);
        if (reading.kind == ReadingKind::open) reading.kind = ReadingKind::no;
        if (reading.kind == ReadingKind::number) as_answer(reading, beep.high, beep.low, ReadingKind::no, ReadingKind::yes);
    }
}

Reading in_stand(const Setting& setting, const Stand& stand, MeasureKind measure, double ohms_volts) {
    Term term = setting.term;
    term.stand = stand;
    Extent extent = extent_of({&term, 1}, 0);
    if (!extent.settled) return of_kind(ReadingKind::chatters);
    if (is_current(measure) && extent.value < 0) {
        term.sign = -1;
        extent = extent_of({&term, 1}, 0);
    }
    setting.bench->settle(setting.bench->usual(), term.stand, true); // back from the corners
    const bool joined = setting.bench->port().g > 0;
    if (!joined && is_ohms(measure)) return of_kind(ReadingKind::open);
    Reading reading;
    if (!joined && !is_current(measure)) {
        reading.kind = ReadingKind::floating, reading.floats = true;
        reading.high = reading.likely_high = ghost(setting.network->system_volts);
        reading.low = reading.likely_low = -reading.high;
        return reading;
    }
    reading.kind = ReadingKind::number;
    reading.value = extent.value, reading.low = extent.low, reading.high = extent.high;
    reading.likely_low = extent.likely_low, reading.likely_high = extent.likely_high;
    const double driven = std::abs(setting.bench->port().f);
    if (measure == MeasureKind::amps && driven > 0) reading.burden = 1 - std::abs(reading.value) / driven;
    if (!is_ohms(measure)) return reading;
    reading.residual = driven / ohms_test_amps;
    for (double* each : {&reading.value, &reading.low, &reading.high, &reading.likely_low, &reading.likely_high})
        *each = shown_ohms(*each, ohms_volts);
    if (reading.low > display_end_ohms) return of_kind(ReadingKind::open);
    return reading;
}

} // namespace

bool is_ohms(MeasureKind measure) { return measure == MeasureKind::ohms || measure == MeasureKind::continuity; }
bool is_current(MeasureKind measure) { return measure == MeasureKind::amps || measure == MeasureKind::clamp; }

void unite(Reading& all, const Reading& more) {
    all.floats |= more.floats, all.may_be_open |= more.may_be_open, all.may_chatter |= more.may_chatter;
    const auto is_volts = [](ReadingKind kind) { return kind == ReadingKind::number || kind == ReadingKind::floating; };
    if (all.kind != more.kind && is_volts(all.kind) && is_volts(more.kind)) {
        all.kind = ReadingKind::number;
    } else if (all.kind != more.kind) {
        const bool numbers = all.kind == ReadingKind::number || more.kind == ReadingKind::number;
        if (!numbers) {
            all.kind = ReadingKind::unsure;
            return;
        }
        if (all.kind != ReadingKind::number) all.kind = ReadingKind::unsure;
    }
    widen(all, more.low, more.high);
    all.bare_low = std::min(all.bare_low, more.bare_low), all.bare_high = std::max(all.bare_high, more.bare_high);
    all.likely_low = std::min(all.likely_low, more.likely_low), all.likely_high = std::max(all.likely_high, more.likely_high);
}

std::vector<Setup> one_by_one(const Setup& setup) {
    std::vector<Setup> list{setup};
    for (std::size_t i = 0; i < setup.items.size(); ++i) {
        const SetupItem& item = setup.items[i];
        std::vector<SetupItem> instead;
        SetupItem each = item;
        if (item.kind == ItemKind::one_of_pulled) {
            each.kind = ItemKind::pulled;
            for (const PartId part : item.parts)
                each.part = part, instead.push_back(each);
        } else if (item.kind == ItemKind::moved) {
            each.kind = ItemKind::position;
            for (const std::string& position : {item.word, item.word2})
                each.word = position, instead.push_back(each);
        } else {
            continue;
        }
        std::vector<Setup> more;
        for (const Setup& so_far : list)
            for (const SetupItem& one : instead)
                more.push_back(so_far), more.back().items[i] = one;
        list = std::move(more);
    }
    return list;
}

std::vector<double> ohmmeter_volts(MeasureKind measure) {
    const UsualRow& test = usual(Usual::ohms_test);
    return is_ohms(measure) ? std::vector<double>{test.value, test.low, test.high} : std::vector<double>{test.value};
}

Predictor::Predictor(const Circuit& circuit, double system_volts)
    : circuit_(circuit), parameters_(std::make_shared<Parameters>(circuit, system_volts)),
      rigs_(std::make_shared<Rigs>(circuit, parameters_)), car_(std::make_shared<RiggedCar>(rigs_->car(nullptr, blown_, may_be_blown_, uses_))) {}

Predictor::Predictor(const Predictor& sound, const Fault& fault, const std::vector<Setup>& used_before)
    : circuit_(sound.circuit_), parameters_(sound.parameters_), fault_(fault), uses_(used_before), rigs_(sound.rigs_),
      car_(std::make_shared<RiggedCar>(rigs_->car(&*fault_, blown_, may_be_blown_, uses_))) {
    if (!can_blow(fault.kind)) return;
    for (const Setup& setup : uses_) {
        const Setting& setting = rig(setup).setting();
        Bench& bench = *setting.bench;
        const std::vector<FuseLink>& fuses = setting.network->fuses;
        Stands stands;
        stands.list = {setting.from};
        bench.watch();
        const bool settled = bench.settle(bench.usual(), stands.list.front()) == Settling::settled;
        if (settled && (!bench.close_calls().empty() || !bench.strained(stands.list.front()).empty()))
            stands = stands_of(bench, setting.from, setting.from, setting.may_be_blown);
        for (std::size_t i = 0; i < fuses.size(); ++i) {
            if (setting.from.blown[i]) continue;
            const auto blows = [&](const Stand& stand) { return stand.blown[i] != 0; };
            if (std::all_of(stands.list.begin(), stands.list.end(), blows))
                blown_.push_back(fuses[i].part);
            else if (std::any_of(stands.list.begin(), stands.list.end(), blows))
                may_be_blown_.push_back(fuses[i].part);
        }
    }
    std::erase_if(may_be_blown_, [&](PartId part) { return std::find(blown_.begin(), blown_.end(), part) != blown_.end(); });
}

Rig& Predictor::rig(const Setup& setup, MeasureKind measure, const Row& row, double ohms_volts) const {
    return rigs_->at(*car_, setup, measure, &row, ohms_volts);
}
Rig& Predictor::rig(const Setup& setup) const { return rigs_->at(*car_, setup, MeasureKind::look, nullptr, 0); }

Reading Predictor::read(const Setup& setup, MeasureKind measure, const Row& row) const {
    if (measure == MeasureKind::volts_ac) return of_kind(ReadingKind::beyond, "alternating volts are not modelled");
    if (measure == MeasureKind::read || measure == MeasureKind::look || measure == MeasureKind::nothing)
        return of_kind(ReadingKind::beyond, "the circuit does not give it");
    std::optional<Reading> all;
    for (const Setup& each : one_by_one(setup)) {
        // Where a diode may conduct, the volts of the ohmmeter decide: both the least and the most are tried.
        std::vector<double> open_volts{usual(Usual::ohms_test).value};
        for (std::size_t turn = 0; turn < open_volts.size(); ++turn) {
            Rig& rigged = rig(placed(each, row), measure, row, open_volts[turn]);
            const Setting& setting = rigged.setting();
            if (!setting.beyond.empty()) return of_kind(ReadingKind::beyond, setting.beyond);
            if (turn == 0 && is_ohms(measure))
                for (const NetBranch& branch : setting.network->branches)
                    if (branch.law == Law::diode) open_volts = ohmmeter_volts(measure);
            const Stands& stands = rigged.stands();
            if (stands.chatters || (stands.history && !fault_)) {
                Reading no_number = of_kind(stands.chatters ? ReadingKind::chatters : ReadingKind::history);
                no_number.in_doubt = stands.moves;
                return no_number;
            }
            const std::vector<InDoubt> in_doubt = all ? all->in_doubt : stands.in_doubt;
            for (const Stand& stand : stands.list) {
                Reading reading = in_stand(setting, stand, measure, open_volts[turn]);
                if (measure == MeasureKind::drop && !all)
                    if (const int branch = carrier(setting); branch != none) reading.carried = std::abs(setting.bench->amps(branch));
                if (reading.kind == ReadingKind::chatters) return reading;
                if (reading.kind == ReadingKind::number) put_meter_on(reading, circuit_, measure);
                answer(reading, measure, parameters_->system_volts);
                if (all)
                    unite(*all, reading);
                else
                    all = reading;
            }
            all->in_doubt = in_doubt;
            all->may_chatter |= stands.may_chatter;
        }
    }
    return *all;
}

Carried Predictor::carried(const Setup& setup, const Row& row) const {
    std::optional<Carried> all;
    Rig& rigged = rig(placed(setup, row), MeasureKind::drop, row, usual(Usual::ohms_test).value);
    const Setting& setting = rigged.setting();
    if (!setting.beyond.empty() || rigged.stands().chatters) return {0, std::numeric_limits<double>::infinity()};
    for (const Stand& stand : rigged.stands().list) {
        Term term = setting.term;
        term.stand = stand;
        setting.bench->settle(setting.bench->usual(), term.stand, true);
        const int branch = carrier(setting);
        Carried here;
        if (branch != none) {
            term.along = {{branch, 1, Share::amps}}, term.own = none;
            const Extent amps = extent_of({&term, 1}, 0);
            here.low = amps.low <= 0 && amps.high >= 0 ? 0 : std::min(std::abs(amps.low), std::abs(amps.high));
            here.high = std::max(std::abs(amps.low), std::abs(amps.high));
        }
        all = all ? Carried{std::min(all->low, here.low), std::max(all->high, here.high)} : here;
    }
    return *all;
}

Reading Predictor::rest(const Setup& setup, MeasureKind measure, const Row& row) const {
    Reading made = of_kind(ReadingKind::number);
    for (const Setup& each : one_by_one(setup)) {
        Rig& rigged = rig(placed(each, row), measure, row, usual(Usual::ohms_test).value);
        if (!rigged.setting().beyond.empty()) return of_kind(ReadingKind::beyond, rigged.setting().beyond);
        if (rigged.stands().chatters) return of_kind(ReadingKind::chatters);
        made.may_chatter |= rigged.stands().may_chatter;
    }
    return made;
}

Reading Predictor::difference(const Setup& setup, MeasureKind measure, const Row& row, const Setup& before,
                              MeasureKind measure_before, const Row& row_before) const {
    const double open_volts = usual(Usual::ohms_test).value;
    Rig& rig_here = rig(placed(setup, row), measure, row, open_volts);
    Rig& rig_there = rig(placed(before, row_before), measure_before, row_before, open_volts);
    const Setting &here = rig_here.setting(), &there = rig_there.setting();
    for (const Setting* each : {&here, &there})
        if (!each->beyond.empty()) return of_kind(ReadingKind::beyond, each->beyond);
    const Stands &now = rig_here.stands(), &then = rig_there.stands();
    if (now.chatters || then.chatters) return of_kind(ReadingKind::chatters);
    if ((now.history || then.history) && !fault_) return of_kind(ReadingKind::history);
    const Meter meter = meter_for(circuit_, function_of(measure));
    std::optional<Reading> all;
    for (const Stand& one : now.list)
        for (const Stand& other : then.list) {
            Term terms[] = {here.term, there.term};
            terms[0].stand = one, terms[1].stand = other;
            terms[1].sign = -1;
            const Extent extent = extent_of(terms, parameters_->list.size());
            if (!extent.settled) return of_kind(ReadingKind::chatters);
            for (Term& each : terms)
                each.bench->settle(each.bench->usual(), each.stand, true); // back from the corners
            Reading reading;
            double ghosts = 0;
            for (const Setting* each : {&here, &there})
                if (each->bench->port().g == 0 && !is_current(measure)) reading.floats = true, ghosts += ghost(parameters_->system_volts);
            reading.kind = ReadingKind::number;
            reading.value = extent.value, reading.bare_low = extent.low, reading.bare_high = extent.high;
            // One meter, one range: its gain is off by the same share in both, its last digits are not.
            const double digits = 2 * meter.digits * meter.step(there.bench->port_volts());
            const auto off = [&](double value) {
                return meter.offset >= 0 ? 2 * meter.offset : meter.percent / 100 * std::abs(value) + digits;
            };
            reading.low = extent.low - off(extent.low) - ghosts, reading.high = extent.high + off(extent.high) + ghosts;
            reading.likely_low = extent.likely_low - off(extent.likely_low) / 2 - ghosts;
            reading.likely_high = extent.likely_high + off(extent.likely_high) / 2 + ghosts;
            if (all)
                unite(*all, reading);
            else
                all = reading;
        }
    all->may_chatter = now.may_chatter || then.may_chatter;
    return *all;
}

} // namespace loomsheet
