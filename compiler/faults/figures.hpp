// How well a plan finds faults, in figures that testability work uses: shares weighted by how likely the faults are, groups
// counted in units, which are what is repaired or changed as one thing.
#pragma once
#include <cstddef>
#include <span>
#include <vector>

namespace loomsheet {

// One fault of a unit, and the groups that it may end in. What ends in one group is told apart no further. Without a group it is
// not found. Where it may end in several, the worst counts.
struct Grouped {
    double rate = 1;
    int unit = 0;
    std::vector<int> groups;
};

struct Isolation {
    double found = 0, found_plain = 0;                             // share of the rates, and of the faults by number
    double to_one = 0, to_two = 0, to_three = 0;                   // of what is found: groups of so many units at most
    double to_one_plain = 0, to_two_plain = 0, to_three_plain = 0; // the same by number of faults
    double group = 0;                                              // units in the group, on average over what is found
    double group_plain = 0;                                        // the same over the faults by number
    double group_of_groups = 0;                                    // the same over the groups, each once
    double first_right = 0;                                        // of what is found: whose unit is the likeliest of its group
    double tries = 0;      // units tried until the right one, likeliest first, on average over what is found
    std::size_t units = 0; // that have any fault
};
Isolation isolation(std::span<const Grouped> faults);

} // namespace loomsheet
