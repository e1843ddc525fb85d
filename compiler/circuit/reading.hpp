// What an instrument shows between two points of a circuit in a set-up: its value, and the range it has in sound cars.
#pragma once
#include "circuit/meter.hpp"
#include "circuit/parameters.hpp"
#include "model/change.hpp"
#include "model/plan.hpp"
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace loomsheet {

enum class ReadingKind : std::uint8_t {
    number,
    open,     // ohms: nothing joins the points. A beeper is silent: `no`
    floating, // volts: nothing joins the points; the display may show anything near 0, from low to high
    yes,
    no,       // lit, beeping; not so
    unsure,   // yes in one sound car, no in another
    chatters, // the circuit comes to no rest
    history,  // hangs on what was before
    beyond,   // not modelled: `why` says what
};

// A relay, a module or an input of one whose threshold lies inside the range of its volts.
struct InDoubt {
    PartId part = none;
    double low = 0, high = 0; // V that it gets
    double on = 0, off = 0;   // V: surely on from, surely off up to
    PinId input = none;       // of the module, where that is what may stand otherwise
};

struct Reading {
    ReadingKind kind = ReadingKind::beyond;
    double value = 0;                       // V, ohm, A; of a test lamp its volts, of a beeper the ohms
    double low = 0, high = 0;               // guaranteed: every value at either end of its range, and the meter's error
    double likely_low = 0, likely_high = 0; // typical: root of the sum of squares
    double bare_low = 0, bare_high = 0;     // guaranteed, by a perfect meter with perfect leads
    double carried = 0;                     // A that usually flow along the points of a drop, by the shortest way
    double carried_low = 0,
           carried_high = 0;       // A, near where a meter shows nothing: of all cars and stands, where least and where most flows
    double residual = 0;           // ohms: what still drives the points, as a share of the test current
    double burden = 0;             // amps in line: the share that the meter itself takes off
    bool floats = false;           // or did in some stand: what is near 0 is a ghost
    bool may_be_open = false;      // ohms: of kind `open`, or a number in some cars and open in others
    bool may_chatter = false;      // some cars come to no rest
    std::vector<InDoubt> in_doubt; // what may stand otherwise within its tolerances: not all sound cars read alike
    std::string why;

    bool is_number() const { return kind == ReadingKind::number || kind == ReadingKind::floating; }
};
void unite(std::optional<Reading>& all, Reading more); // what either may show

inline constexpr double display_end_ohms = 20e6; // more shows as open

// A state that is looked for: surely so, surely not, or hangs on tolerances.
enum class Truth : std::uint8_t { no, yes, maybe, jumps, unknown }; // jumps: the circuit chatters

// What may be seen of several states at once: each combination in which some car may stand.
struct Sights {
    std::vector<std::uint64_t> seen; // bit i: state i holds. Empty where no car comes to rest
    std::uint64_t unknown = 0;       // states that are not computed: they may hold or not
    bool computed = true;            // else nothing is known of any
    bool may_jump = false;           // some car comes to no rest
};
struct Sight { // one of them
    std::uint64_t holds = 0, unknown = 0;
};
// Whether these states hold together, the first of them being bit `first` of the sight.
Truth holds(const States& states, std::size_t first, const Sight& sight);

using Blown = std::vector<PartId>; // fuses that normal use has blown
class Rig;
class Rigs;
struct Extent;
struct RiggedCar;

// A circuit, sound or with one fault, that is measured. Set-ups have their loads placed. What is built for one car serves all
// that were made from the same sound one: they belong to one thread.
class Predictor {
public:
    Predictor(const Circuit& circuit, double system_volts);
    // The same car with a fault. What it was used for before has blown the fuses that the fault blows, and left on what it holds on.
    Predictor(const Predictor& sound, const Fault& fault, const std::vector<Setup>& used_before);
    Predictor(const Predictor&) = delete;
    Predictor& operator=(const Predictor&) = delete;

    Reading read(const Setup& setup, MeasureKind measure, const Row& row) const;
    // Only whether it comes to rest: a number without its value, else as `read`.
    Reading rest(const Setup& setup, MeasureKind measure, const Row& row) const;
    // The same minus another reading of the same meter: what both share cancels.
    Reading difference(const Setup& setup, MeasureKind measure, const Row& row, const Setup& before, MeasureKind measure_before,
                       const Row& row_before) const;
    Sights see(const Setup& setup, std::span<const State> states) const; // 64 states at most
    // V along a load, by their size, as it stands; none where it has no branch there.
    std::optional<Extent> load_volts(const Setup& setup, PartId load) const;
    Truth looks(const Setup& setup, const State& state) const;
    Truth looks(const Setup& setup, const States& states) const; // together, as it stands
    // Why that is unknown: "S9 (Inertia switch) has no state that is computed"; empty where it is not.
    std::string not_computed(const Setup& setup, const States& states) const;
    // Fuses that normal use has blown before the plan starts: surely; or in some cars.
    const Blown& blown_before() const { return surely_blown_; }
    const Blown& may_be_blown_before() const { return may_be_blown_; }

    // The settings that it is measured in: of a row, or with nothing measured.
    Rig& rig(const Setup& setup, MeasureKind measure, const Row& row, double ohms_volts) const;
    Rig& rig(const Setup& setup) const;

    const Circuit& circuit() const { return circuit_; }
    const Parameters& parameters() const { return *parameters_; }
    const std::optional<Fault>& fault() const { return fault_; }

private:
    const Circuit& circuit_;
    std::shared_ptr<const Parameters> parameters_;
    std::optional<Fault> fault_;
    void use(const Setup& setup);
    std::vector<Blown> blown_{{}}; // one of them is so
    Blown surely_blown_, may_be_blown_;
    std::vector<Setup> uses_; // before
    std::shared_ptr<Rigs> rigs_;
    std::shared_ptr<RiggedCar> car_; // its part of them
};

// `one of F30 F31 pulled`: a set-up for each; `B5 from released to pressed`: one for each end.
std::vector<Setup> one_by_one(const Setup& setup);
// The open volts of ohmmeters: the usual one, then the least and the most; of other instruments any.
std::vector<double> ohmmeter_volts(MeasureKind measure);

} // namespace loomsheet
