#include "planning/gaps.hpp"
#include "planning/new_checks.hpp"
#include <algorithm>
#include <cmath>
#include <tuple>

namespace loomsheet {
namespace {

constexpr std::size_t most_tried = 14, most_alike = 3, most_rounds = 3;

class Closer {
public:
    explicit Closer(NewChecks& checks) : checks_(checks) {}

    void close(Gap& gap) {
        for (std::size_t round = 0; round < most_rounds && !gap.unseen.empty(); ++round) {
            std::optional<Closing> best;
            for (const Promise& promise : promising(gap)) {
                std::optional<Closing> made = tried(gap, promise);
                if (!made) continue;
                if (!best || worth(*made) > worth(*best) * 1.01 || (worth(*made) > worth(*best) * 0.99 && is_better(*made, *best)))
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
    struct Promise { // of a pair
        ProbePair pair;
        double moved = 0;  // likelihoods of the faults that move it
        double on_run = 0; // of those among them that lie between the two points
        std::string key;   // which faults move it
        double minutes = 0;
    };

    // Suspects that all lie between the two points are soon found.
    double worth(const Closing& closing) const { return checks_.likely(closing.closes) * (closing.named_by_run ? 3 : 1); }
    static bool is_better(const Closing& a, const Closing& b) {
        if (a.minutes < b.minutes - 0.1 || b.minutes < a.minutes - 0.1) return a.minutes < b.minutes;
        return a.named.size() < b.named.size();
    }

    // The pairs of points that most of the faults move, and of several that do, those that move most for what they
    // read.
    std::vector<Promise> promising(const Gap& gap) {
        const std::vector<std::size_t> asked = checks_.least_of(gap.unseen);
        std::vector<Promise> list;
        checks_.each_pair(asked, [&](const ProbePair& pair, const PairReadings& readings) {
            Promise made{pair, 0, 0, {}, 0};
            for (std::size_t i = 0; i < asked.size(); ++i) {
                const bool moves = NewChecks::is_moved(pair, readings[i]);
                made.key.push_back(moves ? 'x' : '.');
                if (moves) made.moved += checks_.fault(asked[i]).likely;
            }
            if (made.moved > 0) list.push_back(std::move(made));
        });
        for (Promise& promise : list)
            promise.minutes = checks_.minutes(gap.arrows.front().check, promise.pair);
        // Of all that the same faults move, the quickest; of these the one that reads least on a sound car: there the
        // least ohms show.
        std::stable_sort(list.begin(), list.end(), [](const Promise& a, const Promise& b) {
            return std::tie(a.key, a.minutes, a.pair.volts) < std::tie(b.key, b.minutes, b.pair.volts);
        });
        std::vector<Promise> few;
        for (Promise& each : list)
            if (few.size() < most_alike || few[few.size() - most_alike].key != each.key) few.push_back(std::move(each));
        list = std::move(few);
        for (Promise& each : list) {
            const std::vector<Suspect> run = checks_.run(each.pair);
            for (std::size_t i = 0; i < asked.size(); ++i) {
                const Candidate& fault = checks_.fault(asked[i]);
                if (each.key[i] == 'x' && std::find(run.begin(), run.end(), fault.suspect) != run.end()) each.on_run += fault.likely;
            }
        }
        std::stable_sort(list.begin(), list.end(), [](const Promise& a, const Promise& b) {
            const auto worth = [](const Promise& each) {
                return (each.moved + 3 * each.on_run) / (1 + each.pair.volts) / (10 + each.minutes);
            };
            return worth(a) > worth(b) * (1 + 1e-9);
        });
        if (list.size() > most_tried) list.resize(most_tried);
        return list;
    }

    std::optional<Closing> tried(const Gap& gap, const Promise& promise) {
        std::optional<Check> check = checks_.made(promise.pair);
        if (!check) return std::nullopt;
        Closing made;
        made.check = std::move(*check);
        for (const std::size_t fault : gap.unseen) {
            const OutcomeSet set = checks_.outcomes(fault, made.check);
            if (surely_fails(set)) made.closes.push_back(fault);
            if (!surely_passes(set)) add_once(made.named, checks_.fault(fault).suspect);
        }
        if (made.closes.empty()) return std::nullopt;
        for (const std::size_t fault : gap.rightly)
            if (!surely_passes(checks_.outcomes(fault, made.check))) add_once(made.named, checks_.fault(fault).suspect);
        const std::vector<Suspect> run = checks_.run(promise.pair);
        made.named_by_run = std::all_of(made.named.begin(), made.named.end(),
                                        [&](const Suspect& each) { return std::find(run.begin(), run.end(), each) != run.end(); });
        made.minutes = promise.minutes;
        return made;
    }

    NewChecks& checks_;
};

// Moved out of `unseen`: what changes no volts that a meter could show.
void keep_invisible(NewChecks& checks, Gap& gap) {
    std::vector<bool> shows(gap.unseen.size());
    checks.each_pair(gap.unseen, [&](const ProbePair& pair, const PairReadings& readings) {
        for (std::size_t i = 0; i < readings.size(); ++i)
            shows[i] = shows[i] || std::abs(readings[i] - pair.volts) > told_volts;
    });
    std::vector<std::size_t> unseen;
    for (std::size_t i = 0; i < gap.unseen.size(); ++i)
        (shows[i] ? unseen : gap.invisible).push_back(gap.unseen[i]);
    gap.unseen = std::move(unseen);
}

} // namespace

std::vector<Gap> gaps(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, std::size_t searched) {
    std::vector<Gap> list;
    double all = 0;
    const auto at_ending = [&](const Ending& ending) {
        return std::find_if(list.begin(), list.end(), [&](const Gap& gap) {
            return gap.verdict == ending.verdict && (ending.kind == EndKind::verdict || gap.arrows.front() == ending.last);
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
    std::stable_sort(list.begin(), list.end(), [](const Gap& a, const Gap& b) { return a.likely > b.likely * (1 + 1e-9); });
    NewChecks checks(plan, sound, diagnosis);
    for (std::size_t i = 0; i < std::min(searched, list.size()); ++i) {
        keep_invisible(checks, list[i]);
        Closer(checks).close(list[i]);
    }
    return list;
}

} // namespace loomsheet
