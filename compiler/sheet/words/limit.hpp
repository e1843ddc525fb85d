// Limits and outcomes in words, and the sums to do where a limit depends on an earlier reading.
#pragma once
#include "model/plan.hpp"
#include "sheet/words/words.hpp"
#include <string>
#include <vector>

namespace loomsheet {

// Whether rows differ in what they may read.
bool has_own_limits(const Check& check);
// All limits of a check that hold figures, those of its bands too.
std::vector<const Limit*> limits_of(const Check& check);

// "11.5 to 12.8 V", "0.3 V or less": the ends are included.
std::string limit_words(const Wording& say, const Limit& limit, MeasureKind measure);

struct OutcomeLine {
    bool good = false;                // circle, else diamond
    std::string words;                // "0.3 V or less", "anything else"
    const Outcome* outcome = nullptr; // nullptr: the fail that the plan left out, which means suspects
};
// Good first, then what the author named, then low, high, open, no current, fail.
// Without figures a limit is said as "in order", "lower", "higher".
enum class Figured : std::uint8_t { yes, no };
std::vector<OutcomeLine> outcome_lines(const Wording& say, const Check& check, Figured figured = Figured::yes);

struct Sum {              // "reading 1 ___ − 0.8 = ___ V"
    int reference = none; // the check that was read before
    std::string row;
    bool minus = true;
    std::string figure, unit;
};
std::vector<Sum> sums_of(const Wording& say, const Check& check);

} // namespace loomsheet
