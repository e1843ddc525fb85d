// What changes in a set-up as ticks.
#pragma once
#include "model/change.hpp"
#include "sheet/words/words.hpp"
#include <span>
#include <string>

namespace loomsheet {

struct Step {
    std::string main;  // "X21 UNPLUGGED"
    std::string how;   // "Fan motor plug, lock at 12 o'clock"; may be empty
    std::string blank; // unit of a figure to write beside it; empty = none
};

// One tick a change; outputs of one module that follow each other share a tick. `origin` is the number of the check one
// comes from, 0 for the car at rest: "it was on in 3".
std::vector<Step> steps_of(const Wording& say, const Circuit& circuit, std::span<const Change> changes, int origin);
Step panel_off(const Wording& say, const Panel& panel);

} // namespace loomsheet
