#include "circuit/rig.hpp"
#include "circuit/charging.hpp"
#include <algorithm>
#include <cmath>

namespace loomsheet {
namespace {

// All that a network and its instrument hang on, as bytes.
class Key {
public:
    std::string of(const Setup& setup, MeasureKind measure, const Row* row, double ohms_volts) {
        for (const SetupItem& item : setup.items) {
            add(item.kind), add(item.word), add(item.word2), add(item.part), add(item.pin), add(item.across_points);
            add(item.parts.size());
            for (const PartId part : item.parts)
                add(part);
            if (item.value) add(item.value->si), add(item.value->plus_minus.value_or(-1));
            add(item.value.has_value()), add(item.a), add(item.b);
        }
        if (!row) return std::move(bytes_);
        const bool ohms = is_ohms(measure);
        const bool own = ohms || is_current(measure) || measure == MeasureKind::testlamp;
        add('|'), add(row->red), add(row->black);
        add(ohms ? MeasureKind::ohms : own ? measure : MeasureKind::volts);
        if (ohms) add(ohms_volts);
        return std::move(bytes_);
    }

private:
    template <class Plain>
    void add(Plain value) {
        static_assert(std::is_trivially_copyable_v<Plain>);
        bytes_.append(reinterpret_cast<const char*>(&value), sizeof value);
    }
    void add(const std::string& word) { bytes_.append(word).push_back('\0'); }
    void add(const PointRef& point) {
        add(point.metal), add(point.part), add(point.pin), add(point.wire), add(point.pins.size());
        for (const PinId pin : point.pins)
            add(pin);
    }
    std::string bytes_;
};

// V: no two points are further apart.
double most_volts(const Network& network) {
    double sum = 0;
    for (const NetBranch& branch : network.branches)
        if (branch.law == Law::source || branch.law == Law::supplied) sum += network.parameters[branch.second].high;
    return sum;
}

// From rest, but with these relays and modules on.
Stand with_on(const Setting& setting, const std::vector<PartId>& parts) {
    Stand stand = setting.from;
    for (std::size_t i = 0; i < stand.in.size(); ++i)
        stand.in[i] = has_part(parts, setting.network->relays[i].part);
    for (std::size_t i = 0; i < stand.alive.size(); ++i)
        stand.alive[i] = has_part(parts, setting.network->modules[i].part);
    for (std::size_t i = 0; i < stand.high.size(); ++i) // what was on may have been called
        stand.high[i] = has_part(parts, setting.network->listeners[i].part);
    return stand;
}

} // namespace

bool has_part(const std::vector<PartId>& list, PartId part) { return std::find(list.begin(), list.end(), part) != list.end(); }

Blown surely_blown(const std::vector<Blown>& alternatives) {
    Blown all = alternatives.front();
    for (const Blown& each : alternatives)
        std::erase_if(all, [&](PartId fuse) { return !has_part(each, fuse); });
    return all;
}

// No branch of a resistive network carries more than what is pushed into it. So a meter that pushes less than it takes to
// move any relay, module or fuse leaves all of them as they stand without it.
const Stands& Rig::stands() {
    if (stands_) return *stands_;
    const Rigs::Kept& kept = *home_->kept_[place_];
    if (kept.bare != place_ && !own_) {
        const Stands& bare = home_->at(*car_, kept.bare).stands();
        const bool one = !bare.chatters && !bare.history && !bare.may_chatter && bare.in_doubt.empty() && bare.list.size() == 1;
        if (one && bare.slack > 2 * kept.pushes) stands_ = std::make_unique<Stands>(bare);
    }
    if (stands_) return *stands_;
    stands_ = std::make_unique<Stands>(stands_of(*setting_->bench, setting_->beginnings(), setting_->bench->all_on()));
    if (!stands_->history || !car_->fault) return *stands_;
    const std::vector<PartId>& was_on = home_->was_on(*car_);
    home_->at(*car_, place_);
    stands_ = std::make_unique<Stands>(stands_of(*setting_->bench, setting_->beginnings(), with_on(*setting_, was_on)));
    return *stands_;
}

Rigs::Rigs(const Circuit& circuit, std::shared_ptr<const Parameters> parameters) : circuit_(circuit), parameters_(std::move(parameters)) {}

std::size_t Rigs::place(const Setup& setup, MeasureKind measure, const Row* row, double ohms_volts) {
    const auto [at, is_new] = places_.try_emplace(Key().of(setup, measure, row, ohms_volts), kept_.size());
    if (!is_new) return at->second;
    const std::size_t made = at->second;
    Kept& kept = *kept_.emplace_back(std::make_unique<Kept>());
    kept.setup = setup, kept.measure = measure, kept.ohms_volts = ohms_volts, kept.bare = made;
    if (row)
        kept.setting = set_up(circuit_, *parameters_, setup, measure, *row, nullptr, {}, ohms_volts), kept.row = *row;
    else
        kept.setting = set_up(circuit_, *parameters_, setup, nullptr, {});
    kept.branches = kept.setting.network->branches.size(), kept.parameters = kept.setting.network->parameters.size();
    if (!row || is_current(measure) || measure == MeasureKind::testlamp) return made;
    const Instrument& instrument = kept.setting.bench->instrument();
    kept.pushes = instrument.siemens * most_volts(*kept.setting.network) + std::abs(instrument.amps);
    kept.bare = place(setup, MeasureKind::look, nullptr, 0);
    return made;
}

Rig& Rigs::at(RiggedCar& car, const Setup& setup, MeasureKind measure, const Row* row, double ohms_volts) {
    return at(car, place(setup, measure, row, ohms_volts));
}

Rig& Rigs::at(RiggedCar& car, std::size_t place) {
    Kept& kept = *kept_[place];
    Rig& rig = car.rigs[place];
    if (!rig.home_) {
        rig.home_ = this, rig.car_ = &car, rig.place_ = place;
        // An instrument in the way of a current takes a branch's place: whether that branch is the fault's is seen anew.
        if (car.fault && (car.fault->kind == FaultKind::swapped || (kept.row && is_current(kept.measure))))
            rig.own_ = std::make_unique<Setting>(kept.row ? set_up(circuit_, *parameters_, kept.setup, kept.measure, *kept.row, car.fault,
                                                                   car.blown->front(), kept.ohms_volts)
                                                          : set_up(circuit_, *parameters_, kept.setup, car.fault, car.blown->front()));
        rig.setting_ = rig.own_ ? rig.own_.get() : &kept.setting;
    }
    if (!rig.own_ && kept.tenant != car.number) {
        take_out(kept);
        put_in(kept, car);
    }
    Setting& setting = *rig.setting_;
    setting.or_from.assign(car.blown->size() - 1, setting.from);
    for (std::size_t i = 0; i < car.blown->size(); ++i)
        for (std::size_t fuse = 0; fuse < setting.network->fuses.size(); ++fuse)
            (i == 0 ? setting.from : setting.or_from[i - 1]).blown[fuse] = has_part((*car.blown)[i], setting.network->fuses[fuse].part);
    return rig;
}

// What a fault holds on must have come on: from rest in one of the uses, or from what another has left on.
const std::vector<PartId>& Rigs::was_on(RiggedCar& car) {
    if (car.was_on) return *car.was_on;
    std::vector<PartId> on;
    for (bool more = true; more;) {
        more = false;
        for (const Setup& use : *car.uses) {
            const Setting& setting = at(car, use, MeasureKind::look, nullptr, 0).setting();
            const Network& network = *setting.network;
            const auto add = [&](PartId part) {
                if (!has_part(on, part)) on.push_back(part), more = true;
            };
            for (const Stand& before : {setting.from, with_on(setting, on)})
                for (const Stand& stand : reached(*setting.bench, before)) {
                    for (std::size_t i = 0; i < stand.in.size(); ++i)
                        if (stand.in[i]) add(network.relays[i].part);
                    for (std::size_t i = 0; i < stand.alive.size(); ++i)
                        if (stand.alive[i]) add(network.modules[i].part);
                }
        }
    }
    return car.was_on.emplace(std::move(on));
}

void Rigs::put_in(Kept& kept, const RiggedCar& car) {
    kept.tenant = car.number;
    Setting& setting = kept.setting;
    Network& network = *setting.network;
    bool changed = kept.stale || !network.charged.empty();
    for (const Charged& battery : network.charged)
        kept.as_they_were.emplace_back(battery.branch, network.branches[battery.branch]);
    if (car.fault) {
        for (const int branch : touched(circuit_, *car.fault, network))
            kept.as_they_were.emplace_back(branch, network.branches[branch]);
        changed |= loomsheet::put_in(circuit_, *car.fault, network);
    }
    settle_charging(network, surely_blown(*car.blown));
    if (network.branches.size() != kept.branches) {
        kept.bench = std::move(setting.bench);
        setting.bench = std::make_unique<Bench>(*kept.bench, network);
        setting.term.bench = setting.bench.get();
    } else if (changed) {
        setting.bench->renew();
        kept.stale = false;
    }
}

void Rigs::take_out(Kept& kept) const {
    Setting& setting = kept.setting;
    Network& network = *setting.network;
    for (const auto& [branch, as_it_was] : kept.as_they_were)
        network.branches[branch] = as_it_was;
    network.branches.resize(kept.branches), network.ends.resize(kept.branches), network.parameters.resize(kept.parameters);
    if (kept.bench) {
        setting.bench = std::move(kept.bench);
        setting.term.bench = setting.bench.get();
    } else {
        kept.stale |= !kept.as_they_were.empty();
    }
    kept.as_they_were.clear();
}

} // namespace loomsheet
