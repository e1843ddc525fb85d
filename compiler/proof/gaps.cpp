#include "proof/gaps.hpp"
#include "circuit/rig.hpp"
#include "faults/together.hpp"
#include "model/change.hpp"
#include "proof/computed.hpp"
#include "proof/readings.hpp"
#include "proof/rules.hpp"
#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <memory>
#include <tuple>

namespace loomsheet {
namespace {

// All of them: common practice, no source.
constexpr double minutes_of_a_check = 3, minutes_of_a_change = 1;
constexpr double moves_volts = 0.05,
                 moves_share = 0.1; // V and share of the sound reading: less is no limit worth setting
constexpr std::size_t most_setups = 16, most_tried = 14, most_alike = 3, most_rounds = 3;

// Whether a set-up can be written into another check, and asked of a car at rest.
bool can_be_used(const Setup& setup) {
    return std::none_of(setup.items.begin(), setup.items.end(), [](const SetupItem& item) {
        return item.kind == ItemKind::one_of_pulled || item.kind == ItemKind::moved ||
               item.kind == ItemKind::as_found || item.kind == ItemKind::at_value ||
               item.kind == ItemKind::engine_speed;
    });
}

std::vector<Setup> setups_of(const Plan& plan) {
    std::vector<Setup> list;
    const auto add = [&](Setup setup) {
        for (SetupItem& item : setup.items)
            item.across_points = false; // it lies where it lay
        const bool known = std::any_of(list.begin(), list.end(), [&](const Setup& each) {
            return std::equal(
                each.items.begin(), each.items.end(), setup.items.begin(), setup.items.end(),
                [](const SetupItem& a, const SetupItem& b) { return same_subject(a, b) && same_state(a, b); });
        });
        if (!known && can_be_used(setup) && list.size() < most_setups) list.push_back(std::move(setup));
    };
    add(plan.complaint_with);
    for (const Check& check : plan.checks)
        add(setup_of(check));
    return list;
}

// The metals that a tip can be laid on, as a plan writes them: crimps in their cavities, sockets, ground points,
// battery posts.
std::vector<PointRef> points_of(const Circuit& circuit) {
    std::vector<PointRef> list;
    for (PinId pin = 0; pin < static_cast<PinId>(circuit.pins.size()); ++pin) {
        PointRef point;
        point.part = circuit.pins[pin].part, point.pin = pin;
        const Part& part = circuit.parts[point.part];
        if (circuit.wires_at(pin).empty() || (part.kind == PartKind::splice && !part.bare)) continue;
        if (part.kind == PartKind::battery) point.metal = Metal::part;
        if (part.kind == PartKind::ground) {
            const bool known =
                std::any_of(list.begin(), list.end(), [&](const PointRef& each) { return each.part == point.part; });
            if (known) continue;
            point.pin = none, point.metal = Metal::whole;
        }
        list.push_back(std::move(point));
    }
    return list;
}

NodeId node_of(const Circuit& circuit, const Graph& graph, const PointRef& point) {
    if (point.pin == none && point.part != none && !circuit.parts[point.part].pins.empty())
        return graph.wire_end[circuit.parts[point.part].pins.front()];
    return graph.node_of(point);
}

bool may_pass(OutcomeSet set) { return (set & outcome_bit(0)) != 0; }

class Closer {
public:
    Closer(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis)
        : plan_(plan), circuit_(plan.circuit), sound_(sound), diagnosis_(diagnosis), setups_(setups_of(plan)),
          points_(points_of(plan.circuit)), at_rest_(build_graph(plan.circuit)), uses_(normal_use(plan)),
          volts_(complaint_volts(plan, sound.parameters().system_volts)) {}

    void close(Gap& gap) {
        for (std::size_t round = 0; round < most_rounds && !gap.unseen.empty(); ++round) {
            std::optional<Closing> best;
            for (const Pair& pair : promising(gap)) {
                std::optional<Closing> made = tried(gap, pair);
                if (!made) continue;
                if (!best || worth(*made) > worth(*best) * 1.01 ||
                    (worth(*made) > worth(*best) * 0.99 && is_better(*made, *best)))
                    best = std::move(made);
            }
            if (!best) return;
            std::erase_if(gap.unseen, [&](std::size_t fault) {
                return std::find(best->closes.begin(), best->closes.end(), fault) != best->closes.end();
            });
            gap.closings.push_back(std::move(*best));
        }
    }

private:
    struct Pair { // candidate
        std::size_t setup = 0;
        PointRef red, black;
        double volts = 0;  // usual, on a sound car
        double moved = 0;  // likelihoods of the faults that move it
        double on_run = 0; // of those among them that lie between the two points
        std::string key;   // which faults move it
        double minutes = 0;
    };

    double likely(const std::vector<std::size_t>& faults) const {
        double sum = 0;
        for (const std::size_t fault : faults)
            sum += diagnosis_.matrix.faults[fault].likely;
        return sum;
    }
    // Suspects that all lie between the two points are soon found.
    double worth(const Closing& closing) const { return likely(closing.closes) * (closing.named_by_run ? 3 : 1); }
    static bool is_better(const Closing& a, const Closing& b) {
        if (a.minutes < b.minutes - 0.1 || b.minutes < a.minutes - 0.1) return a.minutes < b.minutes;
        return a.named.size() < b.named.size();
    }
    const Predictor& car(std::size_t fault) {
        std::unique_ptr<Predictor>& made = cars_[fault];
        const Fault& of = diagnosis_.matrix.faults[fault].fault;
        if (!made) made = std::make_unique<Predictor>(sound_, of, can_blow(of.kind) ? uses_ : std::vector<Setup>());
        return *made;
    }

    // Volts of all points on a car whose values are all usual; empty where it does not come to rest.
    std::vector<double> volts_at_points(const Predictor& of, const Setup& setup) {
        const Setting& setting = of.rig(setup).setting();
        Stand stand = setting.from;
        if (setting.bench->settle(usual_values(*setting.network), stand) != Settling::settled) return {};
        std::vector<double> volts;
        for (const PointRef& point : points_) {
            const NodeId node = node_of(circuit_, setting.network->graph, point);
            volts.push_back(node == none ? 0 : setting.bench->node_volts(node));
        }
        return volts;
    }

    // What costs time: panels that come off for a point or for what the set-up takes off, and what changes against the
    // check before.
    double minutes(const Gap& gap, const Setup& setup, const PointRef& red, const PointRef& black) const {
        std::vector<PanelId> panels;
        const auto open = [&](PartId part) {
            const PanelId panel = part == none ? PanelId{none} : circuit_.panel_of(part);
            if (panel != none && std::find(panels.begin(), panels.end(), panel) == panels.end())
                panels.push_back(panel);
        };
        open(red.part), open(black.part);
        for (const SetupItem& item : setup.items)
            if (item.kind == ItemKind::pulled || item.kind == ItemKind::unplugged) open(item.part);
        double all = minutes_of_a_check;
        for (const PanelId panel : panels)
            all += circuit_.panels[panel].time ? circuit_.panels[panel].time->si / 60 : 0;
        for (const Change& change : changes(setup_of(plan_.checks[gap.arrows.front().check]), setup))
            all += change.kind == ChangeKind::keep ? 0 : minutes_of_a_change;
        return all;
    }

    // The pairs of points that most of the faults move, and of several that do, those that move most for what they
    // read.
    std::vector<Pair> promising(const Gap& gap) {
        std::vector<std::size_t> asked; // of each suspect the least ohms, and all else
        for (const std::size_t fault : gap.unseen) {
            const Candidate& each = diagnosis_.matrix.faults[fault];
            const bool larger = !asked.empty() && each.fault.kind == FaultKind::added &&
                                diagnosis_.matrix.faults[asked.back()].fault.kind == FaultKind::added &&
                                diagnosis_.matrix.faults[asked.back()].suspect == each.suspect;
            if (!larger) asked.push_back(fault);
        }
        std::vector<Pair> list;
        for (std::size_t s = 0; s < setups_.size(); ++s) {
            const std::vector<double> sound = volts_at_points(sound_, setups_[s]);
            if (sound.empty()) continue;
            std::vector<std::pair<std::vector<double>, double>> with; // and how likely
            for (const std::size_t fault : asked)
                with.emplace_back(volts_at_points(car(fault), setups_[s]), diagnosis_.matrix.faults[fault].likely);
            for (std::size_t a = 0; a < points_.size(); ++a)
                for (std::size_t b = 0; b < points_.size(); ++b) {
                    const double reads = sound[a] - sound[b];
                    if (a == b || reads <= 0) continue;
                    Pair pair{s, points_[a], points_[b], reads, 0, 0, {}, 0};
                    for (const auto& [volts, weight] : with) {
                        const bool moves =
                            !volts.empty() && std::abs(volts[a] - volts[b] - reads) > moves_volts + moves_share * reads;
                        pair.key.push_back(moves ? 'x' : '.');
                        if (moves) pair.moved += weight;
                    }
                    if (pair.moved > 0) list.push_back(std::move(pair));
                }
        }
        for (Pair& pair : list)
            pair.minutes = minutes(gap, setups_[pair.setup], pair.red, pair.black);
        // Of all that the same faults move, the quickest; of these the one that reads least on a sound car: there the
        // least ohms show.
        std::stable_sort(list.begin(), list.end(), [](const Pair& a, const Pair& b) {
            return std::tie(a.key, a.minutes, a.volts) < std::tie(b.key, b.minutes, b.volts);
        });
        std::vector<Pair> few;
        for (Pair& pair : list)
            if (few.size() < most_alike || few[few.size() - most_alike].key != pair.key) few.push_back(std::move(pair));
        list = std::move(few);
        for (Pair& pair : list) {
            const std::vector<Suspect> run = suspects_between(circuit_, at_rest_, pair.red, pair.black);
            for (std::size_t i = 0; i < asked.size(); ++i) {
                const Candidate& fault = diagnosis_.matrix.faults[asked[i]];
                if (pair.key[i] == 'x' && std::find(run.begin(), run.end(), fault.suspect) != run.end())
                    pair.on_run += fault.likely;
            }
        }
        std::stable_sort(list.begin(), list.end(), [](const Pair& a, const Pair& b) {
            const auto worth = [](const Pair& pair) {
                return (pair.moved + 3 * pair.on_run) / (1 + pair.volts) / (10 + pair.minutes);
            };
            return worth(a) > worth(b) * (1 + 1e-9);
        });
        if (list.size() > most_tried) list.resize(most_tried);
        return list;
    }

    OutcomeSet outcomes(std::size_t fault, const Check& check) {
        const Predictor& of = car(fault);
        const CheckPrediction made = predict_for_outcome(plan_, of, check);
        if (!volts_ || diagnosis_.matrix.harm[fault] != Truth::maybe) return outcomes_of(check, made);
        Together together(plan_, of, *volts_);
        return outcomes_of(check, made, [&](std::size_t row, Answer answer) {
            return together.possible(check, &made.rows[row], row, answer);
        });
    }

    // The rules of a single check, as they would be asked if it stood in the plan.
    bool is_clean(const Check& check) const {
        Plan alone = plan_;
        alone.checks = {check}, alone.verdicts.clear(), alone.plants.clear(), alone.setups.clear(),
        alone.complaint_with = {};
        Findings found;
        const Doubt doubt = doubt_of(alone, found);
        prove_setup(alone, doubt, found);
        prove_readings(alone, sound_, {predict_check(alone, sound_, check)}, found);
        return std::all_of(found.list().begin(), found.list().end(), [](const Diagnostic& each) {
            return each.code == 617 || each.code == 618; // of the circuit
        });
    }

    std::optional<Closing> tried(const Gap& gap, const Pair& pair) {
        Closing made;
        Check& check = made.check;
        check.with = setups_[pair.setup];
        Row row;
        row.red = pair.red, row.black = pair.black;
        check.rows = {row};
        check.outcomes.resize(2);
        check.outcomes[0].kind = OutcomeKind::pass, check.outcomes[1].kind = OutcomeKind::fail;
        const Reading reading = sound_.read(check.with, MeasureKind::volts, row);
        if (reading.kind != ReadingKind::number || reading.may_chatter) return std::nullopt;
        bool clean = false;
        for (const MeasureKind kind : {MeasureKind::drop, MeasureKind::volts}) {
            check.measure = kind;
            const std::optional<Limit> limit = computed_limit(circuit_, kind, reading);
            if (!limit) return std::nullopt;
            check.limits = {*limit};
            if (clean = is_clean(check); clean) break;
        }
        if (!clean) return std::nullopt;
        const auto name = [&](std::size_t fault) {
            const Suspect& suspect = diagnosis_.matrix.faults[fault].suspect;
            if (std::find(made.named.begin(), made.named.end(), suspect) == made.named.end())
                made.named.push_back(suspect);
        };
        for (const std::size_t fault : gap.unseen) {
            const OutcomeSet set = outcomes(fault, check);
            if (!may_pass(set) && (set & stop_bit) == 0) made.closes.push_back(fault);
            if (set != outcome_bit(0)) name(fault);
        }
        if (made.closes.empty()) return std::nullopt;
        for (const std::size_t fault : gap.rightly)
            if (outcomes(fault, check) != outcome_bit(0)) name(fault);
        const std::vector<Suspect> run = suspects_between(circuit_, at_rest_, row.red, row.black);
        made.named_by_run = std::all_of(made.named.begin(), made.named.end(), [&](const Suspect& each) {
            return std::find(run.begin(), run.end(), each) != run.end();
        });
        made.minutes = pair.minutes;
        return made;
    }

    const Plan& plan_;
    const Circuit& circuit_;
    const Predictor& sound_;
    const Diagnosis& diagnosis_;
    std::vector<Setup> setups_;
    std::vector<PointRef> points_;
    Graph at_rest_;
    std::vector<Setup> uses_;
    std::optional<ComplaintVolts> volts_;
    std::map<std::size_t, std::unique_ptr<Predictor>> cars_;
};

} // namespace

std::vector<Gap> gaps(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, std::size_t searched) {
    std::vector<Gap> list;
    double all = 0;
    const auto at_ending = [&](const Ending& ending) {
        return std::find_if(list.begin(), list.end(), [&](const Gap& gap) {
            return gap.verdict == ending.verdict &&
                   (ending.kind == EndKind::verdict || gap.arrows.front() == ending.last);
        });
    };
    const auto each_ending = [&](const auto& take) {
        for (std::size_t i = 0; i < diagnosis.ends.size(); ++i)
            for (std::size_t e = 0; e < diagnosis.ends[i].endings.size(); ++e)
                take(i, diagnosis.ends[i].endings[e], diagnosis.ends[i].judged[e]);
    };
    for (const Candidate& fault : diagnosis.matrix.faults)
        all += fault.likely;
    each_ending([&](std::size_t fault, const Ending& ending, Judgement judged) {
        if (judged != Judgement::wrong && judged != Judgement::missed) return;
        if (ending.last.outcome == Taken::jumps) return;
        auto at = at_ending(ending);
        if (at == list.end()) {
            at = list.insert(at, Gap{});
            at->verdict = ending.verdict, at->arrows = {ending.last};
        }
        at->faults.push_back(fault), at->likely += diagnosis.matrix.faults[fault].likely / all;
    });
    each_ending([&](std::size_t fault, const Ending& ending, Judgement judged) {
        if (judged == Judgement::found)
            if (const auto at = at_ending(ending); at != list.end()) at->rightly.push_back(fault);
    });
    for (Gap& gap : list) {
        gap.unseen = gap.faults;
        if (gap.verdict == none) continue;
        gap.arrows.clear();
        for (int c = 0; c < static_cast<int>(plan.checks.size()); ++c)
            for (std::size_t o = 0; o < plan.checks[c].outcomes.size(); ++o)
                if (const Target& target = plan.checks[c].outcomes[o].target;
                    target.kind == TargetKind::verdict && target.index == gap.verdict)
                    gap.arrows.push_back({c, o});
    }
    std::stable_sort(list.begin(), list.end(),
                     [](const Gap& a, const Gap& b) { return a.likely > b.likely * (1 + 1e-9); });
    Closer closer(plan, sound, diagnosis);
    for (std::size_t i = 0; i < std::min(searched, list.size()); ++i)
        closer.close(list[i]);
    return list;
}

} // namespace loomsheet
