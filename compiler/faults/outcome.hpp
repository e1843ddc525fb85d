// Where what is read leads: the outcome that the printed check gives to a reading. The one place that knows; the walk, the
// predictions and the words on paper all ask here.
#pragma once
#include "circuit/reading.hpp"
#include "model/plan.hpp"
#include <algorithm>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace loomsheet {

// Outcomes of one check. Bit i is outcome i; the bit after the last is the fail that the plan left out, which means suspects.
using OutcomeSet = std::uint64_t;
inline OutcomeSet outcome_bit(std::size_t outcome) { return OutcomeSet{1} << std::min<std::size_t>(outcome, 62); }
inline constexpr OutcomeSet stop_bit = OutcomeSet{1} << 63;            // the reading jumps: the sheet says stop
inline bool is_sure(OutcomeSet set) { return (set & (set - 1)) == 0; } // one outcome only
OutcomeSet every_outcome(const Check& check);
const Target* target_of(const Check& check, std::size_t outcome); // null: suspects, nothing named

enum class Answer : std::uint8_t { pass, low, high, other }; // of a row; of a look low is its NO

// A piece of what a row can show, and the outcome that it has.
struct ReadCase {
    enum class Shown : std::uint8_t { number, open, yes, no } shown = Shown::number;
    double low = 0, high = 0; // of a number: open ends, or one point
    Answer answer = Answer::pass;
    std::size_t outcome = 0; // of a pass: where all rows pass
    bool holds(double from, double to) const { return low == high ? from <= low && low <= to : from < high && low < to; }
};
// All that a row can show, each reading in one case; none where it has no limit. Named as its row, or as the part
// of `one of` that is pulled; empty where there is one row only.
std::vector<ReadCase> cases_of(const Check& check, const std::string& name);

std::size_t pass_of(const Check& check, const std::string& name);
std::size_t fail_of(const Check& check, const std::string& name);
// Where nothing flows though all rows pass; none where the check does not ask. With 0 A every drop is 0 V and proves nothing.
std::optional<std::size_t> no_current_of(const Check& check);
// Of a look, with one sight of its states (`look_states` first, then those of the outcomes in their order).
OutcomeSet outcomes_of(const Check& check, const Sight& sight);
std::vector<State> states_of(const Check& check);
// Of a car that rattles: a reading jumps, and the sheet says stop; a look is NO unless an answer says so. What rattles does not do its
// work.
OutcomeSet outcome_of_rattling(const Check& check);

// Whether something may be read that no outcome of the plan names: the sheet then prints a line for it, which leads to the suspects.
bool leaves_something(const Check& check);

// The numbers that a limit takes for good. Volts below a limit may have either sign: of a reading with a minus the leads are swapped.
struct Good {
    double low, high;
};
Good good_of(const Limit& limit, MeasureKind measure);

} // namespace loomsheet
