// How the instrument is set for a check. Ranges are those of a 3 1/2 digit meter (trade data, section 7).
#pragma once
#include "model/plan.hpp"
#include "sheet/words/words.hpp"
#include <string>
#include <vector>

namespace loomsheet {

enum class Symbol : std::uint8_t { bare, direct, alternating }; // what stands behind the V or A on the dial

struct Dial {
    bool knob = true;     // a meter is set; else the words stand alone: "no meter", "test lamp"
    std::string function; // "V", "Ω", "A"
    Symbol symbol = Symbol::bare;
    bool fine = false;          // on the 2 V range, that reads 0.001 V
    std::string words;          // "20 V range", "no meter"
    std::string unit;           // of the reading; empty = what is seen is written down
    std::string caption;        // of the reading field
    std::string remark;         // "clamp to zero first"; may be empty
    bool lead_blank = false;    // the leads' own ohms are taken off: a blank for them
    bool current_blank = false; // a drop means nothing without its amps
};
Dial dial_of(const Wording& say, const Plan& plan, const Check& check);

} // namespace loomsheet
