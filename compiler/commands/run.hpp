// The whole program but for its surroundings, which are handed in, so that tests can call it.
#pragma once
#include "source/disk.hpp"
#include <iosfwd>

namespace loomsheet {

struct Surroundings {
    Disk& disk;
    std::ostream& out;
    std::ostream& err;
    bool out_colour = false; // a terminal, and NO_COLOR is not set
    bool err_colour = false;
    bool progress = false; // `err` is a terminal on which a line can be rewritten
};

// What the program ends with. Of several plans the gravest counts.
enum class Exit : int {
    clean = 0,  // warnings at most
    errors = 1, // in a plan
    usage = 2,  // or a file that cannot be read or written
    bug = 3,    // of ours
};

Exit run(int argc, const char* const* argv, const Surroundings& around);

} // namespace loomsheet
