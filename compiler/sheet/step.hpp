// Set-up items in words: as a tick, as part of the whole set-up, and as what goes back at the end.
#pragma once
#include "model/change.hpp"
#include <string>

namespace loomsheet {

struct Step {
    std::string main;  // "X21 UNPLUGGED"
    std::string how;   // "Fan motor plug, lock at 12 o'clock"; may be empty
    std::string blank; // unit of a figure to write beside it; empty = none
};

// `origin` is the number of the check one comes from, 0 for the car at rest: "it was on in 3".
Step step_of(const Circuit& circuit, const Change& change, int origin);
Step panel_off(const Panel& panel);

// "X21 unplugged", "lamp 21 W across X21.1 and X21.2"
std::string state_words(const Circuit& circuit, const SetupItem& item);
// All of it in one line: "key on · U1.47 on"; the car at rest has words of its own.
std::string setup_words(const Circuit& circuit, const Setup& setup);
// "X21 plugged in, lock clicks"
std::string put_back_words(const Circuit& circuit, const SetupItem& item);

} // namespace loomsheet
