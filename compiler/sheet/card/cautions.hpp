// Cautions worked out from the circuit and the checks: one table, each row with its source (trade data, section 12).
#pragma once
#include "model/plan.hpp"
#include "sheet/words/words.hpp"
#include <span>

namespace loomsheet {

struct CautionRow {
    Word lead; // bold, a few words
    Word text;
    std::string_view source; // where the caution comes from
    bool (*applies)(const Plan& plan);
};
std::span<const CautionRow> usual_cautions();

struct CheckCautionRow {
    Word text;
    std::string_view source;
    bool (*applies)(const Plan& plan, const Check& check);
};
std::span<const CheckCautionRow> usual_check_cautions();

// The author's words for this check; where there are none, the usual ones that fit it.
std::vector<std::string> cautions_of(const Wording& say, const Plan& plan, const Check& check);

} // namespace loomsheet
