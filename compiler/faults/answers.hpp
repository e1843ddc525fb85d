// Which outcomes of a check a car may have. Bit i is outcome i of the check; the bit after the last is the fail that the plan
// left out, which means suspects.
#pragma once
#include "faults/prediction.hpp"
#include <cstdint>

namespace loomsheet {

using OutcomeSet = std::uint64_t;
inline OutcomeSet outcome_bit(std::size_t outcome) { return OutcomeSet{1} << std::min<std::size_t>(outcome, 63); }
inline bool is_sure(OutcomeSet set) { return (set & (set - 1)) == 0; } // one outcome only

// A check has no more than 63 outcomes that count; a reading that is not computed may have every one.
OutcomeSet outcomes_of(const Check& check, const CheckPrediction& made);
const Target* target_of(const Check& check, std::size_t outcome); // null: suspects, nothing named

} // namespace loomsheet
