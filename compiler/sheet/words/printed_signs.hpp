// What the cards of a sheet say, read off its pages as a technician reads them: numbers, letters, and where each outcome sends him.
#pragma once
#include "page/page.hpp"
#include <string>
#include <vector>

namespace loomsheet {

struct PrintedWay {
    std::string words; // what stands before it: "0.3 V or less", "go on · page 5"
    std::string sign;  // the number of a check, the letter of a verdict, STOP, DONE; empty where nothing is printed
};
struct PrintedCard {
    std::string label;                 // of the check or the verdict in the plan
    std::string sign;                  // its own number or letter
    std::vector<std::size_t> outcomes; // of a check, by way: which of the plan's, from 0; behind them the fail that the plan left out
    std::vector<PrintedWay> ways;      // of a verdict: where it is proved, where it goes on
};
struct PrintedSigns {
    std::vector<PrintedCard> checks, verdicts; // as they are printed
};
PrintedSigns printed_signs(const page::Document& document);

} // namespace loomsheet
