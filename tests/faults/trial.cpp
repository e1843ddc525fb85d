#include "trial.hpp"
#include "circuit/setting.hpp"
#include "faults/together.hpp"
#include "model/change.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <tuple>

namespace loomsheet::lab {
namespace {

class TrialCar {
public:
    // `extreme`: every value lies at an end of its range.
    TrialCar(const Plan& plan, const Predictor& predictor, std::mt19937& random, bool extreme)
        : plan_(plan), predictor_(predictor), random_(random), extreme_(extreme) {
        for (const Parameter& each : predictor.parameters().list)
            shared_.push_back(draw(each));
        if (fault() && fault()->kind == FaultKind::added) { // its ohms spread over decades
            const double low = fault()->value->low(), high = fault()->value->high();
            shared_[predictor.parameters().added] =
                extreme ? (random_() % 2 ? low : high) : std::exp(between(std::log(low), std::log(high)));
        }
        gain_ = between(-1, 1);
        for (const Part& part : plan.circuit.parts)
            edge_.push_back(part.kind == PartKind::relay ? between(0, 1) : 0);
    }

    // Whether its owner complains: of one load below `volts`, else of what the complaint says. One that chatters is
    // complained of.
    bool complains(const std::optional<ComplaintVolts>& below) {
        Setting setting =
            set_up(plan_.circuit, predictor_.parameters(), plan_.complaint_with, fault(), predictor_.blown_before());
        if (!settle(setting)) return true;
        if (!below) return plan_.complaint_states.empty() || holds(setting, plan_.complaint_states) == Truth::yes;
        for (std::size_t i = 0; i < setting.network->graph.edges.size(); ++i) {
            const Edge& edge = setting.network->graph.edges[i];
            if (edge.kind == EdgeKind::load && edge.part == below->part)
                return broken(setting, i) || std::abs(setting.bench->volts(static_cast<int>(i))) <= below->most;
        }
        return true;
    }

    // The outcome that somebody ticks; `Taken::jumps` where the reading comes to no rest.
    std::size_t outcome(const Check& check) {
        CheckPrediction seen;
        if (check.measure == MeasureKind::look) {
            if (!look(check, seen)) {
                for (std::size_t i = 0; i < check.outcomes.size(); ++i)
                    if (!check.outcomes[i].states.empty() &&
                        check.outcomes[i].states.list.front().verb == StateVerb::chatters)
                        return i;
                return Taken::jumps;
            }
        } else {
            for (const Row& row : check.rows) {
                const std::optional<RowPrediction> made = read_row(check, row);
                if (!made) return Taken::jumps;
                seen.rows.push_back(*made);
            }
        }
        const OutcomeSet set = outcomes_of(check, seen);
        for (std::size_t i = 0; i <= check.outcomes.size(); ++i)
            if (set & outcome_bit(i)) return i;
        return check.outcomes.size();
    }

private:
    double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }
    double draw(const Parameter& of) {
        const int how = static_cast<int>(random_() % (extreme_ ? 2 : 10)); // now and then at an end
        return how == 0 ? of.low : how == 1 ? of.high : between(of.low, of.high);
    }
    const Fault* fault() const { return predictor_.fault() ? &*predictor_.fault() : nullptr; }
    bool broken(const Setting& setting, std::size_t branch) const {
        const Law law = setting.network->branches[branch].law;
        return law == Law::absent ||
               (law == Law::ohmic &&
                plan_.circuit.parts[setting.network->branches[branch].part].kind == PartKind::motor);
    }

    std::vector<double> values_of(const Setting& setting) {
        std::vector<double> values = shared_;
        for (std::size_t i = shared_.size(); i < setting.network->parameters.size(); ++i)
            values.push_back(draw(setting.network->parameters[i]));
        return values;
    }
    // This car's own relays: each pulls in somewhere from what it surely holds to what it surely pulls.
    bool settle(Setting& setting) {
        for (Relay& relay : setting.network->relays) {
            const double pulls = relay.drops_out + (relay.pulls_in - relay.drops_out) * (0.2 + 0.8 * edge_[relay.part]);
            relay.drops_out = std::min(relay.drops_out, pulls), relay.pulls_in = pulls;
        }
        stand_ = setting.from;
        return setting.bench->settle(values_of(setting), stand_) == Settling::settled;
    }

    std::optional<Reading> measure(const Setup& with, MeasureKind kind, const Row& row) {
        Setting setting = set_up(plan_.circuit, predictor_.parameters(), placed(with, row), kind, row, fault(),
                                 predictor_.blown_before(), usual(Usual::ohms_test).value);
        Reading reading;
        if (!setting.beyond.empty()) return reading; // nothing computed: any outcome
        if (setting.term.own != none && setting.term.amps) {
            const double ohms = setting.term.own < static_cast<int>(shared_.size())
                                    ? shared_[setting.term.own]
                                    : draw(setting.network->parameters[setting.term.own]);
            setting.bench->instrument().siemens = 1 / ohms;
        }
        if (!settle(setting)) return std::nullopt;
        reading.kind = ReadingKind::number;
        const bool ohms = kind == MeasureKind::ohms || kind == MeasureKind::continuity, amps = setting.term.amps;
        const Admittance port = setting.bench->port();
        double value = amps ? std::abs(setting.bench->instrument_amps()) : setting.bench->port_volts();
        if (ohms) {
            if (port.g == 0) {
                reading.kind = kind == MeasureKind::ohms ? ReadingKind::open : ReadingKind::no;
                return reading;
            }
            value = 1 / port.g + between(usual(Usual::leads).low, usual(Usual::leads).high);
        } else if (!amps && port.g == 0) {
            value = 0; // floats: the display shows next to nothing
        }
        if (kind == MeasureKind::continuity) {
            reading.kind = value <= usual(Usual::beep).value ? ReadingKind::yes : ReadingKind::no;
            return reading;
        }
        if (kind == MeasureKind::testlamp) {
            reading.kind = std::abs(value) >= usual(Usual::lamp_seen).value * predictor_.parameters().system_volts
                               ? ReadingKind::yes
                               : ReadingKind::no;
            return reading;
        }
        const Meter meter = meter_for(plan_.circuit, ohms                         ? MeterFunction::ohms
                                                     : kind == MeasureKind::amps  ? MeterFunction::amps
                                                     : kind == MeasureKind::clamp ? MeterFunction::clamp
                                                                                  : MeterFunction::volts);
        const double gain =
            meter.offset >= 0 ? between(-1, 1) * meter.offset
                              : gain_ * meter.percent / 100 * value + between(-1, 1) * meter.digits * meter.step(value);
        reading.value = value + gain;
        reading.low = reading.high = reading.value;
        reading.carried = 1; // `no current` is not tried here
        return reading;
    }

    std::optional<RowPrediction> read_row(const Check& check, const Row& row) {
        RowPrediction made;
        const std::optional<Reading> here = measure(check.with, check.measure, row);
        if (!here) return std::nullopt;
        made.reading = *here;
        if (const Limit* limit = limit_of(check, row.name)) made.limit = *limit;
        if (!made.limit || made.limit->kind != LimitKind::within) return made;
        const Check& before = plan_.checks[made.limit->reference];
        const Row* points = &before.rows.front();
        for (const Row& each : before.rows)
            if (each.name == row.name) points = &each;
        const std::optional<Reading> there = measure(before.with, before.measure, *points);
        if (!there) return std::nullopt;
        made.difference = made.reading;
        made.difference->value = here->value - there->value;
        made.difference->low = made.difference->high = made.difference->value;
        return made;
    }

    bool look(const Check& check, CheckPrediction& seen) {
        Setting setting =
            set_up(plan_.circuit, predictor_.parameters(), setup_of(check), fault(), predictor_.blown_before());
        if (!settle(setting)) return false;
        seen.look = holds(setting, check.look_states);
        for (const Outcome& outcome : check.outcomes)
            seen.answers.push_back(outcome.states.empty() ? Truth::no : holds(setting, outcome.states));
        return true;
    }
    Truth holds(Setting& setting, const States& states) {
        bool all = !states.any;
        for (const State& state : states.list) {
            const bool one = is(setting, state);
            all = states.any ? all || one : all && one;
        }
        return all ? Truth::yes : Truth::no;
    }
    bool is(Setting& setting, const State& state) {
        const Network& net = *setting.network;
        const Part& part = plan_.circuit.parts[state.of.part];
        if (part.kind == PartKind::relay) {
            for (std::size_t i = 0; i < net.relays.size(); ++i)
                if (net.relays[i].part == state.of.part && stand_.in[i]) return state.verb == StateVerb::works;
            return state.verb == StateVerb::still;
        }
        if (part.kind == PartKind::fuse || part.kind == PartKind::breaker) {
            bool blown = false;
            for (const PartId each : predictor_.blown_before())
                blown |= each == state.of.part;
            for (std::size_t i = 0; i < net.fuses.size(); ++i)
                if (net.fuses[i].part == state.of.part)
                    blown |= stand_.blown[i] || net.branches[net.fuses[i].branch].law == Law::absent;
            return blown == (state.verb == StateVerb::blown || state.verb == StateVerb::fails);
        }
        for (std::size_t i = 0; i < net.graph.edges.size(); ++i) {
            const Edge& edge = net.graph.edges[i];
            if (edge.kind != EdgeKind::load || edge.part != state.of.part) continue;
            const NetBranch& branch = net.branches[i];
            const double volts = broken(setting, i) ? 0 : std::abs(setting.bench->volts(static_cast<int>(i)));
            const bool lamp = part.kind == PartKind::lamp;
            const double needs = part.needs ? part.needs->si
                                 : lamp     ? usual(Usual::lamp_lit).value * branch.volts
                                            : usual(Usual::load_needs).value * net.system_volts;
            const double starts = (lamp ? usual(Usual::lamp_dark).value : 0.02) * branch.volts;
            switch (state.verb) {
            case StateVerb::still:
            case StateVerb::dark: return volts < starts;
            case StateVerb::slow:
            case StateVerb::dim: return volts >= starts && volts < needs;
            case StateVerb::fails: return volts < needs;
            default: return volts >= needs;
            }
        }
        return false;
    }

    const Plan& plan_;
    const Predictor& predictor_;
    std::mt19937& random_;
    bool extreme_;
    std::vector<double> shared_, edge_;
    double gain_ = 0;
    Stand stand_;
};

// Where a car ends that answers each check as it reads, and the way there. A verdict that does not blame the fault goes
// on where it says so.
Ending walked(const Plan& plan, const Walker& walker, const Candidate& fault, TrialCar& car) {
    Ending ending;
    for (int here = 0;;) {
        const std::size_t outcome = car.outcome(plan.checks[here]);
        ending.last = {here, outcome};
        ending.way.push_back(ending.last);
        const Target* target = outcome == Taken::jumps ? nullptr : target_of(plan.checks[here], outcome);
        const auto goes_on = [](const Target& to) {
            return to.kind == TargetKind::check || to.kind == TargetKind::next;
        };
        if (target && target->kind == TargetKind::verdict && !walker.blames(target->index, fault) &&
            goes_on(plan.verdicts[target->index].then))
            target = &plan.verdicts[target->index].then;
        if (target && goes_on(*target) && ending.way.size() < 100) {
            here = target->index;
            continue;
        }
        ending.kind = !target || target->kind == TargetKind::suspects ? EndKind::suspects
                      : target->kind == TargetKind::verdict           ? EndKind::verdict
                                                                      : EndKind::done;
        if (ending.kind == EndKind::verdict) ending.verdict = target->index;
        return ending;
    }
}

// What ends at one verdict, or at one outcome that names its suspects, is told no further apart.
using Group = std::tuple<int, int, std::size_t>;
Group group_of(const Ending& ending) {
    return ending.kind == EndKind::verdict ? Group(ending.verdict, none, 0)
                                           : Group(none, ending.last.check, ending.last.outcome);
}
std::map<Group, std::vector<Suspect>> groups_of(const Diagnosis& diagnosis) {
    std::map<Group, std::vector<Suspect>> groups;
    for (std::size_t i = 0; i < diagnosis.ends.size(); ++i) {
        if (diagnosis.ends[i].fate != Fate::found) continue;
        for (const Ending& ending : diagnosis.ends[i].endings) {
            std::vector<Suspect>& list = groups[group_of(ending)];
            const Suspect& suspect = diagnosis.matrix.faults[i].suspect;
            if (std::find(list.begin(), list.end(), suspect) == list.end()) list.push_back(suspect);
        }
    }
    return groups;
}

} // namespace

TrialResult trial(const Plan& plan, const Diagnosis& diagnosis, std::size_t cars, unsigned seed) {
    constexpr int tries_inside = 40, tries_at_ends = 160; // of one fault, until its owner complains
    TrialResult result;
    std::mt19937 random(seed);
    const Predictor sound(plan.circuit, system_volts(plan));
    const std::vector<Setup> uses = normal_use(plan);
    const auto below = complaint_volts(plan, system_volts(plan));
    const auto groups = groups_of(diagnosis);
    std::vector<double> likely;
    for (const Candidate& fault : diagnosis.matrix.faults)
        likely.push_back(fault.likely);
    std::discrete_distribution<std::size_t> pick(likely.begin(), likely.end());
    for (std::size_t drawn = 0; result.cars < cars && drawn < 2 * cars; ++drawn) {
        const std::size_t index = pick(random);
        const Candidate& fault = diagnosis.matrix.faults[index];
        const Predictor predictor(sound, fault.fault, uses);
        std::optional<TrialCar> car;
        for (int tries = 0; tries < tries_inside + tries_at_ends; ++tries) {
            car.emplace(plan, predictor, random, tries >= tries_inside);
            if (car->complains(below)) break;
            car.reset();
        }
        if (!car) {
            ++result.silent;
            continue;
        }
        ++result.cars;
        const Ending ending = walked(plan, *diagnosis.walker, fault, *car);
        const Judgement judged = diagnosis.walker->judge(ending, fault);
        ++(judged == Judgement::found    ? result.found
           : judged == Judgement::open   ? result.stopped
           : judged == Judgement::missed ? result.missed
                                         : result.wrong);
        const bool sure = diagnosis.ends[index].fate == Fate::found;
        const auto group = sure ? groups.find(group_of(ending)) : groups.end();
        const bool strayed = sure && group == groups.end(), jumped = strayed && ending.last.outcome == Taken::jumps;
        result.sure += sure, result.strayed += strayed && !jumped, result.jumped += jumped;
        for (std::size_t i = 0; i < result.told.size(); ++i)
            result.told[i] += group != groups.end() && group->second.size() <= i + 1;
        if ((strayed && !jumped) || judged == Judgement::wrong || judged == Judgement::missed)
            if (result.worst.size() < 10)
                result.worst.push_back(
                    fmt::format("{}: {}", fault_words(plan.circuit, fault.fault), way_words(plan, ending.way)));
    }
    return result;
}

namespace {
struct Promise {
    const char* what;
    double printed;
    std::size_t measured, of;
    double share() const { return of ? static_cast<double>(measured) / static_cast<double>(of) : 1; }
};
std::array<Promise, 4> promises(const Figures& figures, const TrialResult& trial) {
    const Isolation& told = figures.isolation;
    return {{{"found", figures.found, trial.found, trial.cars},
             {"told to one", told.to_one, trial.told[0], trial.sure},
             {"to two", told.to_two, trial.told[1], trial.sure},
             {"to three", told.to_three, trial.told[2], trial.sure}}};
}
} // namespace

std::string broken_promises(const Figures& figures, const TrialResult& trial) {
    std::string text;
    if (trial.wrong && figures.wrong == 0) text += fmt::format("{} blamed something else; ", trial.wrong);
    if (trial.missed && figures.missed == 0) text += fmt::format("{} called sound; ", trial.missed);
    if (trial.strayed) text += fmt::format("{} ended where proof says they cannot; ", trial.strayed);
    for (const Promise& each : promises(figures, trial)) {
        const double error =
            4 * std::sqrt(each.printed * (1 - each.printed) / static_cast<double>(std::max<std::size_t>(each.of, 1)));
        if (each.share() < each.printed - error)
            text += fmt::format("{} {:.4f}, printed {:.4f}; ", each.what, each.share(), each.printed);
    }
    return text;
}

std::string trial_words(const Figures& figures, const TrialResult& trial) {
    std::string text = fmt::format("{} cars: found {}, stopped {}, called sound {}, wrong {}", trial.cars, trial.found,
                                   trial.stopped, trial.missed, trial.wrong);
    for (const Promise& each : promises(figures, trial))
        text += fmt::format("; {} {:.2f} % (printed {:.2f})", each.what, 100 * each.share(), 100 * each.printed);
    if (trial.jumped) text += fmt::format("; {} jumped unforeseen", trial.jumped);
    if (trial.silent) text += fmt::format("; {} drawn faults that nobody complained of", trial.silent);
    return text;
}

} // namespace loomsheet::lab
