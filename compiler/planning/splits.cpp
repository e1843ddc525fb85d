#include "planning/splits.hpp"
#include "planning/new_checks.hpp"
#include <algorithm>
#include <cmath>
#include <tuple>

namespace loomsheet {
namespace {

constexpr std::size_t split_checks = 16;
constexpr double worth_it = 0.75; // of the suspects; more is not worth the walk

class Splitter {
public:
    Splitter(const Plan& plan, const Diagnosis& diagnosis, NewChecks& checks, Split& split) : plan_(plan), checks_(checks), split_(split) {
        for (std::size_t i = 0; i < diagnosis.ends.size(); ++i)
            for (const Ending& ending : diagnosis.ends[i].endings)
                if (ending.kind == EndKind::verdict && ending.verdict == split.left.verdict) {
                    faults_.push_back(i);
                    break;
                }
    }

    void find() {
        double& best = split_.remain = static_cast<double>(split_.left.suspects.size());
        for (const Promise& promise : promising()) {
            const std::optional<Check> check = checks_.made(promise.pair);
            if (!check) continue;
            ++split_.tried;
            std::vector<Side> sides;
            for (const std::size_t fault : faults_) {
                const OutcomeSet set = checks_.outcomes(fault, *check);
                sides.push_back(surely_fails(set) ? Side::fails : surely_passes(set) ? Side::passes : Side::either);
            }
            Parted parted = part(faults_, sides);
            // As good as the best: the quicker one.
            const bool as_good = parted.left > best * 0.98;
            if (parted.left > best * (split_.check ? 1.02 : 0.99) || (as_good && split_.check && promise.minutes >= split_.minutes))
                continue;
            best = std::min(best, parted.left);
            split_.check = check, split_.minutes = promise.minutes;
            split_.passing = std::move(parted.passing), split_.failing = std::move(parted.failing);
        }
        split_.alike = !split_.check && are_alike();
    }

private:
    enum class Side : std::uint8_t { passes, fails, either };
    struct Promise {
        ProbePair pair;
        double left = 0;
        std::string key;
        double minutes = 0;
    };
    struct Parted {
        std::vector<Suspect> passing, failing;
        double left = 0; // suspects on the fault's side, on average
    };

    Parted part(const std::vector<std::size_t>& faults, const std::vector<Side>& sides) const {
        Parted made;
        for (std::size_t i = 0; i < faults.size(); ++i) {
            const Suspect& suspect = checks_.fault(faults[i]).suspect;
            if (sides[i] != Side::fails) add_once(made.passing, suspect);
            if (sides[i] != Side::passes) add_once(made.failing, suspect);
        }
        const auto passing = static_cast<double>(made.passing.size()), failing = static_cast<double>(made.failing.size());
        double all = 0;
        for (std::size_t i = 0; i < faults.size(); ++i) {
            const double likely = checks_.fault(faults[i]).likely;
            all += likely;
            made.left += likely * (sides[i] == Side::passes ? passing : sides[i] == Side::fails ? failing : std::max(passing, failing));
        }
        made.left /= all;
        return made;
    }

    int check_before() const {
        for (int c = 0; c < static_cast<int>(plan_.checks.size()); ++c)
            for (const Outcome& outcome : plan_.checks[c].outcomes)
                if (outcome.target.kind == TargetKind::verdict && outcome.target.index == split_.left.verdict) return c;
        return 0;
    }

    // Of the pairs that part them alike the one that reads least: there the least ohms show.
    std::vector<Promise> promising() const {
        const std::vector<std::size_t> asked = checks_.least_of(faults_);
        const int before = check_before();
        std::vector<Promise> list;
        std::vector<Side> sides(asked.size());
        checks_.each_pair(asked, [&](const ProbePair& pair, const PairReadings& readings) {
            Promise made{pair, 0, {}, 0};
            for (std::size_t i = 0; i < asked.size(); ++i) {
                sides[i] = NewChecks::is_moved(pair, readings[i]) ? Side::fails : Side::passes;
                made.key.push_back(sides[i] == Side::fails ? 'x' : '.');
            }
            if (made.key.find_first_not_of(made.key.front()) == std::string::npos) return;
            made.left = part(asked, sides).left;
            made.minutes = checks_.minutes(before, pair);
            list.push_back(std::move(made));
        });
        std::stable_sort(list.begin(), list.end(), [](const Promise& a, const Promise& b) {
            return std::tie(a.key, a.minutes, a.pair.volts) < std::tie(b.key, b.minutes, b.pair.volts);
        });
        std::vector<Promise> few;
        for (Promise& each : list)
            if (few.size() < 2 || few[few.size() - 2].key != each.key) few.push_back(std::move(each));
        std::stable_sort(few.begin(), few.end(), [](const Promise& a, const Promise& b) { return a.left < b.left * (1 - 1e-9); });
        if (few.size() > split_checks) few.resize(split_checks);
        return few;
    }

    // The worst fault of each suspect is the last that was tried.
    bool are_alike() const {
        std::vector<std::size_t> worst;
        for (std::size_t i = 0; i < faults_.size(); ++i)
            if (i + 1 == faults_.size() || !(checks_.fault(faults_[i]).suspect == checks_.fault(faults_[i + 1]).suspect))
                worst.push_back(faults_[i]);
        bool alike = true;
        checks_.each_pair(worst, [&](const ProbePair&, const PairReadings& readings) {
            const auto [least, most] = std::minmax_element(readings.begin(), readings.end());
            alike = alike && *most - *least < told_volts;
        });
        return alike;
    }

    const Plan& plan_;
    NewChecks& checks_;
    Split& split_;
    std::vector<std::size_t> faults_; // that may end at the verdict
};

} // namespace

std::vector<Split> splits(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis, std::size_t searched) {
    std::vector<Split> list;
    const std::vector<int> doubtful = doubtful_ends(diagnosis).verdicts; // those are gaps
    for (Left& left : groups(diagnosis))
        if (left.suspects.size() > most_left && std::find(doubtful.begin(), doubtful.end(), left.verdict) == doubtful.end())
            list.push_back({std::move(left), {}, {}, {}, 0, 0, 0, false});
    NewChecks checks(plan, sound, diagnosis);
    for (std::size_t i = 0; i < std::min(searched, list.size()); ++i)
        Splitter(plan, diagnosis, checks, list[i]).find();
    return list;
}

bool Split::is_worth_it() const { return check && remain <= worth_it * static_cast<double>(left.suspects.size()); }

} // namespace loomsheet
