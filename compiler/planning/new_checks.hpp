// Checks that a plan has not yet: volts and drops between points that can be reached, in the set-ups that it has; what
// each fault reads there, and whether it would fail.
#pragma once
#include "circuit/rig.hpp"
#include "faults/diagnosis.hpp"
#include "faults/together.hpp"
#include <map>
#include <memory>

namespace loomsheet {

inline constexpr double told_volts = 0.001; // V: what a meter shows on its finest range; common practice, no source

struct ProbePair { // where two tips may be laid
    std::size_t setup = 0;
    std::size_t red = 0, black = 0;
    double volts = 0; // usual, on a sound car: above 0
};
// What faults read at a pair, in volts, in their order; infinite where the car comes to no rest.
using PairReadings = std::vector<double>;

class NewChecks {
public:
    NewChecks(const Plan& plan, const Predictor& sound, const Diagnosis& diagnosis);

    // Every pair in every set-up, with usual values.
    template <class Take>
    void each_pair(const std::vector<std::size_t>& faults, Take&& take) {
        for (std::size_t s = 0; s < setups_.size(); ++s) {
            const std::vector<double> sound = volts_at_points(sound_, setups_[s]);
            if (sound.empty()) continue;
            std::vector<std::vector<double>> with;
            for (const std::size_t fault : faults)
                with.push_back(volts_at_points(car(fault), setups_[s]));
            PairReadings readings(with.size());
            for (std::size_t a = 0; a < points_.size(); ++a)
                for (std::size_t b = 0; b < points_.size(); ++b) {
                    const double reads = sound[a] - sound[b];
                    if (a == b || reads <= 0) continue;
                    for (std::size_t i = 0; i < with.size(); ++i)
                        readings[i] = with[i].empty() ? no_rest : with[i][a] - with[i][b];
                    take(ProbePair{s, a, b, reads}, readings);
                }
        }
    }
    // Whether a reading is so far from the sound one that a limit may stand between them.
    static bool is_moved(const ProbePair& pair, double reads);

    // With the limit of a sound car; none where the rules find something in it.
    std::optional<Check> made(const ProbePair& pair) const;
    OutcomeSet outcomes(std::size_t fault, const Check& check);
    std::vector<Suspect> run(const ProbePair& pair) const; // what lies between the two points
    // Over the check before: panels that come off, and what changes.
    double minutes(int before, const ProbePair& pair) const;
    // Of several bands of ohms at one place the least, and all else.
    std::vector<std::size_t> least_of(const std::vector<std::size_t>& faults) const;
    double likely(const std::vector<std::size_t>& faults) const;
    const Candidate& fault(std::size_t which) const { return diagnosis_.matrix.faults[which]; }

private:
    static constexpr double no_rest = 1e300;
    const Predictor& car(std::size_t fault);
    std::vector<double> volts_at_points(const Predictor& of, const Setup& setup) const;
    bool is_clean(const Check& check) const;

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

inline bool surely_fails(OutcomeSet set) { return (set & (outcome_bit(0) | stop_bit)) == 0; }
inline bool surely_passes(OutcomeSet set) { return set == outcome_bit(0); }
void add_once(std::vector<Suspect>& list, const Suspect& suspect);

} // namespace loomsheet
