// Which outcomes of a check a car may have. Bit i is outcome i of the check; the bit after the last is the fail that the plan
// left out, which means suspects.
#pragma once
#include "faults/prediction.hpp"
#include <cstdint>
#include <functional>

namespace loomsheet {

using OutcomeSet = std::uint64_t;
inline OutcomeSet outcome_bit(std::size_t outcome) { return OutcomeSet{1} << std::min<std::size_t>(outcome, 62); }
inline constexpr OutcomeSet stop_bit = OutcomeSet{1} << 63; // the reading jumps: the sheet says stop
inline bool is_sure(OutcomeSet set) { return (set & (set - 1)) == 0; } // one outcome only

enum class Answer : std::uint8_t { pass, low, high }; // of a row; of a look low is its NO
// Says no where a row cannot come to an answer for a reason beyond its own range.
using Possible = std::function<bool(std::size_t row, Answer)>;

// A check has no more than 62 outcomes that count; a reading that is not computed may have every one.
OutcomeSet outcomes_of(const Check& check, const CheckPrediction& made, const Possible& possible = {});
const Target* target_of(const Check& check, std::size_t outcome); // null: suspects, nothing named

} // namespace loomsheet
