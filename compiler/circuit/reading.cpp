#include "circuit/reading.hpp"
#include "circuit/rig.hpp"
#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace loomsheet {
namespace {

constexpr double no_amps = 1e-3; // less drops nothing that a meter shows

void widen(Reading& reading, double low, double high) {
    reading.low = std::min(reading.low, low), reading.high = std::max(reading.high, high);
}

// Branches of the shortest way from red to black: what carries least there, as it usually is, and what carries most. One who looks for
// a current looks at any of them. None where nothing conducts.
struct Carriers {
    int least = none, most = none;
};
Carriers carriers(const Setting& setting) {
    const Network& network = *setting.network;
    const Bench& bench = *setting.bench;
    const Admit flows = [&](const Edge& edge, NodeId, NodeId) {
        const auto index = static_cast<int>(&edge - network.graph.edges.data());
        return !limits_current(edge) && edge.kind != EdgeKind::source && network.branches[index].law != Law::absent;
    };
    const NodeId start[] = {setting.red};
    const Reach way = reach(network.graph, start, flows, setting.black);
    if (!way.has(setting.black)) return {};
    std::vector<int> branches = way.way(network.graph, setting.black);
    const auto is_stub = [&](int branch) { // the contact of another part that a lead lies on
        return branches.size() > 1 && network.graph.edges[branch].kind == EdgeKind::joint && std::abs(bench.amps(branch)) < no_amps;
    };
    if (!branches.empty() && is_stub(branches.front())) branches.erase(branches.begin());
    if (!branches.empty() && is_stub(branches.back())) branches.pop_back();
    if (branches.empty()) return {};
    const auto [least, most] = std::minmax_element(branches.begin(), branches.end(),
                                                   [&](int a, int b) { return std::abs(bench.amps(a)) < std::abs(bench.amps(b)); });
    return {*least, *most};
}

// A through a branch that usually carries `usual`, in all cars where they may not agree whether a meter shows a current.
struct Amps {
    double low, high;
};
Amps carried_by(int branch, double usual, const Setting& setting, const Stand& stand) {
    constexpr double something = 0.1 * widest; // A: above it all cars show one
    const std::span<const ParameterId> used = setting.bench->in_use();
    const bool banded = std::binary_search(used.begin(), used.end(), setting.network->added); // ohms over decades
    if (usual == 0 || (!banded && (usual < no_amps || usual > something))) return {usual, usual};
    Term term = setting.term;
    term.stand = stand;
    term.along = {{branch, 1, Share::amps}};
    const Extent extent = extent_of({&term, 1}, 0);
    const auto [low, high] = std::minmax({std::abs(extent.low), std::abs(extent.high)});
    return {extent.low <= 0 && extent.high >= 0 ? 0 : low, high};
}

// The bench stands as it was read.
void carry(Reading& reading, const Setting& setting, const Stand& stand) {
    const Carriers on = carriers(setting);
    if (on.least == none) return;
    reading.carried = std::abs(setting.bench->amps(on.least));
    const double most = std::abs(setting.bench->amps(on.most));
    reading.carried_low = carried_by(on.least, reading.carried, setting, stand).low;
    reading.carried_high = carried_by(on.most, most, setting, stand).high;
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
    const Meter meter = meter_for(circuit, shown_as(measure));
    reading.likely_low -= meter.error(reading.likely_low) / 2, reading.likely_high += meter.error(reading.likely_high) / 2;
    reading.low -= meter.error(reading.low), reading.high += meter.error(reading.high);
    if (measure == MeasureKind::testlamp && reading.high < -reading.low) // which end is up does not count
        std::swap(reading.low, reading.high), reading.low = -reading.low, reading.high = -reading.high;
    if (is_ohms(measure) || is_current(measure))
        reading.low = std::max(reading.low, 0.0), reading.likely_low = std::max(reading.likely_low, 0.0);
}

// A lamp or a beeper answers yes or no; what it saw stays beside it.
void as_answer(Reading& reading, double surely_above, double surely_below, ReadingKind above, ReadingKind below) {
    reading.kind = reading.low >= surely_above ? above : reading.high <= surely_below ? below : ReadingKind::unsure;
}

void answer(Reading& reading, MeasureKind measure, double system_volts) {
    if (measure == MeasureKind::testlamp) {
        const UsualRow& seen = usual(Usual::lamp_seen);
        if (reading.kind == ReadingKind::floating) reading.kind = ReadingKind::no;
        if (reading.kind == ReadingKind::number)
            as_answer(reading, seen.high * system_volts, seen.low * system_volts, ReadingKind::yes, ReadingKind::no);
    }
    if (measure == MeasureKind::continuity) {
        const UsualRow& beep = usual(Usual::beep);
        if (reading.kind == ReadingKind::open) reading.kind = ReadingKind::no;
        if (reading.kind == ReadingKind::number) as_answer(reading, beep.high, beep.low, ReadingKind::no, ReadingKind::yes);
        if (reading.kind == ReadingKind::yes && reading.may_be_open) reading.kind = ReadingKind::unsure;
    }
}

// Whether anything drives the points by itself: a diode that the meter opens does not.
bool is_driven(Bench& bench, Stand stand) {
    constexpr double no_volts = 1e-9;
    const Instrument meter = std::exchange(bench.instrument(), {});
    bench.settle(bench.usual(), stand); // from 0 V: what conducts for the meter keeps nothing of it
    const bool driven = std::abs(bench.port_volts()) > no_volts;
    bench.instrument() = meter;
    return driven;
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
    Reading reading;
    if (!joined && !is_current(measure) && !is_ohms(measure)) {
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
    if (driven > 0 && is_driven(*setting.bench, stand)) reading.residual = driven / ohms_test_amps;
    for (double* each : {&reading.value, &reading.low, &reading.high, &reading.likely_low, &reading.likely_high})
        *each = shown_ohms(*each, ohms_volts);
    reading.may_be_open = reading.high > display_end_ohms; // as behind a diode that conducts with some meters only
    if (reading.low > display_end_ohms) reading.kind = ReadingKind::open;
    for (double* each : {&reading.value, &reading.low, &reading.high, &reading.likely_low, &reading.likely_high})
        *each = std::min(*each, display_end_ohms);
    return reading;
}

} // namespace

// The first reading, or what both have in common. What is open has no number.
void unite(std::optional<Reading>& all, Reading more) {
    if (!all) {
        all = std::move(more);
        return;
    }
    const auto is_answer = [](ReadingKind kind) {
        return kind == ReadingKind::yes || kind == ReadingKind::no || kind == ReadingKind::unsure;
    };
    if (!is_answer(all->kind) && !all->is_number() && all->kind != ReadingKind::open) return; // nothing is known
    if (!is_answer(more.kind) && !more.is_number() && more.kind != ReadingKind::open) {
        all = std::move(more);
        return;
    }
    const bool floats = all->floats || more.floats, may_be_open = all->may_be_open || more.may_be_open;
    const bool may_chatter = all->may_chatter || more.may_chatter;
    if (all->kind == ReadingKind::open) {
        more.carried = all->carried, more.in_doubt = std::move(all->in_doubt);
        all = std::move(more);
    } else if (more.kind != ReadingKind::open) {
        if (all->kind != more.kind) all->kind = is_answer(all->kind) ? ReadingKind::unsure : ReadingKind::number;
        widen(*all, more.low, more.high);
        all->bare_low = std::min(all->bare_low, more.bare_low), all->bare_high = std::max(all->bare_high, more.bare_high);
        all->likely_low = std::min(all->likely_low, more.likely_low), all->likely_high = std::max(all->likely_high, more.likely_high);
        all->carried_low = std::min(all->carried_low, more.carried_low), all->carried_high = std::max(all->carried_high, more.carried_high);
    }
    all->floats = floats, all->may_be_open = may_be_open, all->may_chatter = may_chatter;
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
      rigs_(std::make_shared<Rigs>(circuit, parameters_)), car_(std::make_shared<RiggedCar>(rigs_->car(nullptr, blown_, uses_))) {}

Predictor::Predictor(const Predictor& sound, const Fault& fault, const std::vector<Setup>& used_before)
    : circuit_(sound.circuit_), parameters_(sound.parameters_), fault_(fault), uses_(used_before), rigs_(sound.rigs_),
      car_(std::make_shared<RiggedCar>(rigs_->car(&*fault_, blown_, uses_))) {
    if (!can_blow(fault.kind)) return;
    for (const Setup& setup : uses_)
        use(setup);
    surely_blown_ = surely_blown(blown_);
    for (const Blown& each : blown_)
        std::copy_if(each.begin(), each.end(), std::back_inserter(may_be_blown_),
                     [&](PartId part) { return !has_part(may_be_blown_, part); });
    std::erase_if(may_be_blown_, [&](PartId part) { return has_part(surely_blown_, part); });
}

// What of the fuses it may have blown.
void Predictor::use(const Setup& setup) {
    constexpr std::size_t most = 8;
    const Setting& setting = rig(setup).setting();
    Bench& bench = *setting.bench;
    const std::vector<FuseLink>& fuses = setting.network->fuses;
    std::vector<Blown> after;
    const auto add = [&](Blown blown) {
        if (after.size() < most && std::find(after.begin(), after.end(), blown) == after.end()) after.push_back(std::move(blown));
    };
    const std::vector<Stand> beginnings = setting.beginnings();
    for (std::size_t i = 0; i < beginnings.size(); ++i) {
        Stand rest = beginnings[i];
        const bool settled = bench.settle(bench.usual(), rest) == Settling::settled;
        const bool calm = std::all_of(bench.way().begin(), bench.way().end(),
                                      [](const Bench::Passed& each) { return !each.blew && each.load < fuse_passes_to / widest; });
        if (settled && calm && bench.strained(rest, fuse_holds_to).empty()) {
            add(blown_[i]);
            continue;
        }
        const Stands stands = stands_of(bench, {&beginnings[i], 1}, beginnings[i]);
        for (const Stand& stand : stands.list) {
            Blown blown = blown_[i];
            for (std::size_t fuse = 0; fuse < fuses.size(); ++fuse)
                if (stand.blown[fuse] && !has_part(blown, fuses[fuse].part)) blown.push_back(fuses[fuse].part);
            add(std::move(blown));
        }
        if (stands.usual_chatters && !stands.wears) add(blown_[i]);
    }
    blown_ = std::move(after);
}

Rig& Predictor::rig(const Setup& setup, MeasureKind measure, const Row& row, double ohms_volts) const {
    return rigs_->at(*car_, setup, measure, &row, ohms_volts);
}
Rig& Predictor::rig(const Setup& setup) const { return rigs_->at(*car_, setup, MeasureKind::look, nullptr, 0); }

Reading Predictor::read(const Setup& setup, MeasureKind measure, const Row& row) const {
    if (!row_of(measure).meter) return of_kind(ReadingKind::beyond, "the circuit does not give it");
    if (!row_of(measure).computed) return of_kind(ReadingKind::beyond, "alternating volts are not modelled");
    std::optional<Reading> all;
    bool may_chatter = false, by_diode = false;
    for (const Setup& each : one_by_one(setup)) {
        // Where a diode may conduct, the volts of the ohmmeter decide: both the least and the most are tried.
        std::vector<double> open_volts{usual(Usual::ohms_test).value};
        for (std::size_t turn = 0; turn < open_volts.size(); ++turn) {
            Rig& rigged = rig(placed(each, row), measure, row, open_volts[turn]);
            const Setting& setting = rigged.setting();
            if (!setting.beyond.empty()) return of_kind(ReadingKind::beyond, setting.beyond);
            if (turn == 0 && is_ohms(measure))
                for (const NetBranch& branch : setting.network->branches)
                    if (branch.law == Law::diode) open_volts = ohmmeter_volts(measure), by_diode = true;
            const Stands& stands = rigged.stands();
            if (!fault_ && (stands.usual_chatters || stands.history)) {
                Reading no_number = of_kind(stands.usual_chatters ? ReadingKind::chatters : ReadingKind::history);
                no_number.in_doubt = stands.moves;
                return no_number;
            }
            may_chatter |= stands.may_chatter;
            for (const Stand& stand : stands.list) {
                Reading reading = in_stand(setting, stand, measure, open_volts[turn]);
                if (measure == MeasureKind::drop) carry(reading, setting, stand);
                if (reading.kind == ReadingKind::chatters) return reading;
                if (reading.kind == ReadingKind::number) put_meter_on(reading, circuit_, measure);
                if (!all) reading.in_doubt = stands.in_doubt;
                unite(all, std::move(reading));
            }
        }
    }
    if (!all) return of_kind(ReadingKind::chatters);
    const bool hangs_on_meter = is_ohms(measure) && all->is_number() && all->may_be_open && by_diode;
    if (hangs_on_meter) all->high = all->bare_high = display_end_ohms; // between meters that open the diode and those that do not
    answer(*all, measure, parameters_->system_volts);
    all->may_chatter |= may_chatter;
    return *all;
}

Reading Predictor::rest(const Setup& setup, MeasureKind measure, const Row& row) const {
    Reading made = of_kind(ReadingKind::number);
    bool comes_to_rest = false;
    for (const Setup& each : one_by_one(setup)) {
        Rig& rigged = rig(placed(each, row), measure, row, usual(Usual::ohms_test).value);
        if (!rigged.setting().beyond.empty()) return of_kind(ReadingKind::beyond, rigged.setting().beyond);
        comes_to_rest |= !rigged.stands().chatters;
        made.may_chatter |= rigged.stands().may_chatter;
    }
    return comes_to_rest ? made : of_kind(ReadingKind::chatters);
}

Reading Predictor::difference(const Setup& setup, MeasureKind measure, const Row& row, const Setup& before, MeasureKind measure_before,
                              const Row& row_before) const {
    const double open_volts = usual(Usual::ohms_test).value;
    Rig& rig_here = rig(placed(setup, row), measure, row, open_volts);
    Rig& rig_there = rig(placed(before, row_before), measure_before, row_before, open_volts);
    const Setting &here = rig_here.setting(), &there = rig_there.setting();
    for (const Setting* each : {&here, &there})
        if (!each->beyond.empty()) return of_kind(ReadingKind::beyond, each->beyond);
    const Stands &now = rig_here.stands(), &then = rig_there.stands();
    if (now.chatters || then.chatters || (!fault_ && (now.usual_chatters || then.usual_chatters))) return of_kind(ReadingKind::chatters);
    if ((now.history || then.history) && !fault_) return of_kind(ReadingKind::history);
    const Meter meter = meter_for(circuit_, shown_as(measure));
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
            unite(all, std::move(reading));
        }
    all->may_chatter = now.may_chatter || then.may_chatter;
    return *all;
}

} // namespace loomsheet
